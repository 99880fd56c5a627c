/* superfat.c - the mixture that a plan's batter or a portion of it is, and what its superfat says. */
#include "calc/superfat.h"

#include "base/mass.h"
#include "calc/coarse.h"
#include "calc/lye.h"
#include "calc/margin.h"
#include "calc/reserve.h"

/* A chance of excess alkali above this stops a batch for skin. */
static const double chance_to_stop = 0.25;

/* Superfat this little below 0 is 0: masses are brought to the nearest whole microgram before they are rounded down. */
static const double rounding_noise = 1e-6;

static struct margin_line line_of(const struct weighing *weighing, enum part part, int index, double counts)
{
    return (struct margin_line){.part = {part, (int16_t)index, 0},
                                .grams = mass_g(weighing->rounded_ug),
                                .counts = counts,
                                .half_g = weighing->half_ug > 0 ? mass_g(weighing->half_ug)
                                                                : mass_g(weighing->division_ug) / 2,
                                .scale = weighing->scale,
                                .fat = MARGIN_NO_FAT};
}

/* The value that a fact publishes, as an input named by `part`. */
static int published_sap(struct margin_mixture *mixture, const struct oil_fact *fact, struct part_ref part)
{
    if (!fact)
        return MARGIN_NO_FAT;
    return margin_sap(mixture, (struct margin_sap){.fact = fact,
                                                   .value = {false, fact->sap_lo, fact->sap_nominal, fact->sap_hi},
                                                   .part = part});
}

static int recipe_sap(const struct plan_input *in, const struct plan *plan, int oil, struct margin_mixture *mixture)
{
    return margin_sap(mixture, (struct margin_sap){.fact = in->facts->oil[oil],
                                                   .name = in->recipe->oil[oil].name,
                                                   .value = plan->sap[oil],
                                                   .part = {PART_OIL, (int16_t)oil, 0}});
}

/* What is kept back is taken from an oil that was weighed whole: less of it is in the jug, as uncertain as before. */
static void add_oils(const struct plan_input *in, const struct plan *plan, double counts, const int64_t kept_ug[],
                     struct margin_mixture *mixture)
{
    for (int i = 0; i < in->recipe->oils; i++) {
        struct margin_line line = line_of(&plan->oil[i], PART_OIL, i, counts);

        line.grams -= mass_g(kept_ug[i]);
        line.fat_share = 1;
        line.fat = recipe_sap(in, plan, i, mixture);
        margin_add(mixture, &line);
    }
}

static void add_alkali(const struct plan_input *in, const struct plan *plan, double counts,
                       struct margin_mixture *mixture)
{
    for (int i = 0; i < ALKALIS; i++) {
        const struct plan_alkali *alkali = &plan->alkali[i];
        bool ready_made = alkali->solution.division_ug > 0;
        struct margin_line line = line_of(ready_made ? &alkali->solution : &alkali->alkali, PART_ALKALI, i, counts);

        line.alkali = (enum alkali)i;
        line.alkali_share = ready_made ? in->recipe->alkali.solution_share[i] : 1;
        margin_add(mixture, &line);
    }
}

/* Liquids and additives, where they carry fat or acid. */
static void add_others(const struct plan_input *in, const struct plan *plan, double counts,
                       struct margin_mixture *mixture)
{
    for (int i = 0; i < in->recipe->water.liquids; i++) {
        const struct liquid_fact *fact = in->facts->liquid[i];
        struct margin_line line = line_of(&plan->liquid[i].liquid, PART_LIQUID, i, counts);

        if (!fact)
            continue;
        line.acid_mol_g = fact->acid_mol_per_kg / 1000;
        line.fat_share = fact->fat_share;
        line.fat = published_sap(mixture, in->facts->liquid_fat[i], line.part);
        margin_add(mixture, &line);
    }
    for (int i = 0; i < in->recipe->additives; i++) {
        const struct additive_fact *fact = in->facts->additive[i];
        struct margin_line line = line_of(&plan->additive[i].additive, PART_ADDITIVE, i, counts);

        if (!fact)
            continue;
        line.acid_mol_g = lye_acid_mol(fact, 1);
        line.fat_share = fact->fat_share;
        line.fat = published_sap(mixture, in->facts->additive_fat[i], line.part);
        margin_add(mixture, &line);
    }
}

/* `share` of all that was weighed but kept_ug of each oil. */
static void mix(const struct plan_input *in, const struct plan *plan, double share, const int64_t kept_ug[],
                struct margin_mixture *mixture)
{
    margin_begin(plan, mixture);
    add_oils(in, plan, share, kept_ug, mixture);
    add_alkali(in, plan, share, mixture);
    add_others(in, plan, share, mixture);
}

/* Oil of a carrier, its mass taken as exact; one line for all of the same oil. `same` is the recipe's oil that it
 * is, or -1. */
static void add_extra(const struct plan_input *in, const struct plan *plan, const struct oil_fact *fact, int same,
                      double grams, struct margin_mixture *mixture)
{
    int fat = same >= 0 ? recipe_sap(in, plan, same, mixture)
                        : published_sap(mixture, fact, (struct part_ref){PART_BATTER, 0, 0});

    if (fat == MARGIN_NO_FAT)
        return;
    for (int i = 0; i < mixture->lines; i++)
        if (mixture->line[i].scale == MARGIN_EXACT && mixture->line[i].fat == fat) {
            mixture->line[i].grams += grams;
            return;
        }
    margin_add(mixture, &(struct margin_line){.part = mixture->sap[fat].part,
                                              .grams = grams,
                                              .counts = 1,
                                              .scale = MARGIN_EXACT,
                                              .fat_share = 1,
                                              .fat = fat});
}

void superfat_of_part(const struct plan_input *in, const struct plan *plan, double share, int extras,
                      const struct superfat_extra extra[], struct margin *margin)
{
    struct margin_mixture mixture;

    mix(in, plan, share, plan->oil_kept_ug, &mixture);
    for (int i = 0; i < extras; i++)
        add_extra(in, plan, extra[i].oil, reserve_line(in, extra[i].oil, NULL), extra[i].mass_g, &mixture);
    margin_reckon(&mixture, margin);
}

/* Carriers of the colourants of one of the recipe's portions, into the mixture. */
static void add_carriers(const struct plan_input *in, const struct plan *plan, int portion,
                         struct margin_mixture *mixture)
{
    const struct recipe_portion *source = &in->recipe->portion[portion];

    for (int i = 0; i < source->colourants; i++) {
        const struct oil_fact *fact = in->facts->carrier[portion][i];
        double grams = mass_g(plan->portion[portion].colourant[i].carrier.rounded_ug);

        if (grams > 0)
            add_extra(in, plan, fact, reserve_line(in, fact, source->colourant[i].carrier_oil), grams, mixture);
    }
}

static bool has_carrier(const struct plan_input *in, const struct plan *plan, int portion)
{
    for (int i = 0; i < in->recipe->portion[portion].colourants; i++)
        if (plan->portion[portion].colourant[i].carrier.rounded_ug > 0)
            return true;
    return false;
}

/* The worst of the three findings about lye for a margin; false where there is nothing to say. */
static bool lye_finding(enum purpose purpose, const struct margin *margin, struct finding *finding)
{
    bool skin = purpose == PURPOSE_SKIN || purpose == PURPOSE_SHAVING;

    *finding = (struct finding){
        .number = {margin->nominal, margin->chance_lye_heavy, margin->likely.lo, margin->worst.lo}};
    if (margin->nominal < -rounding_noise || (skin && margin->chance_lye_heavy > chance_to_stop)) {
        finding->code = FINDING_LYE_HEAVY;
        finding->level = LEVEL_STOP;
    } else if (margin->likely.lo < -rounding_noise) {
        finding->code = FINDING_LYE_LIKELY;
        finding->level = skin ? LEVEL_CAUTION : LEVEL_REMARK;
    } else if (margin->worst.lo < -rounding_noise) {
        finding->code = FINDING_LYE_WORST;
        finding->level = LEVEL_REMARK;
    } else {
        return false;
    }
    return true;
}

/* All that is in the batter, once the colourants named under any portion are in it with their carriers where they go
 * into the whole. */
static void mix_whole(const struct plan_input *in, const struct plan *plan, struct margin_mixture *mixture)
{
    int64_t kept_ug[RECIPE_OILS] = {0};

    if (in->recipe->colour == PUT_IN_BATTER)
        reserve_kept(in, plan, kept_ug);
    mix(in, plan, 1, kept_ug, mixture);
    if (in->recipe->colour == PUT_IN_BATTER)
        for (int i = 0; i < in->recipe->portions; i++)
            add_carriers(in, plan, i, mixture);
}

struct margin_balance superfat_balance(const struct plan_input *in, const struct plan *plan)
{
    struct margin_mixture mixture;

    mix_whole(in, plan, &mixture);
    return margin_balance(&mixture);
}

void superfat_plan(const struct plan_input *in, struct plan *plan)
{
    struct margin_mixture mixture;
    struct margin plain;
    struct finding finding;

    superfat_of_part(in, plan, 1, 0, NULL, &plain);
    plan->margin = plain;
    if (in->recipe->colour == PUT_IN_BATTER) {
        mix_whole(in, plan, &mixture);
        margin_reckon(&mixture, &plan->margin);
    }
    if (lye_finding(in->recipe->purpose, &plan->margin, &finding))
        plan_find(plan, &finding);
    coarse_find(in, plan, &plain);
}

/* A portion's finding stands beside the batter's only where it is worse: a stop before a caution before a remark,
 * and of equal level lye-heavy before lye-likely before lye-worst, which is their order in finding.h. */
static void find_of_portion(const struct plan_input *in, struct plan *plan, const struct margin *margin, int portion)
{
    struct finding finding, whole;

    if (!lye_finding(in->recipe->purpose, margin, &finding))
        return;
    if (lye_finding(in->recipe->purpose, &plan->margin, &whole) && whole.code <= finding.code)
        return;
    finding.about = (struct part_ref){PART_PORTION, (int16_t)portion, 0};
    plan_find(plan, &finding);
}

void superfat_portions(const struct plan_input *in, struct plan *plan)
{
    bool whole = in->recipe->colour == PUT_IN_BATTER; /* then the carriers are in the batter already */
    struct margin plain = plan->margin;
    struct margin_mixture mixture;

    if (plan->kept_ug > 0)
        superfat_of_part(in, plan, 1, 0, NULL, &plain);
    for (int i = 0; i < plan->portions; i++) {
        struct plan_portion *portion = &plan->portion[i];

        portion->margin = plain;
        if (!whole && i < in->recipe->portions && has_carrier(in, plan, i)) {
            mix(in, plan, reserve_share(plan, portion), plan->oil_kept_ug, &mixture);
            add_carriers(in, plan, i, &mixture);
            margin_reckon(&mixture, &portion->margin);
        }
        find_of_portion(in, plan, &portion->margin, i);
    }
}
