/* lye.c - alkali and water of a recipe at given oils, exact. */
#include "calc/lye.h"

#include <math.h>

#include "calc/constants.h"
#include "calc/dose.h"
#include "calc/fragrance.h"

/* Alkali that is asked for by what the liquids bring may grow the whole at most tenfold; a recipe beyond that (weak
 * lye all of vinegar) has no sensible answer and is held there, with a stop. */
#define MOST_FROM_LIQUIDS 0.9

/* Purities below this are taken as this: a divisor needs a floor. */
#define LEAST_PURITY 1e-6

static double per(double numerator, double denominator)
{
    return denominator > 0 ? fmin(numerator / denominator, MASS_MOST_G) : 0;
}

static double hydroxide_mol(const struct oil_fact *fat, double grams)
{
    return fat ? grams * fat->sap_nominal / 1000 / MOLAR_KOH : 0;
}

double lye_acid_mol(const struct additive_fact *fact, double grams)
{
    return fact->molar_mass > 0 ? grams * fact->active_share * fact->equivalents / fact->molar_mass : 0;
}

/* Grams of liquid i that bring the share of total_water_g that is asked of it. */
static double liquid_for(const struct plan_input *in, int i, double total_water_g)
{
    const struct liquid_fact *fact = in->facts->liquid[i];
    double water_share = fact ? fact->water_share : 1;

    return per(in->recipe->water.liquid[i].share_of_water * total_water_g, water_share);
}

/* What does not depend on the water: the oils and the additives. */
static void ask_of_solids(const struct plan_input *in, const struct plan *plan, double oils_g, struct lye_exact *out)
{
    const struct recipe *recipe = in->recipe;
    double mg_koh_g = 0;

    for (int i = 0; i < recipe->oils; i++)
        mg_koh_g += plan->oil_share[i] * plan->sap[i].nominal;
    out->demand_mol = oils_g * mg_koh_g / 1000 / MOLAR_KOH;
    out->acid_mol = 0;
    for (int i = 0; i < recipe->additives; i++) {
        const struct recipe_additive *additive = &recipe->additive[i];
        const struct additive_fact *fact = in->facts->additive[i];

        out->additive_g[i] = additive->by == ADDITIVE_OF_OILS ? additive->value * oils_g : additive->value;
        if (!fact)
            continue;
        out->demand_mol += hydroxide_mol(in->facts->additive_fat[i], out->additive_g[i] * fact->fat_share);
        out->acid_mol += lye_acid_mol(fact, out->additive_g[i]);
    }
}

/* Hydroxide demand of the fat and of the acid that comes with one gram of the total water, mol. */
static void ask_of_liquids(const struct plan_input *in, double *fat_mol, double *acid_mol)
{
    *fat_mol = *acid_mol = 0;
    for (int i = 0; i < in->recipe->water.liquids; i++) {
        const struct liquid_fact *fact = in->facts->liquid[i];
        double grams = liquid_for(in, i, 1);

        if (!fact)
            continue;
        *fat_mol += hydroxide_mol(in->facts->liquid_fat[i], grams * fact->fat_share);
        *acid_mol += grams * fact->acid_mol_per_kg / 1000;
    }
}

/* Water per gram of alkali that the recipe asks for; 0 where water is a share of the oils. */
static double ratio_asked(const struct recipe_water *water)
{
    switch (water->by) {
    case WATER_STRENGTH:
        return per(fmax(1 - water->value, 0), water->value);
    case WATER_RATIO:
        return fmin(water->value, MASS_MOST_G);
    case WATER_OF_OILS:
        break;
    }
    return 0;
}

/* Grams of both alkalis as weighed for one mole of hydroxide. */
static double alkali_per_mol(const struct plan_input *in, const struct plan *plan, double grams[ALKALIS])
{
    double f = in->recipe->alkali.potassium_share;

    for (int i = 0; i < ALKALIS; i++)
        grams[i] = (i == ALKALI_KOH ? f : 1 - f) * MOLAR_ALKALI[i] / fmax(plan->purity[i].nominal, LEAST_PURITY);
    return grams[ALKALI_NAOH] + grams[ALKALI_KOH];
}

/* Solves n = n0 + g W for the total water W, with W = ratio * q * n or a share of the oils. */
static void solve_water(const struct recipe_water *water, double oils_g, double n0, double g, double q,
                        struct lye_exact *out)
{
    if (water->by == WATER_OF_OILS) {
        out->total_water_g = out->asked_water_g = fmin(water->value * oils_g, MASS_MOST_G);
        return;
    }

    double asked = ratio_asked(water), ratio = asked;

    if (ratio * q * g > MOST_FROM_LIQUIDS)
        ratio = MOST_FROM_LIQUIDS / (q * g);

    double alkali_g = q * n0 / (1 - ratio * q * g);

    out->total_water_g = fmin(ratio * alkali_g, MASS_MOST_G);
    out->asked_water_g = fmin(asked * alkali_g, MASS_MOST_G);
}

static double additives_water(const struct plan_input *in, const struct lye_exact *exact)
{
    double grams = 0;

    for (int i = 0; i < in->recipe->additives; i++)
        if (in->facts->additive[i])
            grams += exact->additive_g[i] * in->facts->additive[i]->water_share;
    return grams;
}

static double solutions_water(const struct lye_exact *exact)
{
    double grams = 0;

    for (int i = 0; i < ALKALIS; i++)
        if (exact->solution_g[i] > 0)
            grams += exact->solution_g[i] - exact->alkali_g[i];
    return grams;
}

void lye_exact(const struct plan_input *in, const struct plan *plan, double oils_g, struct lye_exact *out)
{
    const struct recipe *recipe = in->recipe;
    double fat_mol, acid_mol, grams[ALKALIS], liquids_water = 0;
    double wanted = 1 - recipe->superfat;

    ask_of_solids(in, plan, oils_g, out);
    ask_of_liquids(in, &fat_mol, &acid_mol);

    double q = alkali_per_mol(in, plan, grams);
    double n0 = wanted * out->demand_mol + out->acid_mol;

    solve_water(&recipe->water, oils_g, n0, wanted * fat_mol + acid_mol, q, out);
    out->demand_mol += fat_mol * out->total_water_g;
    out->acid_mol += acid_mol * out->total_water_g;

    double moles = wanted * out->demand_mol + out->acid_mol;

    for (int i = 0; i < ALKALIS; i++) {
        double strength = recipe->alkali.solution_share[i];

        out->alkali_g[i] = fmin(moles * grams[i], MASS_MOST_G);
        out->solution_g[i] = per(out->alkali_g[i], strength);
    }
    for (int i = 0; i < recipe->water.liquids; i++) {
        out->liquid_g[i] = liquid_for(in, i, out->total_water_g);
        liquids_water += recipe->water.liquid[i].share_of_water * out->total_water_g;
    }
    out->water_g = out->total_water_g - liquids_water - solutions_water(out) - additives_water(in, out);
}

double lye_batter_g(const struct plan_input *in, const struct plan *plan, double oils_g)
{
    struct lye_exact exact;

    lye_exact(in, plan, oils_g, &exact);

    double batter_g = oils_g + fmax(exact.water_g, 0) + dose_batter_g(in, plan, oils_g);

    for (int i = 0; i < ALKALIS; i++)
        batter_g += exact.solution_g[i] > 0 ? exact.solution_g[i] : exact.alkali_g[i];
    for (int i = 0; i < in->recipe->water.liquids; i++)
        batter_g += exact.liquid_g[i];
    for (int i = 0; i < in->recipe->additives; i++)
        batter_g += exact.additive_g[i];
    return batter_g + fragrance_batter_g(in, oils_g, batter_g);
}
