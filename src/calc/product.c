/* product.c - cured masses and the shares of fragrance in them. */
#include "calc/product.h"

#include <math.h>

#include "base/mass.h"
#include "calc/own.h"
#include "calc/reserve.h"

double product_cured_g(const struct practice *practice, double filled_g, double water_g)
{
    double dried = (filled_g - water_g) / (1.0 - practice->water_in_bar);
    double lighter = filled_g * (1.0 - practice->cure_loss_least);

    return dried < lighter ? dried : lighter;
}

/* By the recipe's own cured batches where there are enough, though never more than all its water gone. */
static double expected_g(const struct plan_input *in, double filled_g, double water_g)
{
    const struct learned_value *loss = &in->bench->learned.cure_loss;

    if (!own_known(loss))
        return product_cured_g(in->reference->practice, filled_g, water_g);
    return filled_g - fmin(fmax(loss->mean, 0.0) * filled_g, water_g);
}

double product_water_g(const struct plan_input *in, const struct plan *plan)
{
    double water = mass_g(plan->water.water.rounded_ug);

    for (int a = 0; a < ALKALIS; a++)
        if (plan->alkali[a].solution.division_ug > 0)
            water += mass_g(plan->alkali[a].solution.rounded_ug - plan->alkali[a].alkali.rounded_ug);
    for (int i = 0; i < in->recipe->water.liquids; i++)
        water += plan->liquid[i].water_g;
    for (int i = 0; i < in->recipe->additives; i++)
        water += plan->additive[i].water_g;
    return water;
}

bool product_scented(const struct plan_input *in, const struct plan_portion *portion)
{
    if (in->recipe->scent == PUT_IN_BATTER)
        return true;
    return portion->source >= 0 && in->recipe->portion[portion->source].scented;
}

double product_fragrance_g(const struct plan_input *in, const struct plan *plan, const struct plan_portion *portion,
                           int i)
{
    if (in->recipe->scent == PUT_IN_BATTER)
        return reserve_share(plan, portion) * mass_g(plan->batter_fragrance[i].rounded_ug);
    return mass_g(portion->fragrance[i].rounded_ug);
}

double product_uses(const struct plan_input *in, const struct plan *plan, const struct plan_portion *portion,
                    double use[RECIPE_FRAGRANCES])
{
    bool counts = product_scented(in, portion) && portion->cured_g > 0.0;
    double sum = 0.0;

    for (int i = 0; i < RECIPE_FRAGRANCES; i++) {
        use[i] = 0.0;
        if (counts && i < in->recipe->fragrances)
            use[i] = product_fragrance_g(in, plan, portion, i) / portion->cured_g;
        sum += use[i];
    }
    return sum;
}

void product_plan(const struct plan_input *in, struct plan *plan)
{
    double water = product_water_g(in, plan);
    double worst = 0.0;

    plan->worst_portion = -1;
    for (int p = 0; p < plan->portions; p++) {
        struct plan_portion *portion = &plan->portion[p];
        double use[RECIPE_FRAGRANCES];

        portion->cured_g = expected_g(in, portion->filled_g, water * reserve_share(plan, portion));
        double sum = product_uses(in, plan, portion, use);
        if (sum <= worst)
            continue;
        worst = sum;
        plan->worst_portion = p;
        for (int i = 0; i < in->recipe->fragrances; i++)
            plan->fragrance[i].share_of_product = use[i];
    }
}
