/* acids.c - fatty acids of the blend, and what follows from them. */
#include "calc/acids.h"

#include "calc/constants.h"

double acids_sap(const struct reference *reference, const double share[ACIDS])
{
    double moles_per_g = 0.0;

    for (int a = 0; a < ACIDS; a++)
        moles_per_g += share[a] / reference->acid[a].molar_mass;
    if (moles_per_g <= 0.0)
        return 0.0;
    return 3.0 * MOLAR_KOH * 1000.0 / (3.0 / moles_per_g + MOLAR_GLYCEROL - 3.0 * MOLAR_WATER);
}

double acids_iodine(const struct reference *reference, const double share[ACIDS])
{
    double grams_per_g = 0.0;

    for (int a = 0; a < ACIDS; a++)
        grams_per_g += share[a] * reference->acid[a].iodine_factor;
    return 100.0 * grams_per_g;
}

/* Adds one oil's acids by its weight in the blend. */
static void add_oil(const struct reference *reference, const struct oil_fact *oil, double weight,
                    struct plan_acids *out)
{
    if (oil != NULL && oil->has_acids) {
        for (int a = 0; a < ACIDS; a++)
            out->share[a] += weight * oil->acid[a];
        out->iodine_value += weight * acids_iodine(reference, oil->acid);
        return;
    }
    out->unknown += weight;
    if (oil != NULL && oil->has_iodine)
        out->iodine_value += weight * (oil->iodine_lo + oil->iodine_hi) / 2.0;
}

static void sum_up(const struct reference *reference, struct plan_acids *out)
{
    for (int a = 0; a < ACIDS; a++) {
        const struct acid_fact *acid = &reference->acid[a];

        out->oxidisability += out->share[a] * acid->oxidisability;
        if (acid->hydroxy)
            out->hydroxy += out->share[a];
        else if (acid->double_bonds == 0)
            out->saturated += out->share[a];
        else if (acid->double_bonds == 1)
            out->monounsaturated += out->share[a];
        else
            out->polyunsaturated += out->share[a];
    }
}

static void find_rancid(const struct practice *practice, struct plan *plan)
{
    double quick = plan->acids.share[ACID_C18_2] + plan->acids.share[ACID_C18_3];

    if (quick <= practice->rancid_share * (1.0 + 1e-9))
        return;
    plan_find(plan, &(struct finding){.code = FINDING_RANCID_RISK,
                                      .level = LEVEL_REMARK,
                                      .about = {PART_BATTER, 0, 0},
                                      .number = {quick, practice->rancid_share}});
}

void acids_plan(const struct plan_input *in, struct plan *plan)
{
    plan->acids = (struct plan_acids){0};
    for (int i = 0; i < in->recipe->oils; i++)
        add_oil(in->reference, in->facts->oil[i], plan->oil_share[i], &plan->acids);
    sum_up(in->reference, &plan->acids);
    find_rancid(in->reference->practice, plan);
}
