/* allergen.c - shares of allergens in the worst scented portion. */
#include "calc/allergen.h"

#include <string.h>

#include "calc/product.h"

static void add_fragrance(const struct reference *reference, const struct fragrance_fact *fact, double use,
                          double share[PLAN_ALLERGENS])
{
    if (fact->allergen >= 0 && fact->allergen < PLAN_ALLERGENS)
        share[fact->allergen] += use;
    for (size_t c = 0; c < fact->constituents; c++) {
        int allergen = reference->limit[fact->constituent[c].limit].allergen;

        if (allergen >= 0 && allergen < PLAN_ALLERGENS && allergen != fact->allergen)
            share[allergen] += use * fact->constituent[c].hi;
    }
}

void allergen_shares(const struct plan_input *in, const double use[RECIPE_FRAGRANCES], double share[PLAN_ALLERGENS])
{
    memset(share, 0, PLAN_ALLERGENS * sizeof share[0]);
    for (int i = 0; i < in->recipe->fragrances; i++)
        if (in->facts->fragrance[i] != NULL)
            add_fragrance(in->reference, in->facts->fragrance[i], use[i], share);
}

bool allergen_named(const struct allergen_fact *allergen, double share)
{
    return share > allergen->threshold_rinse_off * (1.0 + 1e-9);
}

static void insert_by_share(struct plan *plan, struct plan_allergen found)
{
    int at = plan->allergens++;

    for (; at > 0 && plan->allergen[at - 1].share < found.share; at--)
        plan->allergen[at] = plan->allergen[at - 1];
    plan->allergen[at] = found;
}

void allergen_plan(const struct plan_input *in, struct plan *plan)
{
    double use[RECIPE_FRAGRANCES], share[PLAN_ALLERGENS];

    if (plan->worst_portion < 0)
        return;
    product_uses(in, plan, &plan->portion[plan->worst_portion], use);
    allergen_shares(in, use, share);
    for (int a = 0; a < PLAN_ALLERGENS && (size_t)a < in->reference->allergens; a++)
        if (allergen_named(&in->reference->allergen[a], share[a]))
            insert_by_share(plan, (struct plan_allergen){a, share[a]});
}
