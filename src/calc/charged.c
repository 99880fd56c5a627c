/* charged.c - puts what was weighed into a plan, and finds anew what follows from it. */
#include "calc/charged.h"

#include <math.h>
#include <string.h>

#include "base/mass.h"
#include "base/text.h"
#include "calc/constants.h"
#include "calc/density.h"
#include "calc/dose.h"
#include "calc/findings.h"
#include "calc/fragrance.h"
#include "calc/heat.h"
#include "calc/lye.h"
#include "calc/mould.h"
#include "calc/pieces.h"
#include "calc/portion.h"
#include "calc/reserve.h"
#include "calc/scales.h"
#include "calc/superfat.h"

static const int64_t most_ug = (int64_t)MASS_MOST_G * UG_PER_G;

static int64_t within_most(int64_t ug)
{
    return ug < 0 ? 0 : ug < most_ug ? ug : most_ug;
}

/* What a reading may be off by: as stated, else half a division. */
static int64_t half_of(const struct weighing *weighing)
{
    return weighing->half_ug > 0 ? weighing->half_ug : weighing->division_ug / 2;
}

static void put_in(const struct plan *plan, const struct charge *charge, struct weighing *weighing)
{
    if (!charge->has)
        return;
    weighing->rounded_ug = within_most(charge->mass_ug);
    weighing->half_ug = within_most(charge->half_ug);
    if (charge->scale >= 0 && charge->scale < plan->scales)
        weighing->scale = charge->scale;
    weighing->division_ug = plan->scale[weighing->scale].division_ug;
}

static bool ready_made(const struct plan_input *in, int alkali)
{
    return in->recipe->alkali.solution_share[alkali] > 0;
}

const struct weighing *charged_weighing(const struct plan_input *in, const struct plan *plan, struct part_ref part)
{
    const struct recipe *recipe = in->recipe;
    int i = part.index;

    if (i < 0)
        return NULL;
    if (part.part == PART_OIL && i < recipe->oils)
        return &plan->oil[i];
    if (part.part == PART_ALKALI && i < ALKALIS)
        return ready_made(in, i) ? &plan->alkali[i].solution : &plan->alkali[i].alkali;
    if (part.part == PART_WATER)
        return &plan->water.water;
    if (part.part == PART_LIQUID && i < recipe->water.liquids)
        return &plan->liquid[i].liquid;
    if (part.part == PART_ADDITIVE && i < recipe->additives)
        return &plan->additive[i].additive;
    return NULL;
}

struct charge *charged_of(const struct plan_input *in, struct charges *charges, struct part_ref part)
{
    const struct recipe *recipe = in->recipe;
    int i = part.index;

    if (i < 0)
        return NULL;
    if (part.part == PART_OIL && i < recipe->oils)
        return &charges->oil[i];
    if (part.part == PART_ALKALI && i < ALKALIS)
        return &charges->alkali[i];
    if (part.part == PART_WATER)
        return &charges->water;
    if (part.part == PART_LIQUID && i < recipe->water.liquids)
        return &charges->liquid[i];
    if (part.part == PART_ADDITIVE && i < recipe->additives)
        return &charges->additive[i];
    return NULL;
}

/* The same to write to, of a plan that may be written to. */
static struct weighing *weighing_in(const struct plan_input *in, struct plan *plan, enum part part, int index)
{
    return (struct weighing *)charged_weighing(in, plan, (struct part_ref){part, (int16_t)index, 0});
}

static void put_all_in(const struct plan_input *in, const struct charges *charges, struct plan *out)
{
    out->oils_ug = 0;
    for (int i = 0; i < in->recipe->oils; i++) {
        put_in(out, &charges->oil[i], &out->oil[i]);
        out->oils_ug += out->oil[i].rounded_ug;
    }
    for (int i = 0; i < ALKALIS; i++)
        put_in(out, &charges->alkali[i], weighing_in(in, out, PART_ALKALI, i));
    put_in(out, &charges->water, &out->water.water);
    for (int i = 0; i < in->recipe->water.liquids; i++)
        put_in(out, &charges->liquid[i], &out->liquid[i].liquid);
    for (int i = 0; i < in->recipe->additives; i++)
        put_in(out, &charges->additive[i], &out->additive[i].additive);
}

bool charged_in_lye(const struct plan_input *in, int additive)
{
    const struct additive_fact *fact = in->facts->additive[additive];

    return fact && fact->add_to && (text_same(fact->add_to, "water") || text_same(fact->add_to, "lye"));
}

/* What the lye is made of; returns how many parts. */
enum { LYE_PARTS = ALKALIS + 1 + RECIPE_LIQUIDS + RECIPE_ADDITIVES };
static int lye_parts(const struct plan_input *in, struct part_ref part[LYE_PARTS])
{
    int parts = 0;

    for (int i = 0; i < ALKALIS; i++)
        part[parts++] = (struct part_ref){PART_ALKALI, (int16_t)i, 0};
    part[parts++] = (struct part_ref){PART_WATER, 0, 0};
    for (int i = 0; i < in->recipe->water.liquids; i++)
        part[parts++] = (struct part_ref){PART_LIQUID, (int16_t)i, 0};
    for (int i = 0; i < in->recipe->additives; i++)
        if (charged_in_lye(in, i))
            part[parts++] = (struct part_ref){PART_ADDITIVE, (int16_t)i, 0};
    return parts;
}

int64_t charged_lye_ug(const struct plan_input *in, const struct plan *plan)
{
    struct part_ref part[LYE_PARTS];
    int parts = lye_parts(in, part);
    int64_t sum_ug = 0;

    for (int i = 0; i < parts; i++)
        sum_ug += charged_weighing(in, plan, part[i])->rounded_ug;
    return sum_ug;
}

/* Only a share of the lye is poured. That weighing may be off too: each part bears its share of half a division. */
static void pour_share(const struct plan_input *in, double share, struct plan *out)
{
    struct part_ref part[LYE_PARTS];
    double lye_g = mass_g(charged_lye_ug(in, out));

    if (!(share > 0 && share < 1) || !(lye_g > 0))
        return;

    double pour_half_g = mass_g(out->scale[scales_for(out, share * lye_g, NULL)].division_ug) / 2;
    int parts = lye_parts(in, part);

    for (int i = 0; i < parts; i++) {
        struct weighing *weighing = weighing_in(in, out, part[i].part, part[i].index);
        double grams = mass_g(weighing->rounded_ug);

        weighing->half_ug = mass_ug(share * mass_g(half_of(weighing)) + pour_half_g * grams / lye_g);
        weighing->rounded_ug = mass_ug(share * grams);
    }
}

double charged_added_share(const struct plan_input *in, const struct plan *plan, enum alkali alkali)
{
    double strength = fmin(plan->water.strength, 1);

    return ready_made(in, (int)alkali) ? fmin(strength, in->recipe->alkali.solution_share[alkali]) : strength;
}

/* More of what is weighed already: both weighings may be off. */
static void put_more_in(const struct plan *plan, int scale, int64_t more_ug, int64_t half_ug, struct weighing *weighing)
{
    if (weighing->division_ug == 0) {
        weighing->scale = scale;
        weighing->division_ug = plan->scale[scale].division_ug;
    }
    weighing->half_ug = (weighing->rounded_ug > 0 ? half_of(weighing) : 0) + half_ug;
    weighing->rounded_ug = within_most(weighing->rounded_ug + more_ug);
}

static void add_lye(const struct plan_input *in, const struct charges *charges, struct plan *out)
{
    for (int i = 0; i < ALKALIS; i++) {
        const struct charge *added = &charges->added_lye[i];
        int64_t mass = added->has ? within_most(added->mass_ug) : 0;

        if (mass == 0)
            continue;

        double share = charged_added_share(in, out, (enum alkali)i);
        double weighed = ready_made(in, i) ? share / in->recipe->alkali.solution_share[i] : share;
        int scale = added->scale >= 0 && added->scale < out->scales ? added->scale
                                                                    : scales_for(out, mass_g(mass), NULL);
        int64_t half_ug = added->half_ug > 0 ? within_most(added->half_ug) : out->scale[scale].division_ug / 2;
        int64_t weighed_ug = mass_ug(mass_g(mass) * weighed);

        put_more_in(out, scale, weighed_ug, mass_ug(mass_g(half_ug) * weighed), weighing_in(in, out, PART_ALKALI, i));
        put_more_in(out, scale, mass - weighed_ug, mass_ug(mass_g(half_ug) * (1 - weighed)), &out->water.water);
    }
}

/* What is summed up along the way begins at nothing again. Colourants that are weighed into the whole batter stay. */
static void clear_followers(const struct plan_input *in, struct plan *out)
{
    for (int i = 0; i < PLAN_PORTIONS; i++) {
        struct plan_portion kept = out->portion[i], *portion = &out->portion[i];

        memset(portion, 0, sizeof *portion);
        portion->pace = kept.pace;
        if (in->recipe->colour == PUT_IN_BATTER)
            memcpy(portion->colourant, kept.colourant, sizeof kept.colourant);
    }
    memset(out->fragrance, 0, sizeof out->fragrance);
    memset(out->oil_kept_ug, 0, sizeof out->oil_kept_ug);
    for (int i = 0; i < in->recipe->fragrances; i++)
        out->fragrance[i].rounded_ug = out->batter_fragrance[i].rounded_ug;
    out->kept_ug = 0;
    out->allergens = 0;
    out->filled_ml = 0;
    out->findings = 0;
}

static bool speaks_of_charges(enum finding_code code)
{
    static const enum finding_code codes[] = {
        FINDING_LYE_HEAVY,    FINDING_LYE_LIKELY, FINDING_LYE_WORST,  FINDING_STRENGTH_OVER, FINDING_STRENGTH_HIGH,
        FINDING_STRENGTH_LOW, FINDING_HEAT_BOIL,  FINDING_MOULD_OVER, FINDING_PIECES_SHORT,
    };

    for (size_t i = 0; i < sizeof codes / sizeof codes[0]; i++)
        if (codes[i] == code)
            return true;
    return false;
}

static void keep_findings(const struct plan_input *in, struct plan *out)
{
    int kept = 0;

    findings_hush(in, out);
    for (int i = 0; i < out->findings; i++)
        if (speaks_of_charges(out->finding[i].code))
            out->finding[kept++] = out->finding[i];
    out->findings = kept;
}

void charged_plan(const struct plan_input *in, const struct plan *plan, const struct charges *charges, struct plan *out)
{
    int64_t into_batter_ug = plan->batter_ug - lye_batter_ug(in, plan); /* fragrance and colour */

    *out = *plan;
    put_all_in(in, charges, out);
    pour_share(in, charges->lye_used, out);
    add_lye(in, charges, out);
    clear_followers(in, out);
    lye_weighed(in, out);
    out->batter_ug += into_batter_ug;
    lye_find(in, out, out->water.strength_rounded);
    superfat_plan(in, out);
    density_plan(in, out);
    portion_plan(in, out);
    dose_plan(in, out);
    reserve_plan(in, out);
    superfat_portions(in, out);
    fragrance_doses(in, out);
    mould_plan(in, out);
    fragrance_plan(in, out);
    heat_plan(in, out);
    pieces_plan(in, out);
    keep_findings(in, out);
}
