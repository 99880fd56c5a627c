/* sheet_notes.c - findings with what to do, and the safety notes that stand on every sheet. */
#include "exchange/sheet_parts.h"

#include "exchange/plan_words.h"
#include "exchange/sheet_text.h"

static int shown(const struct plan_document *document, enum finding_level level)
{
    int count = 0;

    for (int i = 0; i < document->plan->findings; i++) {
        const struct finding *finding = &document->plan->finding[i];
        count += finding->level == level && !plan_hushed(document, finding);
    }
    return count;
}

static void finding_lines(const struct plan_document *document, struct buffer *out, int i)
{
    static const char *const sign[] = {
        [LEVEL_STOP] = "  STOP     ", [LEVEL_CAUTION] = "  caution  ", [LEVEL_REMARK] = "  remark   "};

    sheet_paragraph(out, sign[document->plan->finding[i].level], document->words[i].what);
    if (document->words[i].todo[0] != '\0')
        sheet_paragraph(out, "           > ", document->words[i].todo);
}

void sheet_findings(const struct plan_document *document, struct buffer *out)
{
    int stops = shown(document, LEVEL_STOP),
        all = stops + shown(document, LEVEL_CAUTION) + shown(document, LEVEL_REMARK);

    if (all == 0)
        return;
    sheet_heading(out, stops > 0 ? "FINDINGS - DO NOT START FROM THIS SHEET" : "FINDINGS");
    for (int i = 0; i < document->plan->findings; i++) {
        if (!plan_hushed(document, &document->plan->finding[i]))
            finding_lines(document, out, i);
    }
}

void sheet_safety(struct buffer *out)
{
    static const char *const notes[] = {
        "Sodium and potassium hydroxide burn skin and can blind. Lye and fresh batter stay corrosive until the alkali "
        "is used up.",
        "Wear splash goggles (glasses are not enough), alkali-proof gloves, long sleeves, an apron and closed shoes.",
        "Work with a window open or outdoors and do not lean over the vessel: what rises from it is caustic mist.",
        "Alkali into water, slowly and stirring, never water onto alkali: it can boil up and throw hot lye. Begin with "
        "cool water.",
        "Heat-safe plastic (PP 5, HDPE 2) or stainless steel only, no more than half full, marked LYE - CORROSIVE. No "
        "glass; no aluminium, "
        "zinc, tin, brass or copper: they are eaten away and give off hydrogen, which burns.",
        "Children and animals out, nobody eats or drinks, a running tap within reach. Start a blender under the "
        "surface, stop it before lifting.",
        "Acids go into the water before the alkali. Sugar, honey, milk and beer heat lye up: cold or frozen, and "
        "slowly.",
        "Powders: keep the dust down, wear a mask while weighing. Undiluted fragrance off the skin; it sensitises some "
        "people.",
        "ON SKIN: brush dry alkali off, clothing and jewellery off, plenty of cool running water for at least 20 "
        "minutes. Medical help for more "
        "than a trivial splash.",
        "IN AN EYE: running water at once, lids open, lenses out, 15 to 30 minutes and on the way to emergency care, "
        "always, even without pain.",
        "SWALLOWED: rinse the mouth, nothing to make one vomit, call for emergency help. BREATHED IN: fresh air; help "
        "if cough or tightness stays.",
        "No vinegar or other acid on skin or in an eye: it puts rinsing off and adds heat.",
        "Emergency number ______________   poison centre ______________",
        "Weigh and check twice: a vessel not tared, ounces for grams or one hydroxide for the other are the usual "
        "slips. What turns out lye-heavy "
        "or weeps liquid is not used.",
        "Published ranges do not replace the supplier's certificate, neither for saponification values nor for "
        "fragrance. Local cosmetics law, the "
        "fragrance supplier's certificate and licensed advice go before this sheet, which says what was computed and "
        "from what, not that a soap "
        "may be used or sold.",
    };

    sheet_heading(out, "SAFETY NOTES");
    for (size_t i = 0; i < sizeof notes / sizeof notes[0]; i++)
        sheet_paragraph(out, "  - ", notes[i]);
}
