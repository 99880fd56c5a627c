/* sheet_notes.c - findings with what to do, and the safety notes that stand on every sheet. */
#include "exchange/sheet_parts.h"

#include "base/safety.h"
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

static void note_lines(struct buffer *out, const char *const *notes)
{
    for (; *notes; notes++)
        sheet_paragraph(out, "  - ", *notes);
}

void sheet_safety(struct buffer *out)
{
    sheet_heading(out, "SAFETY NOTES");
    note_lines(out, safety_notes());
    note_lines(out, safety_first_aid());
    note_lines(out, safety_limits());
}
