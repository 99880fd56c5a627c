/* dose.c - doses of colourants, into portions or the whole batter, and what is too little to weigh. */
#include "calc/dose.h"

#include <math.h>
#include <stddef.h>

#include "base/mass.h"
#include "calc/density.h"
#include "calc/fragrance.h"
#include "calc/lye.h"
#include "calc/scales.h"

enum { FEW_DIVISIONS = 5 };

static const double COLOURANT_DENSITY = 1.0;
static const double DISPERSION_LEAST_G = 1;

/* What a dose is reckoned on. */
struct base {
    double oils_g, batter_g;
};

/* COLOUR_PARTS is no dose of its own: 0. */
static double dose_of(enum colour_by by, double value, struct base base)
{
    switch (by) {
    case COLOUR_PER_KG_OILS:
        return value * base.oils_g / 1000;
    case COLOUR_GRAMS:
        return value;
    case COLOUR_OF_PORTION:
        return value * base.batter_g;
    case COLOUR_PARTS:
        break;
    }
    return 0;
}

static double sum_of_parts(const struct recipe_portion *portion)
{
    double sum = 0;

    for (int c = 0; c < portion->colourants; c++)
        if (portion->colourant[c].by == COLOUR_PARTS)
            sum += portion->colourant[c].value;
    return sum;
}

/* Exact grams of colourant c. */
static double colourant_g(const struct recipe_portion *portion, int c, struct base base)
{
    const struct recipe_colourant *colourant = &portion->colourant[c];

    if (colourant->by != COLOUR_PARTS)
        return dose_of(colourant->by, colourant->value, base);

    double parts = sum_of_parts(portion);

    return parts > 0 ? dose_of(portion->blend_by, portion->blend_value, base) * (colourant->value / parts) : 0;
}

static double carrier_g(const struct recipe_colourant *colourant, double dose_g)
{
    return colourant->carrier_oil[0] != '\0' ? colourant->carrier_ratio * dose_g : 0;
}

static struct dose_added added(const struct plan_input *in, int i, int c, double dose_g, double oil_g)
{
    const struct practice *practice = in->reference->practice;
    double extra_g = in->recipe->portion[i].colourant[c].carrier_reserved ? 0 : oil_g;

    return (struct dose_added){
        .mass_g = dose_g + extra_g,
        .volume_ml = dose_g / COLOURANT_DENSITY +
                     extra_g / density_oil(practice, in->facts->carrier[i][c], practice->batter_temp_c),
    };
}

struct dose_added dose_as_rounded(const struct plan_input *in, const struct plan *plan, int i, int c)
{
    const struct plan_colourant *colourant = &plan->portion[i].colourant[c];

    return added(in, i, c, mass_g(colourant->colourant.rounded_ug), mass_g(colourant->carrier.rounded_ug));
}

struct dose_added dose_portion_exact(const struct plan_input *in, int i, double oils_g, double batter_g)
{
    const struct recipe_portion *portion = &in->recipe->portion[i];
    struct dose_added sum = {0, 0};

    for (int c = 0; c < portion->colourants; c++) {
        double dose_g = colourant_g(portion, c, (struct base){oils_g, batter_g});
        struct dose_added one = added(in, i, c, dose_g, carrier_g(&portion->colourant[c], dose_g));

        sum.mass_g += one.mass_g;
        sum.volume_ml += one.volume_ml;
    }
    return sum;
}

struct dose_added dose_batter_exact(const struct plan_input *in, double oils_g, double batter_g)
{
    struct dose_added sum = {0, 0};

    for (int i = 0; i < in->recipe->portions && in->recipe->colour == PUT_IN_BATTER; i++) {
        struct dose_added one = dose_portion_exact(in, i, oils_g, batter_g);

        sum.mass_g += one.mass_g;
        sum.volume_ml += one.volume_ml;
    }
    return sum;
}

double dose_batter_g(const struct plan_input *in, const struct plan *plan, double oils_g)
{
    if (in->recipe->colour != PUT_IN_BATTER)
        return 0;

    struct lye_exact exact;

    lye_exact(in, plan, oils_g, &exact);

    double batter_g = oils_g + fmax(exact.water_g, 0);

    for (int k = 0; k < ALKALIS; k++)
        batter_g += exact.solution_g[k] > 0 ? exact.solution_g[k] : exact.alkali_g[k];
    for (int i = 0; i < in->recipe->water.liquids; i++)
        batter_g += exact.liquid_g[i];
    for (int i = 0; i < in->recipe->additives; i++)
        batter_g += exact.additive_g[i];
    return dose_batter_exact(in, oils_g, batter_g).mass_g;
}

/* Weighs the colourants of portion i and their carriers. */
static void weigh_portion(const struct plan_input *in, struct plan *plan, int i, struct base base)
{
    const struct recipe_portion *portion = &in->recipe->portion[i];

    for (int c = 0; c < portion->colourants; c++) {
        struct plan_colourant *out = &plan->portion[i].colourant[c];
        double dose_g = colourant_g(portion, c, base);
        double oil_g = carrier_g(&portion->colourant[c], dose_g);

        out->colourant = scales_weigh(plan, dose_g, SCALES_NEAREST);
        if (oil_g > 0)
            out->carrier = scales_weigh(plan, oil_g, SCALES_NEAREST);
    }
}

void dose_into_batter(const struct plan_input *in, struct plan *plan)
{
    struct base whole = {mass_g(plan->oils_ug), mass_g(plan->batter_ug)};

    if (in->recipe->colour != PUT_IN_BATTER)
        return;
    for (int i = 0; i < in->recipe->portions; i++) {
        weigh_portion(in, plan, i, whole);
        for (int c = 0; c < in->recipe->portion[i].colourants; c++)
            plan->batter_ug += mass_ug(dose_as_rounded(in, plan, i, c).mass_g);
    }
}

static void dose_portion(const struct plan_input *in, struct plan *plan, int i)
{
    struct plan_portion *portion = &plan->portion[i];

    weigh_portion(in, plan, i, (struct base){portion->oils_g, mass_g(portion->batter_ug)});
    for (int c = 0; c < in->recipe->portion[i].colourants; c++) {
        struct dose_added one = dose_as_rounded(in, plan, i, c);

        portion->filled_g += one.mass_g;
        portion->volume_ml += one.volume_ml;
    }
}

struct dispersion dose_dispersion(double dose_g, double division_g)
{
    static const double thin[] = {10, 20, 50, 100};
    double ratio = 0, use_g = 0;

    for (size_t i = 0; i < sizeof thin / sizeof thin[0] && use_g < FEW_DIVISIONS * division_g; i++) {
        ratio = thin[i];
        use_g = round(ratio * dose_g / division_g) * division_g;
    }
    if (use_g <= 0)
        return (struct dispersion){0, 0, 0};

    double least_g = fmax(DISPERSION_LEAST_G, FEW_DIVISIONS * division_g);
    double weigh_g = ceil(least_g / division_g - 1e-9) * division_g;

    return (struct dispersion){weigh_g, weigh_g * (ratio - 1), use_g};
}

static void find_small(struct plan *plan, const struct weighing *dose, struct part_ref about, struct part_ref other)
{
    double division_g = mass_g(dose->division_ug);

    if (dose->exact_g <= 0 || mass_ug(dose->exact_g) >= FEW_DIVISIONS * dose->division_ug)
        return;

    struct dispersion mix = dose_dispersion(dose->exact_g, division_g);
    struct finding finding = {
        .code = FINDING_DOSE_SMALL,
        .level = LEVEL_CAUTION,
        .about = about,
        .other = other,
        .number = {dose->exact_g, division_g, mix.weigh_g, mix.carrier_g, mix.use_g},
    };

    plan_find(plan, &finding);
}

static void find_shift(const struct plan_input *in, struct plan *plan, int i, int c)
{
    enum alkaline_behaviour behaviour = in->facts->colourant[i][c]->behaviour;

    if (behaviour == ALKALI_STABLE)
        return;

    struct finding finding = {
        .code = FINDING_COLOUR_SHIFTS,
        .level = LEVEL_REMARK,
        .about = {PART_COLOURANT, (int16_t)i, (int16_t)c},
        .number = {behaviour},
    };

    plan_find(plan, &finding);
}

/* What fragrance_doses will weigh: its findings belong with the other doses, before it has run. */
static void find_small_fragrances(const struct plan_input *in, struct plan *plan, int i)
{
    const struct plan_portion *portion = &plan->portion[i];

    for (int f = 0; f < in->recipe->fragrances; f++) {
        double dose_g = fragrance_dose_g(&in->recipe->fragrance[f], portion->oils_g, mass_g(portion->batter_ug));
        struct weighing dose = scales_weigh(plan, dose_g, SCALES_NEAREST);

        find_small(plan, &dose, (struct part_ref){PART_FRAGRANCE, (int16_t)f, 0},
                   (struct part_ref){PART_PORTION, (int16_t)i, 0});
    }
}

static void find_doses_of_batter(const struct plan_input *in, struct plan *plan)
{
    const struct part_ref batter = {PART_BATTER, 0, 0};

    for (int i = 0; i < in->recipe->additives; i++)
        find_small(plan, &plan->additive[i].additive, (struct part_ref){PART_ADDITIVE, (int16_t)i, 0}, batter);
    for (int f = 0; f < in->recipe->fragrances && in->recipe->scent == PUT_IN_BATTER; f++)
        find_small(plan, &plan->batter_fragrance[f], (struct part_ref){PART_FRAGRANCE, (int16_t)f, 0}, batter);
}

void dose_plan(const struct plan_input *in, struct plan *plan)
{
    const struct recipe *recipe = in->recipe;

    find_doses_of_batter(in, plan);
    for (int i = 0; i < recipe->portions; i++) {
        if (recipe->colour == PUT_IN_PORTIONS)
            dose_portion(in, plan, i);
        for (int c = 0; c < recipe->portion[i].colourants; c++) {
            find_small(plan, &plan->portion[i].colourant[c].colourant,
                       (struct part_ref){PART_COLOURANT, (int16_t)i, (int16_t)c},
                       (struct part_ref){PART_PORTION, (int16_t)i, 0});
            find_shift(in, plan, i, c);
        }
        if (recipe->portion[i].scented && recipe->scent == PUT_IN_PORTIONS)
            find_small_fragrances(in, plan, i);
    }
}
