/* lye_facts.c - which saponification values and purities a plan stands on. */
#include <math.h>

#include "calc/constants.h"
#include "calc/lye.h"

/* A value below 1 is grams of alkali per gram of oil, one of 100 to 150 is usual for mg NaOH per gram, and no oil
 * has so little mg KOH (ISO 3657 figures of common oils run from about 170 to 265; waxes are held by their published
 * range). */
static const double grams_below = 1, naoh_from = 100, naoh_to = 150;

/* mg NaOH per g as mg KOH per g. */
#define KOH_FOR_NAOH (MOLAR_KOH / MOLAR_NAOH)

static struct ranged published(const struct oil_fact *fact)
{
    return (struct ranged){.lo = fact->sap_lo, .nominal = fact->sap_nominal, .hi = fact->sap_hi};
}

static void find_about_oil(struct plan *plan, struct finding finding, int oil)
{
    finding.about = (struct part_ref){PART_OIL, (int16_t)oil, 0};
    plan_find(plan, &finding);
}

/* Takes `own` with the usual range where it was given without one. */
static struct ranged with_range(const struct practice *practice, struct ranged own)
{
    if (own.lo > 0 || own.hi > 0)
        return own;
    own.lo = own.nominal * (1 - practice->sap_own_half_range);
    own.hi = own.nominal * (1 + practice->sap_own_half_range);
    return own;
}

/* A value in grams per gram is never converted silently: it is a stop. So that the rest of the plan still says
 * something, it goes on with the published value, else with the value as g KOH per g. */
static struct ranged value_in_grams(const struct plan_input *in, struct plan *plan, int oil, struct ranged own)
{
    const struct oil_fact *fact = in->facts->oil[oil];

    find_about_oil(plan,
                   (struct finding){.code = FINDING_SAP_UNIT,
                                    .level = LEVEL_STOP,
                                    .number = {own.nominal, own.nominal * 1000, own.nominal * 1000 * KOH_FOR_NAOH}},
                   oil);
    if (fact)
        return published(fact);
    return with_range(in->reference->practice, (struct ranged){true, own.lo * 1000, own.nominal * 1000, own.hi * 1000});
}

static void find_naoh_unit(const struct oil_fact *fact, struct plan *plan, int oil, double value)
{
    bool held = fact && value >= fact->sap_lo && value <= fact->sap_hi;

    if (held || value < naoh_from || value > naoh_to)
        return;
    find_about_oil(plan,
                   (struct finding){.code = FINDING_SAP_UNIT,
                                    .level = LEVEL_CAUTION,
                                    .number = {value, value, value * KOH_FOR_NAOH}},
                   oil);
}

static void find_far(const struct practice *practice, const struct oil_fact *fact, struct plan *plan, int oil,
                     double value)
{
    if (!fact)
        return;

    double outside = fmax((fact->sap_lo - value) / fact->sap_lo, (value - fact->sap_hi) / fact->sap_hi);

    if (!(outside > practice->sap_far_share))
        return;
    find_about_oil(plan,
                   (struct finding){.code = FINDING_SAP_FAR,
                                    .level = LEVEL_CAUTION,
                                    .number = {value, fact->sap_lo, fact->sap_hi, outside}},
                   oil);
}

static struct ranged sap_in_use(const struct plan_input *in, struct plan *plan, int oil)
{
    const struct practice *practice = in->reference->practice;
    const struct oil_fact *fact = in->facts->oil[oil];
    struct ranged own = in->recipe->oil[oil].sap;

    if (!own.given)
        return fact ? published(fact) : (struct ranged){0};
    if (own.nominal < grams_below)
        return value_in_grams(in, plan, oil, own);
    find_naoh_unit(fact, plan, oil, own.nominal);
    find_far(practice, fact, plan, oil, own.nominal);

    struct ranged used = with_range(practice, own);

    if (own.lo <= 0 && own.hi <= 0)
        find_about_oil(plan,
                       (struct finding){.code = FINDING_SAP_NO_RANGE,
                                        .level = LEVEL_REMARK,
                                        .number = {used.nominal, used.lo, used.hi}},
                       oil);
    return used;
}

void lye_facts(const struct plan_input *in, struct plan *plan)
{
    const struct practice *practice = in->reference->practice;
    const struct ranged usual[ALKALIS] = {
        {false, practice->naoh_purity_lo, practice->naoh_purity_nominal, practice->naoh_purity_hi},
        {false, practice->koh_purity_lo, practice->koh_purity_nominal, practice->koh_purity_hi},
    };

    for (int i = 0; i < in->recipe->oils; i++)
        plan->sap[i] = sap_in_use(in, plan, i);
    for (int i = 0; i < ALKALIS; i++)
        plan->purity[i] = in->recipe->alkali.purity[i].given ? in->recipe->alkali.purity[i] : usual[i];
}
