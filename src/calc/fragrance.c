/* fragrance.c - how much fragrance goes where, and whether it will let the maker work. */
#include "calc/fragrance.h"

#include "base/mass.h"
#include "calc/allergen.h"
#include "calc/limit.h"
#include "calc/product.h"
#include "calc/scales.h"

/* A portion with more colourants than this needs many steps; so do swirls and layers of two portions or more. */
enum { FEW_COLOURANTS = 2, SEVERAL_PORTIONS = 2 };

double fragrance_dose_g(const struct recipe_fragrance *fragrance, double oils_g, double batter_g)
{
    switch (fragrance->by) {
    case FRAGRANCE_OF_OILS:
        return fragrance->value * oils_g;
    case FRAGRANCE_OF_BATTER:
        return fragrance->value * batter_g;
    case FRAGRANCE_PER_KG_OILS:
        return fragrance->value * oils_g / 1000.0;
    }
    return 0.0;
}

double fragrance_batter_g(const struct plan_input *in, double oils_g, double batter_g)
{
    double sum = 0.0;

    if (in->recipe->scent != PUT_IN_BATTER)
        return 0.0;
    for (int i = 0; i < in->recipe->fragrances; i++)
        sum += fragrance_dose_g(&in->recipe->fragrance[i], oils_g, batter_g);
    return sum;
}

void fragrance_into_batter(const struct plan_input *in, struct plan *plan)
{
    double oils_g = mass_g(plan->oils_ug), batter_g = mass_g(plan->batter_ug);

    if (in->recipe->scent != PUT_IN_BATTER)
        return;
    for (int i = 0; i < in->recipe->fragrances; i++) {
        double dose = fragrance_dose_g(&in->recipe->fragrance[i], oils_g, batter_g);
        plan->batter_fragrance[i] = scales_weigh(plan, dose, SCALES_NEAREST);
        plan->fragrance[i].rounded_ug = plan->batter_fragrance[i].rounded_ug;
        plan->batter_ug += plan->batter_fragrance[i].rounded_ug;
    }
}

/* The portion's part of what was stirred into the whole batter; already in its mass and volume. */
static void dose_by_batter(const struct plan_input *in, const struct plan *plan, struct plan_portion *portion)
{
    double sum = 0.0;

    for (int i = 0; i < in->recipe->fragrances; i++)
        sum += product_fragrance_g(in, plan, portion, i);
    portion->fragrance_ug = mass_ug(sum);
}

/* Millilitres; 1 g/mL where the density is not known, as for additives. */
static double volume_ml(const struct fragrance_fact *fact, double mass)
{
    return mass / (fact != NULL && fact->density_g_ml > 0.0 ? fact->density_g_ml : 1.0);
}

static void dose_portion(const struct plan_input *in, struct plan *plan, struct plan_portion *portion)
{
    double batter_g = mass_g(portion->batter_ug);

    for (int i = 0; i < in->recipe->fragrances; i++) {
        double dose = fragrance_dose_g(&in->recipe->fragrance[i], portion->oils_g, batter_g);
        struct weighing weighing = scales_weigh(plan, dose, SCALES_NEAREST);
        double mass = mass_g(weighing.rounded_ug);

        portion->fragrance[i] = weighing;
        portion->fragrance_ug += weighing.rounded_ug;
        portion->filled_g += mass;
        portion->volume_ml += volume_ml(in->facts->fragrance[i], mass);
        plan->fragrance[i].rounded_ug += weighing.rounded_ug;
    }
}

void fragrance_doses(const struct plan_input *in, struct plan *plan)
{
    for (int p = 0; p < plan->portions; p++) {
        struct plan_portion *portion = &plan->portion[p];

        if (in->recipe->scent == PUT_IN_BATTER)
            dose_by_batter(in, plan, portion);
        else if (product_scented(in, portion))
            dose_portion(in, plan, portion);
    }
}

/* The first fragrance of strong acceleration in the portion; -1: none. */
static int strong_fragrance(const struct plan_input *in, const struct plan *plan, const struct plan_portion *portion)
{
    for (int i = 0; i < in->recipe->fragrances; i++) {
        const struct fragrance_fact *fact = in->facts->fragrance[i];

        if (fact != NULL && fact->acceleration == ACCELERATION_STRONG &&
            product_fragrance_g(in, plan, portion, i) > 0.0)
            return i;
    }
    return -1;
}

static bool by_turns(enum technique technique)
{
    return technique == TECHNIQUE_SWIRL || technique == TECHNIQUE_LAYER;
}

/* Portions that are swirled or layered, each of which waits for the others. */
static int portions_by_turns(const struct plan *plan)
{
    int count = 0;

    for (int p = 0; p < plan->portions; p++)
        count += by_turns(plan->portion[p].technique);
    return count;
}

static void find_fast(const struct plan_input *in, struct plan *plan)
{
    bool several = portions_by_turns(plan) >= SEVERAL_PORTIONS;

    for (int p = 0; p < plan->portions; p++) {
        const struct plan_portion *portion = &plan->portion[p];
        int colourants = portion->source >= 0 ? in->recipe->portion[portion->source].colourants : 0;
        bool slow_work = portion->technique == TECHNIQUE_PIPE || colourants > FEW_COLOURANTS ||
                         (several && by_turns(portion->technique));
        int strong = slow_work ? strong_fragrance(in, plan, portion) : -1;

        if (strong < 0)
            continue;
        plan_find(plan, &(struct finding){.code = FINDING_FRAGRANCE_FAST,
                                          .level = LEVEL_CAUTION,
                                          .about = {PART_PORTION, (int16_t)portion->source, 0},
                                          .other = {PART_FRAGRANCE, (int16_t)strong, 0},
                                          .number = {colourants}});
    }
}

void fragrance_plan(const struct plan_input *in, struct plan *plan)
{
    product_plan(in, plan);
    limit_plan(in, plan);
    allergen_plan(in, plan);
    find_fast(in, plan);
}
