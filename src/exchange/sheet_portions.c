/* sheet_portions.c - how the batter is split, what goes into each portion, and how long it can be worked. */
#include "exchange/sheet_parts.h"

#include <math.h>
#include <string.h>

#include "base/mass.h"
#include "base/text.h"
#include "exchange/plan_words.h"
#include "exchange/sheet_text.h"
#include "lyeway/names.h"

enum { STRIP_COLUMNS = 74, LINE_BYTES = 512 };

/* Superfat of a portion is said where its carrier oils move it by more than this. */
#define SUPERFAT_MOVED 0.002

static char pattern_of(int portion)
{
    static const char patterns[] = "#%.=+*o~";

    return patterns[(size_t)portion % (sizeof patterns - 1)];
}

/* The batter as one bar, each portion as wide as its share; what stays in the jug is left blank. */
static void strip(const struct plan_document *document, struct buffer *out)
{
    const struct plan *plan = document->plan;
    double batter = (double)plan->batter_ug, before = 0;
    int at = 0;

    if (plan->batter_ug <= 0)
        return;
    buffer_add(out, "  |");
    for (int i = 0; i < plan->portions; i++) {
        before += (double)plan->portion[i].batter_ug;
        int end = (int)fmin(round(before / batter * STRIP_COLUMNS), STRIP_COLUMNS);
        sheet_repeat(out, pattern_of(i), end - at);
        at = end;
    }
    sheet_repeat(out, ' ', STRIP_COLUMNS - at);
    buffer_add(out, "|\n");
}

static const char *scent_words(const struct recipe *recipe, const struct plan_portion *portion)
{
    if (recipe->scent == PUT_IN_BATTER && recipe->fragrances > 0)
        return "scented in the jug";
    return portion->source >= 0 && recipe->portion[portion->source].scented ? "scented" : "unscented";
}

static void portion_line(const struct plan_document *document, struct buffer *out, int i)
{
    const struct plan *plan = document->plan;
    const struct plan_portion *portion = &plan->portion[i];
    double usable = (double)(plan->batter_ug - plan->residue_ug);
    char share[NUMBER_BYTES];

    sheet_percent(share, usable > 0 ? (double)portion->batter_ug / usable : 0, 1);
    buffer_add(out, "\n%c [ ] ", pattern_of(i));
    sheet_cell(out, document_name(document->input, plan_portion_ref(plan, i)), 28);
    sheet_mass(out, portion->batter_ug, portion->division_ug);
    buffer_add(out, "g  %s %%, %s, %s\n", share, name_of_technique(portion->technique),
               scent_words(document->input->recipe, portion));
}

/* The mass of a portion is with the carrier oil that was kept back for it. */
static void pour_words(struct buffer *out, const struct plan_portion *portion)
{
    char pour[NUMBER_BYTES], kept[NUMBER_BYTES], line[LINE_BYTES] = "";

    if (portion->kept_ug == 0)
        return;
    number_write_mass(pour, portion->batter_ug > portion->kept_ug ? portion->batter_ug - portion->kept_ug : 0, 0);
    number_write_mass(kept, portion->kept_ug, 0);
    text_add(line, sizeof line, "pour %s g from the jug: the other %s g are its carrier oil", pour, kept);
    sheet_paragraph(out, "    ", line);
}

static void scents(const struct plan_document *document, struct buffer *out, const struct plan_portion *portion)
{
    for (int i = 0; i < document->input->recipe->fragrances; i++) {
        if (portion->fragrance[i].division_ug > 0)
            sheet_weighing(document, out, "    ",
                           document_name(document->input, (struct part_ref){PART_FRAGRANCE, (int16_t)i, 0}),
                           &portion->fragrance[i], -1, 0);
    }
}

static void colours(const struct plan_document *document, struct buffer *out, const struct plan_portion *portion)
{
    const struct recipe *recipe = document->input->recipe;
    char carrier[LW_NAME_BYTES + 16];

    if (portion->source < 0 || recipe->colour == PUT_IN_BATTER)
        return;
    for (int i = 0; i < recipe->portion[portion->source].colourants; i++) {
        const struct recipe_colourant *asked = &recipe->portion[portion->source].colourant[i];
        sheet_weighing(
            document, out, "    ",
            document_name(document->input, (struct part_ref){PART_COLOURANT, (int16_t)portion->source, (int16_t)i}),
            &portion->colourant[i].colourant, -1, 0);
        if (portion->colourant[i].carrier.division_ug == 0)
            continue;
        carrier[0] = '\0';
        text_add(carrier, sizeof carrier, "  in %s%s", asked->carrier_oil,
                 asked->carrier_reserved ? ", kept back" : "");
        sheet_weighing(document, out, "    ", carrier, &portion->colourant[i].carrier, -1, 0);
    }
}

static void times_in_10(char *out, size_t size, double chance)
{
    int times = (int)lround(10 * chance);

    if (times > 9)
        text_add(out, size, "more than 9 times in 10");
    else if (times < 1)
        text_add(out, size, "less than 1 time in 10");
    else
        text_add(out, size, "%d time%s in 10", times, times == 1 ? "" : "s");
}

static void piece_words(const struct plan_document *document, struct buffer *out, const struct plan_portion *portion)
{
    const struct plan_pieces *pieces = &portion->pieces;
    const char *kind = portion->source < 0 ? "" : document->input->recipe->portion[portion->source].pieces.kind;
    char mass[NUMBER_BYTES], good[NUMBER_BYTES], line[LINE_BYTES] = "";

    if (!portion->has_pieces)
        return;
    number_write_short(mass, pieces->mass_g, pieces->mass_batches > 0 ? 2 : 3);
    number_write(good, pieces->expected_good, 0);
    text_add(line, sizeof line, "%s: %d wanted, %d to %s, %s g each", kind[0] == '\0' ? "pieces" : kind, pieces->wanted,
             pieces->to_pipe, portion->technique == TECHNIQUE_MOULD ? "mould" : "pipe", mass);
    if (pieces->mass_batches > 0)
        text_add(line, sizeof line, " (by %d of your batches)", pieces->mass_batches);
    if (pieces->bags > 0)
        text_add(line, sizeof line, ", %d bag%s", pieces->bags, pieces->bags == 1 ? "" : "s");
    text_add(line, sizeof line, "; about %s good expected, enough of them ", good);
    times_in_10(line, sizeof line, pieces->chance);
    sheet_paragraph(out, "    ", line);
}

static void minutes(char *out, size_t size, const struct quantiles *quantiles)
{
    char median[NUMBER_BYTES], low[NUMBER_BYTES], high[NUMBER_BYTES];

    number_write(median, quantiles->median, 0);
    number_write(low, quantiles->low, 0);
    number_write(high, quantiles->high, 0);
    text_add(out, size, "about %s min (%s to %s)", median, low, high);
}

static void pace_words(struct buffer *out, const struct plan_pace *pace)
{
    char line[LINE_BYTES] = "workable from ", need[NUMBER_BYTES];

    if (!(pace->until.median > 0))
        return;
    minutes(line, sizeof line, &pace->from);
    text_add(line, sizeof line, " until ");
    minutes(line, sizeof line, &pace->until);
    number_write(need, pace->need, 0);
    if (pace->need > 0)
        text_add(line, sizeof line, ", needs about %s min", need);
    if (pace->batches == 0)
        text_add(line, sizeof line, "; common practice, no batch of yours speaks");
    else
        text_add(line, sizeof line, "; from %d of your batches", pace->batches);
    sheet_paragraph(out, "    ", line);
}

static void superfat_words(struct buffer *out, const struct plan *plan, const struct plan_portion *portion)
{
    char own[NUMBER_BYTES], line[LINE_BYTES] = "";

    if (fabs(portion->margin.nominal - plan->margin.nominal) <= SUPERFAT_MOVED)
        return;
    sheet_percent(own, portion->margin.nominal, 1);
    text_add(line, sizeof line, "superfat of this portion with its carrier oil: %s %%", own);
    sheet_paragraph(out, "    ", line);
}

static void volume_words(struct buffer *out, const struct plan_portion *portion)
{
    char ml[NUMBER_BYTES], mm[NUMBER_BYTES];

    number_write(ml, portion->volume_ml, 0);
    number_write(mm, portion->layer_mm, 0);
    buffer_add(out, "    about %s mL filled", ml);
    if (portion->technique == TECHNIQUE_LAYER && portion->layer_mm > 0)
        buffer_add(out, ", a layer of about %s mm", mm);
    buffer_add(out, "\n");
}

static void residue_line(const struct plan *plan, struct buffer *out)
{
    buffer_add(out, "\n      ");
    sheet_cell(out, "stays in the jug", 28);
    sheet_mass(out, plan->residue_ug, 0);
    buffer_add(out, "g\n");
}

void sheet_portions(const struct plan_document *document, struct buffer *out)
{
    const struct plan *plan = document->plan;

    sheet_heading(out, "SPLIT");
    if (plan->split_valid)
        strip(document, out);
    else
        sheet_paragraph(out, "  ", "The portions do not fit the batter: they stand here as asked, see the findings.");
    for (int i = 0; i < plan->portions; i++) {
        portion_line(document, out, i);
        pour_words(out, &plan->portion[i]);
        volume_words(out, &plan->portion[i]);
        scents(document, out, &plan->portion[i]);
        colours(document, out, &plan->portion[i]);
        piece_words(document, out, &plan->portion[i]);
        pace_words(out, &plan->portion[i].pace);
        superfat_words(out, plan, &plan->portion[i]);
    }
    if (plan->split_valid)
        residue_line(plan, out);
}
