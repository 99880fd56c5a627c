/* sheet_scent.c - fragrance against its limit, what a label has to name, and the fatty acids of the oils. */
#include "exchange/sheet_parts.h"

#include <math.h>

#include "base/text.h"
#include "exchange/plan_words.h"
#include "exchange/sheet_text.h"

enum { LINE_BYTES = 4096, BAR_COLUMNS = 40 };

static void fragrance_line(const struct plan_document *document, struct buffer *out, int i)
{
    const struct plan_fragrance *fragrance = &document->plan->fragrance[i];
    char share[NUMBER_BYTES], limit[NUMBER_BYTES];

    sheet_percent(share, fragrance->share_of_product, 2);
    sheet_percent(limit, fragrance->limit_share, 2);
    buffer_add(out, "  ");
    sheet_cell(out, document_name(document->input, (struct part_ref){PART_FRAGRANCE, (int16_t)i, 0}), 26);
    sheet_mass(out, fragrance->rounded_ug, 0);
    buffer_add(out, "g   %5s %% of the soap, limit %s%s\n", share, fragrance->has_limit ? limit : "not known",
               fragrance->has_limit ? " %" : "");
}

static void limit_words(const struct plan_document *document, struct buffer *out)
{
    const struct plan_limit *limit = &document->plan->limit;
    char source[PLAN_WORDS_BYTES], scale[NUMBER_BYTES], line[LINE_BYTES] = "Limit: ";

    plan_limit_source(document, source);
    text_add(line, sizeof line, "%s.", source);
    if (limit->from != LIMIT_NONE_KNOWN && limit->from != LIMIT_NOT_BINDING && limit->scale > 0) {
        number_write(scale, limit->scale, 2);
        text_add(line, sizeof line, " The whole blend would meet it at %s times this load.", scale);
    }
    text_add(line, sizeof line,
             " Shares are of the worst scented portion after the expected cure. The supplier's certificate goes first: "
             "look at it.");
    sheet_paragraph(out, "  ", line);
}

static void allergen_words(const struct plan_document *document, struct buffer *out)
{
    const struct plan *plan = document->plan;
    char share[NUMBER_BYTES], line[LINE_BYTES] = "";

    if (plan->allergens == 0)
        return;
    for (int i = 0; i < plan->allergens; i++) {
        sheet_percent(share, plan->allergen[i].share, 2);
        text_add(line, sizeof line, "%s%s %s %%", i > 0 ? ", " : "",
                 document->input->reference->allergen[plan->allergen[i].allergen].inci, share);
    }
    sheet_paragraph(out, "  allergens to name: ", line);
}

void sheet_scent(const struct plan_document *document, struct buffer *out)
{
    if (document->input->recipe->fragrances == 0)
        return;
    sheet_heading(out, "FRAGRANCE");
    for (int i = 0; i < document->input->recipe->fragrances; i++)
        fragrance_line(document, out, i);
    limit_words(document, out);
    allergen_words(document, out);
}

#define LEAST_SHOWN 0.005 /* less than this of the oils goes under others */

static void bar_line(struct buffer *out, const char *name, double share, double most)
{
    char percent[NUMBER_BYTES];

    sheet_percent(percent, share, 1);
    buffer_add(out, "  ");
    sheet_cell(out, name, 24);
    buffer_add(out, "%6s %%  ", percent);
    sheet_repeat(out, '#', (int)fmax(round(share / most * BAR_COLUMNS), 1));
    buffer_add(out, "\n");
}

static void acid_words(const struct plan_acids *acids, struct buffer *out)
{
    char saturated[NUMBER_BYTES], mono[NUMBER_BYTES], poly[NUMBER_BYTES], hydroxy[NUMBER_BYTES], iodine[NUMBER_BYTES],
        index[NUMBER_BYTES];
    char line[LINE_BYTES] = "";

    sheet_percent(saturated, acids->saturated, 1);
    sheet_percent(mono, acids->monounsaturated, 1);
    sheet_percent(poly, acids->polyunsaturated, 1);
    sheet_percent(hydroxy, acids->hydroxy, 1);
    number_write(iodine, acids->iodine_value, 1);
    number_write(index, acids->oxidisability, 2);
    text_add(line, sizeof line, "saturated %s %%, monounsaturated %s %%, polyunsaturated %s %%, hydroxy %s %%; ",
             saturated, mono, poly, hydroxy);
    text_add(line, sizeof line, "iodine value %s, oxidisability %s", iodine, index);
    text_add(line, sizeof line, "%s.", acids->unknown >= LEAST_SHOWN ? ", both of the oils whose acids are known" : "");
    sheet_paragraph(out, "  ", line);
}

void sheet_acids(const struct plan_document *document, struct buffer *out)
{
    const struct plan_acids *acids = &document->plan->acids;
    double most = acids->unknown, others = 0;

    for (int i = 0; i < ACIDS; i++) {
        most = fmax(most, acids->share[i]);
        others += acids->share[i] < LEAST_SHOWN ? acids->share[i] : 0;
    }
    if (!(most > 0))
        return;
    sheet_heading(out, "FATTY ACIDS OF THE OILS");
    for (int i = 0; i < ACIDS; i++) {
        if (acids->share[i] >= LEAST_SHOWN)
            bar_line(out, document->input->reference->acid[i].name, acids->share[i], most);
    }
    if (others > 0)
        bar_line(out, "others", others, most);
    if (acids->unknown >= LEAST_SHOWN)
        bar_line(out, "not known", acids->unknown, most);
    acid_words(acids, out);
}
