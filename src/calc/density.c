/* density.c - the lye table read between its rows, and the batter's volume summed part by part. */
#include "calc/density.h"

#include <stddef.h>

#include "base/mass.h"
#include "calc/constants.h"
#include "calc/dose.h"
#include "calc/fragrance.h"
#include "calc/lye.h"
#include "calc/own.h"

/* Of colourants, of liquids' solids and of whatever has no density in its row. */
static const double UNKNOWN_DENSITY = 1.0;

/* Rows of one alkali at one temperature, by rising share. */
struct run {
    const struct lye_point *row;
    size_t n;
};

static struct run run_from(const struct reference *reference, size_t first)
{
    const struct lye_point *row = reference->density + first;
    size_t n = 1;

    while (first + n < reference->densities && row[n].solute == row->solute && row[n].temp_c == row->temp_c)
        n++;
    return (struct run){row, n};
}

static double between(double x, double x0, double y0, double x1, double y1)
{
    if (x <= x0)
        return y0;
    if (x >= x1)
        return y1;
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0);
}

static double run_value(struct run run, double share)
{
    size_t above = 0;

    while (above < run.n - 1 && run.row[above].share < share)
        above++;

    const struct lye_point *high = &run.row[above], *low = above > 0 ? high - 1 : high;

    return between(share, low->share, low->value, high->share, high->value);
}

/* One alkali alone. */
static double density_of(const struct reference *reference, int solute, double share, double temp_c)
{
    struct run low = {NULL, 0}, high = {NULL, 0}, run;

    for (size_t i = 0; i < reference->densities; i += run.n) {
        run = run_from(reference, i);
        if (run.row->solute != solute)
            continue;
        if (low.n == 0 || run.row->temp_c <= temp_c)
            low = run;
        if (high.n == 0 || high.row->temp_c < temp_c)
            high = run;
    }
    if (low.n == 0)
        return UNKNOWN_DENSITY;
    return between(temp_c, low.row->temp_c, run_value(low, share), high.row->temp_c, run_value(high, share));
}

double density_lye(const struct reference *reference, double share, double potassium_share, double temp_c)
{
    double sodium = 0, potassium = 0;

    if (potassium_share < 1)
        sodium = density_of(reference, ALKALI_NAOH, share, temp_c);
    if (potassium_share > 0)
        potassium = density_of(reference, ALKALI_KOH, share, temp_c);
    return (1 - potassium_share) * sodium + potassium_share * potassium;
}

double density_oil(const struct practice *practice, const struct oil_fact *oil, double temp_c)
{
    bool known = oil != NULL && oil->density_g_ml > 0;
    double density = known ? oil->density_g_ml : practice->oil_density_g_ml;
    double at_c = known ? oil->density_temp_c : practice->oil_density_temp_c;

    return density + practice->oil_density_slope * (temp_c - at_c);
}

static double fragrance_density(const struct fragrance_fact *fragrance)
{
    return fragrance != NULL && fragrance->density_g_ml > 0 ? fragrance->density_g_ml : UNKNOWN_DENSITY;
}

/* Grams of everything in the batter, exact or as rounded. */
struct amounts {
    double oil_g[RECIPE_OILS];
    double alkali_g[ALKALIS], solution_g[ALKALIS]; /* as weighed; solution 0 where alkali is dry */
    double water_g;
    double liquid_g[RECIPE_LIQUIDS], additive_g[RECIPE_ADDITIVES];
};

struct mix {
    double mass_g, volume_ml;
};

static void mix_add(struct mix *mix, double mass_g, double density_g_ml)
{
    mix->mass_g += mass_g;
    mix->volume_ml += mass_g / density_g_ml;
}

static void mix_lye(const struct plan_input *in, const struct plan *plan, const struct amounts *amounts,
                    struct mix *mix)
{
    double lye_g = amounts->water_g, pure_g = 0, mol[ALKALIS] = {0};

    for (int k = 0; k < ALKALIS; k++) {
        double alkali_g = amounts->alkali_g[k] * plan->purity[k].nominal;

        lye_g += amounts->solution_g[k] > 0 ? amounts->solution_g[k] : amounts->alkali_g[k];
        pure_g += alkali_g;
        mol[k] = alkali_g / MOLAR_ALKALI[k];
    }
    for (int i = 0; i < in->recipe->water.liquids; i++)
        lye_g += amounts->liquid_g[i] * in->facts->liquid[i]->water_share;
    if (lye_g <= 0)
        return;

    double potassium = mol[ALKALI_KOH] > 0 ? mol[ALKALI_KOH] / (mol[ALKALI_NAOH] + mol[ALKALI_KOH]) : 0;

    mix_add(mix, lye_g, density_lye(in->reference, pure_g / lye_g, potassium, in->reference->practice->batter_temp_c));
}

/* What of the liquids is not water. */
static void mix_liquids(const struct plan_input *in, const struct amounts *amounts, struct mix *mix)
{
    const struct practice *practice = in->reference->practice;

    for (int i = 0; i < in->recipe->water.liquids; i++) {
        const struct liquid_fact *liquid = in->facts->liquid[i];
        double fat_g = amounts->liquid_g[i] * liquid->fat_share;
        double solids_g = amounts->liquid_g[i] * (1 - liquid->water_share) - fat_g;

        mix_add(mix, fat_g, density_oil(practice, in->facts->liquid_fat[i], practice->batter_temp_c));
        mix_add(mix, solids_g, UNKNOWN_DENSITY);
    }
}

/* All but fragrance and colourants. */
static struct mix mix_of(const struct plan_input *in, const struct plan *plan, const struct amounts *amounts)
{
    const struct practice *practice = in->reference->practice;
    struct mix mix = {0, 0};

    for (int i = 0; i < in->recipe->oils; i++)
        mix_add(&mix, amounts->oil_g[i], density_oil(practice, in->facts->oil[i], practice->batter_temp_c));
    mix_lye(in, plan, amounts, &mix);
    mix_liquids(in, amounts, &mix);
    for (int i = 0; i < in->recipe->additives; i++) {
        double density = in->facts->additive[i]->density_g_ml;

        mix_add(&mix, amounts->additive_g[i], density > 0 ? density : UNKNOWN_DENSITY);
    }
    return mix;
}

static double mix_density(struct mix mix)
{
    return mix.volume_ml > 0 ? mix.mass_g / mix.volume_ml : UNKNOWN_DENSITY;
}

double density_exact(const struct plan_input *in, const struct plan *plan, double oils_g, const struct lye_exact *exact)
{
    const struct recipe *recipe = in->recipe;
    struct amounts amounts = {.water_g = exact->water_g > 0 ? exact->water_g : 0};

    for (int i = 0; i < recipe->oils; i++)
        amounts.oil_g[i] = plan->oil_share[i] * oils_g;
    for (int k = 0; k < ALKALIS; k++) {
        amounts.alkali_g[k] = exact->alkali_g[k];
        amounts.solution_g[k] = exact->solution_g[k];
    }
    for (int i = 0; i < recipe->water.liquids; i++)
        amounts.liquid_g[i] = exact->liquid_g[i];
    for (int i = 0; i < recipe->additives; i++)
        amounts.additive_g[i] = exact->additive_g[i];

    struct mix mix = mix_of(in, plan, &amounts);
    struct dose_added colour = dose_batter_exact(in, oils_g, mix.mass_g);

    mix.mass_g += colour.mass_g;
    mix.volume_ml += colour.volume_ml;
    if (recipe->scent == PUT_IN_BATTER) {
        double before_g = mix.mass_g;

        for (int i = 0; i < recipe->fragrances; i++)
            mix_add(&mix, fragrance_dose_g(&recipe->fragrance[i], oils_g, before_g),
                    fragrance_density(in->facts->fragrance[i]));
    }
    return mix_density(mix);
}

/* Colourants, carriers and fragrance that were weighed into the whole batter. */
static void mix_put_in(const struct plan_input *in, const struct plan *plan, struct mix *mix)
{
    const struct recipe *recipe = in->recipe;

    for (int p = 0; p < recipe->portions && recipe->colour == PUT_IN_BATTER; p++) {
        for (int c = 0; c < recipe->portion[p].colourants; c++) {
            struct dose_added added = dose_as_rounded(in, plan, p, c);

            mix->mass_g += added.mass_g;
            mix->volume_ml += added.volume_ml;
        }
    }
    for (int i = 0; i < recipe->fragrances && recipe->scent == PUT_IN_BATTER; i++)
        mix_add(mix, mass_g(plan->batter_fragrance[i].rounded_ug), fragrance_density(in->facts->fragrance[i]));
}

static struct mix mix_as_rounded(const struct plan_input *in, const struct plan *plan)
{
    const struct recipe *recipe = in->recipe;
    struct amounts amounts = {.water_g = mass_g(plan->water.water.rounded_ug)};

    for (int i = 0; i < recipe->oils; i++)
        amounts.oil_g[i] = mass_g(plan->oil[i].rounded_ug);
    for (int k = 0; k < ALKALIS; k++) {
        amounts.alkali_g[k] = mass_g(plan->alkali[k].alkali.rounded_ug);
        amounts.solution_g[k] = mass_g(plan->alkali[k].solution.rounded_ug);
    }
    for (int i = 0; i < recipe->water.liquids; i++)
        amounts.liquid_g[i] = mass_g(plan->liquid[i].liquid.rounded_ug);
    for (int i = 0; i < recipe->additives; i++)
        amounts.additive_g[i] = mass_g(plan->additive[i].additive.rounded_ug);

    struct mix mix = mix_of(in, plan, &amounts);

    mix_put_in(in, plan, &mix);
    return mix;
}

void density_plan(const struct plan_input *in, struct plan *plan)
{
    double measured = in->bench->density_g_ml;
    double density = measured > 0 ? measured : mix_density(mix_as_rounded(in, plan));

    plan->density_g_ml = density * (1 - own_air(in->bench));
    plan->batter_ml = mass_g(plan->batter_ug) / plan->density_g_ml;
}
