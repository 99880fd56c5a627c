/* fill.c - volume of the filled portions before rounding. */
#include "calc/fill.h"

#include <math.h>

#include "calc/dose.h"
#include "calc/fragrance.h"
#include "calc/mould.h"
#include "calc/pieces.h"

/* A batter as far as its portions are concerned. */
struct pour {
    double usable_g, oils_share, density_g_ml;
};

void fill_fixed(const struct plan_input *in, struct fill_fixed *fixed)
{
    for (int i = 0; i < in->recipe->portions; i++) {
        const struct recipe_portion *portion = &in->recipe->portion[i];

        fixed->grams[i] = portion->demand == DEMAND_GRAMS ? portion->amount : 0;
        if (portion->demand == DEMAND_PIECES)
            fixed->grams[i] = pieces_asked_g(in, i);
    }
}

/* Grams of each portion: fixed demands first, then percents of the whole, the rest in equal parts of what remains. */
static void split(const struct plan_input *in, const struct fill_fixed *fixed, const struct pour *pour, double grams[])
{
    double left_g = pour->usable_g;
    int rests = 0;

    for (int i = 0; i < in->recipe->portions; i++) {
        const struct recipe_portion *portion = &in->recipe->portion[i];

        grams[i] = fixed->grams[i];
        if (portion->demand == DEMAND_LAYER)
            grams[i] = mould_layer_g(&in->recipe->size.mould, portion->amount, pour->density_g_ml);
        else if (portion->demand == DEMAND_SHARE)
            grams[i] = portion->amount * pour->usable_g;
        rests += portion->demand == DEMAND_REST;
        left_g -= grams[i];
    }
    for (int i = 0; i < in->recipe->portions; i++)
        if (in->recipe->portion[i].demand == DEMAND_REST)
            grams[i] = fmax(left_g, 0) / rests;
}

static double fragrance_ml(const struct plan_input *in, const struct pour *pour, double grams)
{
    double ml = 0;

    for (int i = 0; i < in->recipe->fragrances; i++) {
        const struct fragrance_fact *fact = in->facts->fragrance[i];
        double dose_g = fragrance_dose_g(&in->recipe->fragrance[i], grams * pour->oils_share, grams);

        ml += fact && fact->density_g_ml > 0 ? dose_g / fact->density_g_ml : dose_g;
    }
    return ml;
}

double fill_ml(const struct plan_input *in, const struct fill_fixed *fixed, double usable_g, double oils_share,
               double density_g_ml)
{
    const struct recipe *recipe = in->recipe;
    const struct pour pour = {usable_g, oils_share, density_g_ml};
    double grams[RECIPE_PORTIONS], ml = usable_g / density_g_ml;

    split(in, fixed, &pour, grams);
    for (int i = 0; i < recipe->portions; i++) {
        if (recipe->scent == PUT_IN_PORTIONS && recipe->portion[i].scented)
            ml += fragrance_ml(in, &pour, grams[i]);
        if (recipe->colour == PUT_IN_PORTIONS)
            ml += dose_portion_exact(in, i, grams[i] * oils_share, grams[i]).volume_ml;
    }
    return ml;
}
