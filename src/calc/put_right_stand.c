/* put_right_stand.c - how a batch stands: what is in it, how far it is from its superfat, and whether it can be left. */
#include <math.h>

#include "base/mass.h"
#include "calc/charged.h"
#include "calc/constants.h"
#include "calc/lye.h"
#include "calc/put_right_parts.h"
#include "calc/superfat.h"

/* A change under this is left (calculations, section 4). */
static const double one_point = 0.01;

/* Above what the recipe asks (memory). */
static const double five_points = 0.05;

/* Figures closer than this to a bound are on it. */
static const double nearly = 1e-9;

double put_right_most(double setting, const struct recipe *recipe)
{
    return setting > 0 ? setting : recipe->superfat + five_points;
}

void put_right_stand(const struct put_right_input *input, struct remedy remedies[REMEDIES],
                     struct standing_batch *batch)
{
    double asked = input->in->recipe->superfat, planned = input->plan->margin.nominal;

    batch->input = input;
    batch->least = fmin(asked, planned);
    batch->fuller = fmax(batch->least, planned);
    batch->most = fmax(input->superfat_most, fmax(asked, planned));
    batch->before_combining = input->phase == PHASE_APART || input->phase == PHASE_LYE_MIXED;
    batch->remedies = 0;
    batch->remedy = remedies;
    charged_plan(input->in, input->plan, input->charges, &batch->now);
    batch->balance = superfat_balance(input->in, &batch->now);
}

static bool lye_heavy(const struct plan *plan)
{
    for (int i = 0; i < plan->findings; i++)
        if (plan->finding[i].code == FINDING_LYE_HEAVY)
            return true;
    return false;
}

static double likely_low(const struct plan *plan)
{
    double low = plan->margin.likely.lo;

    for (int i = 0; i < plan->portions; i++)
        if (plan->portion[i].batter_ug > 0)
            low = fmin(low, plan->portion[i].margin.likely.lo);
    return low;
}

bool put_right_sound(const struct standing_batch *batch, const struct plan *plan)
{
    if (lye_heavy(plan))
        return false;
    return batch->least - plan->margin.nominal < one_point - nearly || likely_low(plan) > 0;
}

bool put_right_dissolves(const struct standing_batch *batch, const struct plan *plan)
{
    return !batch->before_combining || plan->water.strength_rounded <= lye_soluble(batch->input->in) * (1 + nearly);
}

int64_t put_right_mass_ug(const struct standing_batch *batch, struct part_ref part)
{
    const struct put_right_input *input = batch->input;
    struct charges charges = *input->charges;
    const struct charge *charge = charged_of(input->in, &charges, part);

    if (!charge)
        return 0;
    return charge->has ? charge->mass_ug : put_right_planned_ug(batch, part);
}

int64_t put_right_planned_ug(const struct standing_batch *batch, struct part_ref part)
{
    const struct weighing *weighing = charged_weighing(batch->input->in, batch->input->plan, part);

    return weighing ? weighing->rounded_ug : 0;
}

double put_right_slack(const struct margin_balance *balance, double superfat)
{
    return (1 - superfat) * balance->demand_mol - balance->excess_mol;
}

static double fat_mol_g(const struct oil_fact *fat, double share)
{
    return fat ? share * fat->sap_nominal / 1000 / MOLAR_KOH : 0;
}

static double alkali_mol_g(const struct standing_batch *batch, int alkali)
{
    double solution = batch->input->in->recipe->alkali.solution_share[alkali];

    return (solution > 0 ? solution : 1) * batch->now.purity[alkali].nominal / MOLAR_ALKALI[alkali];
}

double put_right_worth(const struct standing_batch *batch, struct part_ref part, double superfat)
{
    const struct recipe_facts *facts = batch->input->in->facts;
    double fat = 0, acid = 0;
    int i = part.index;

    if (!charged_weighing(batch->input->in, &batch->now, part))
        return 0;
    if (part.part == PART_ALKALI)
        return -alkali_mol_g(batch, i);
    if (part.part == PART_OIL)
        fat = batch->now.sap[i].nominal / 1000 / MOLAR_KOH;
    if (part.part == PART_LIQUID && facts->liquid[i]) {
        fat = fat_mol_g(facts->liquid_fat[i], facts->liquid[i]->fat_share);
        acid = facts->liquid[i]->acid_mol_per_kg / 1000;
    }
    if (part.part == PART_ADDITIVE && facts->additive[i]) {
        fat = fat_mol_g(facts->additive_fat[i], facts->additive[i]->fat_share);
        acid = lye_acid_mol(facts->additive[i], 1);
    }
    return acid + (1 - superfat) * fat;
}
