/* yield.c - mass a piece with its spread, from what was left. */
#include "calc/yield.h"

#include <math.h>
#include <string.h>

#include "base/mass.h"
#include "calc/pieces.h"
#include "calc/piping.h"

enum { RATE_PIECES = 4 };

/* Pieces made between two weighings, and their mean mass; false where a bag was emptied meanwhile or nothing can be told. */
static bool stretch(const struct practice *practice, double filled_g, const struct left_seen *before,
                    const struct left_seen *after, int *made, double *mean_g)
{
    double in_bags_g = filled_g + practice->first_squeeze_g;

    *made = after->made - before->made;
    *mean_g = *made > 0 ? mass_g(before->left_ug - after->left_ug) / *made : 0;
    return *made > 0 && *mean_g > 0 &&
           piping_emptied(practice, in_bags_g, mass_g(before->left_ug)) ==
               piping_emptied(practice, in_bags_g, mass_g(after->left_ug));
}

/* From the weighing before each to it; before the first, the bags as they were filled. That a few grams more or less were in them
 * than was foreseen would be read as spread: where they were not weighed, the first weighing begins. */
static void spread_within(const struct practice *practice, const struct piping_terms *terms,
                          const struct left_seen left[], int n, struct book_pieces *out)
{
    double filled_g = terms->filled_g - terms->cup_g - terms->squeeze_g;
    struct left_seen filled = {mass_ug(filled_g), 0};
    double sum = 0, mean, squares = 0, mean_g;
    int all = 0, stretches = 0, made, first = terms->weighed ? 0 : 1;

    for (int i = first; i < n; i++) {
        if (!stretch(practice, filled_g, i > 0 ? &left[i - 1] : &filled, &left[i], &made, &mean_g))
            continue;
        all += made;
        sum += made * mean_g;
        stretches++;
    }
    if (stretches < 2)
        return;
    mean = sum / all;
    for (int i = first; i < n; i++)
        if (stretch(practice, filled_g, i > 0 ? &left[i - 1] : &filled, &left[i], &made, &mean_g))
            squares += made * (mean_g - mean) * (mean_g - mean);
    out->within_squares = squares;
    out->within_degrees = stretches - 1;
}

int yield_of(const struct plan_input *in, const struct plan *plan, const struct batch *batch, int kind,
             const struct left_seen left[], int n, struct book_pieces out[], int most)
{
    const struct batch_pieces *pieces = &batch->pieces[kind];
    const struct practice practice = piping_practice(in, batch);
    struct pieces all = pieces_of_portion(in, pieces->portion).pieces;
    struct piping_terms terms;
    bool told = piping_own(in, plan, batch, kind, &terms);
    int parts = 0;

    for (int p = 0; p < in->recipe->portions && parts < most; p++) {
        const struct recipe_portion *portion = &in->recipe->portion[p];
        struct book_pieces part = {.class = all.class,
                                   .first_time = all.first_time,
                                   .counted = pieces->good + pieces->rejects > 0,
                                   .good = pieces->good,
                                   .rejects = pieces->rejects - pieces->scraped,
                                   .each_g = NAN};

        if (!portion->has_pieces || !pieces_same(in->recipe, pieces->portion, p))
            continue;
        memcpy(part.kind, portion->pieces.kind, sizeof part.kind);
        memcpy(part.part, portion->name, sizeof part.part);
        if (told && p == terms.portion) {
            part.each_g = terms.each_g;
            part.made = terms.made;
            spread_within(&practice, &terms, left, n, &part);
        }
        out[parts++] = part;
    }
    return parts;
}

double yield_seconds(const struct batch_pieces *pieces, int made)
{
    if (made < RATE_PIECES || pieces->last_s <= pieces->first_s)
        return NAN;
    return (double)(pieces->last_s - pieces->first_s) / (made - 1);
}
