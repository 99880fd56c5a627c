/* put_right_propose.c - the proposals: how much of what, and what the margin becomes by it. */
#include <math.h>

#include "base/mass.h"
#include "calc/charged.h"
#include "calc/constants.h"
#include "calc/lye.h"
#include "calc/put_right_parts.h"
#include "calc/scales.h"
#include "calc/superfat.h"

/* An amount nearer to a whole division than a microgram is that division: sums of doubles come out a hair off. */
static const double hair_ug = 1;

/* Micrograms up or down to a division of the scale for that mass; 0 where there is nothing to weigh. */
static int64_t amount_up(const struct plan *plan, double grams)
{
    if (!(grams * UG_PER_G > hair_ug) || grams > MASS_MOST_G)
        return 0;

    int64_t ug = (int64_t)ceil(grams * UG_PER_G - hair_ug);

    return mass_up(ug, plan->scale[scales_for(plan, grams, NULL)].division_ug);
}

static int64_t amount_down(const struct plan *plan, double grams)
{
    if (!(grams > 0) || grams > MASS_MOST_G)
        return 0;

    int64_t ug = (int64_t)floor(grams * UG_PER_G + hair_ug);

    return mass_down(ug, plan->scale[scales_for(plan, grams, NULL)].division_ug);
}

static void reckon(const struct standing_batch *batch, struct remedy *remedy, struct plan *after)
{
    const struct put_right_input *input = batch->input;

    charged_plan(input->in, input->plan, &remedy->charges, after);
    remedy->margin = after->margin;
    remedy->strength = after->water.strength_rounded;
    remedy->batter_ug = after->batter_ug;
    remedy->batter_ml = after->batter_ml;
    for (int i = 0; i < after->findings; i++) {
        remedy->mould_over |= after->finding[i].code == FINDING_MOULD_OVER;
        remedy->pieces_short |= after->finding[i].code == FINDING_PIECES_SHORT;
    }
}

static struct remedy begin(const struct standing_batch *batch, enum remedy_kind kind)
{
    return (struct remedy){.kind = kind, .what = batch->input->what, .share = 1, .charges = *batch->input->charges};
}

static void put(struct standing_batch *batch, const struct remedy *remedy)
{
    if (batch->remedies < REMEDIES)
        batch->remedy[batch->remedies++] = *remedy;
}

/* Puts it on the list if the batch is sound with it, and no less dissolved than it was. */
static bool put_if_sound(struct standing_batch *batch, struct remedy *remedy)
{
    struct plan after;

    reckon(batch, remedy, &after);
    if (!put_right_sound(batch, &after))
        return false;
    if (put_right_dissolves(batch, &batch->now) && !put_right_dissolves(batch, &after))
        return false;
    put(batch, remedy);
    return true;
}

/* Makes a remedy that comes to that superfat; false where there is nothing to do. */
typedef bool maker(const struct standing_batch *batch, double superfat, struct remedy *remedy);

/* To what was asked; where that is too close to lye-heavy for the scales in use, to what was planned. */
static void put_made(struct standing_batch *batch, maker *make)
{
    struct remedy remedy;

    if (make(batch, batch->least, &remedy) && put_if_sound(batch, &remedy))
        return;
    if (batch->fuller > batch->least && make(batch, batch->fuller, &remedy))
        put_if_sound(batch, &remedy);
}

/* More (or, below 0, less) of a part than there was. What it is off by grows by this weighing. */
static void charge_more(const struct standing_batch *batch, struct part_ref part, int64_t more_ug,
                        struct charges *charges)
{
    const struct weighing *weighing = charged_weighing(batch->input->in, &batch->now, part);
    struct charge *charge = charged_of(batch->input->in, charges, part);
    int scale = scales_for(&batch->now, mass_g(more_ug < 0 ? -more_ug : more_ug), NULL);
    int64_t mass_ug = put_right_mass_ug(batch, part) + more_ug;
    int64_t half_ug = charge->has && charge->half_ug > 0 ? charge->half_ug : weighing->division_ug / 2;

    *charge = (struct charge){.has = true,
                              .mass_ug = mass_ug,
                              .half_ug = half_ug + batch->now.scale[scale].division_ug / 2,
                              .scale = weighing->division_ug > 0 ? weighing->scale : scale};
}

void put_right_leave(struct standing_batch *batch)
{
    struct remedy remedy = begin(batch, REMEDY_LEAVE);
    struct plan after;

    if (batch->remedies > 0 && batch->remedy[0].kind == REMEDY_LEAVE)
        return;
    if (!put_right_sound(batch, &batch->now) || !put_right_dissolves(batch, &batch->now))
        return;
    reckon(batch, &remedy, &after);
    put(batch, &remedy);
}

void put_right_set_aside(struct standing_batch *batch)
{
    struct remedy remedy = begin(batch, REMEDY_SET_ASIDE);
    struct plan after;

    if (batch->remedies > 0)
        return;
    reckon(batch, &remedy, &after);
    put(batch, &remedy);
}

/* Alkali goes out until superfat is right, whatever else was weighed, and one that the recipe does not have goes out whole;
 * anything else back to what was planned, but no further than superfat allows. */
static bool make_take_out(const struct standing_batch *batch, double superfat, struct remedy *remedy)
{
    struct part_ref what = batch->input->what;
    double worth = put_right_worth(batch, what, superfat), slack = put_right_slack(&batch->balance, superfat);
    int64_t mass = put_right_mass_ug(batch, what), over = mass - put_right_planned_ug(batch, what);

    *remedy = begin(batch, REMEDY_TAKE_OUT);
    if (worth < 0 && over == mass)
        remedy->mass_ug = mass;
    else if (worth < 0)
        remedy->mass_ug = amount_up(&batch->now, slack / worth);
    else if (worth > 0)
        remedy->mass_ug = amount_down(&batch->now, fmin(mass_g(over), slack / worth));
    else
        remedy->mass_ug = amount_down(&batch->now, mass_g(over));
    if (remedy->mass_ug <= 0 || remedy->mass_ug > mass)
        return false;
    charge_more(batch, what, -remedy->mass_ug, &remedy->charges);
    return true;
}

void put_right_take_out(struct standing_batch *batch)
{
    put_made(batch, make_take_out);
}

static double short_g(const struct standing_batch *batch)
{
    struct part_ref what = batch->input->what;

    return mass_g(put_right_planned_ug(batch, what) - put_right_mass_ug(batch, what));
}

/* What is missing of it, and more if superfat wants more. */
static bool make_add(const struct standing_batch *batch, double superfat, struct remedy *remedy)
{
    struct part_ref what = batch->input->what;
    double worth = put_right_worth(batch, what, superfat), grams = short_g(batch);

    if (worth > 0)
        grams = fmax(grams, -put_right_slack(&batch->balance, superfat) / worth);
    *remedy = begin(batch, batch->before_combining || what.part != PART_OIL ? REMEDY_ADD : REMEDY_ADD_OIL);
    remedy->mass_ug = amount_up(&batch->now, grams);
    if (remedy->mass_ug <= 0)
        return false;
    charge_more(batch, what, remedy->mass_ug, &remedy->charges);
    return true;
}

void put_right_add(struct standing_batch *batch)
{
    if (batch->input->what.part == PART_WATER && !put_right_dissolves(batch, &batch->now))
        put_right_add_water(batch);
    else
        put_made(batch, make_add);
}

void put_right_add_the_oil(struct standing_batch *batch)
{
    put_made(batch, make_add);
}

/* Which alkali to add: the one that was weighed, else the one that there is more of. */
static enum alkali alkali_to_add(const struct standing_batch *batch)
{
    const struct plan_alkali *planned = batch->input->plan->alkali;
    struct part_ref what = batch->input->what;

    if (what.part == PART_ALKALI && what.index >= 0 && what.index < ALKALIS && short_g(batch) > 0)
        return (enum alkali)what.index;
    return planned[ALKALI_KOH].moles > planned[ALKALI_NAOH].moles ? ALKALI_KOH : ALKALI_NAOH;
}

static bool make_add_alkali(const struct standing_batch *batch, double superfat, struct remedy *remedy)
{
    struct part_ref alkali = {PART_ALKALI, (int16_t)alkali_to_add(batch), 0};
    double worth = put_right_worth(batch, alkali, superfat);

    *remedy = begin(batch, REMEDY_ADD);
    remedy->what = alkali;
    if (worth < 0)
        remedy->mass_ug = amount_down(&batch->now, put_right_slack(&batch->balance, superfat) / -worth);
    if (remedy->mass_ug <= 0)
        return false;
    charge_more(batch, alkali, remedy->mass_ug, &remedy->charges);
    return true;
}

void put_right_add_alkali(struct standing_batch *batch)
{
    put_made(batch, make_add_alkali);
}

static bool too_soft(const struct standing_batch *batch)
{
    return batch->now.margin.nominal > batch->most;
}

void put_right_add_alkali_over(struct standing_batch *batch)
{
    if (too_soft(batch))
        put_right_add_alkali(batch);
}

/* Share u of the lye: with n, A and D of all of the lye and of the rest, u (n - A) of the one less A of the other is
 * (1 - s) of u D and D. */
static bool make_pour_share(const struct standing_batch *batch, double superfat, struct remedy *remedy)
{
    const struct plan_input *in = batch->input->in;
    struct plan none, all;

    *remedy = begin(batch, REMEDY_POUR_SHARE);
    remedy->charges.lye_used = 1;
    charged_plan(in, batch->input->plan, &remedy->charges, &all);
    none = all;
    for (int i = 0; i < ALKALIS; i++)
        none.alkali[i].alkali.rounded_ug = none.alkali[i].solution.rounded_ug = 0;
    for (int i = 0; i < in->recipe->water.liquids; i++)
        none.liquid[i].liquid.rounded_ug = 0;
    for (int i = 0; i < in->recipe->additives; i++)
        if (charged_in_lye(in, i))
            none.additive[i].additive.rounded_ug = 0;

    struct margin_balance with = superfat_balance(in, &all), without = superfat_balance(in, &none);
    double room = put_right_slack(&without, superfat), taken = room - put_right_slack(&with, superfat);
    int64_t lye = charged_lye_ug(in, &all);
    double used = batch->input->charges->lye_used;

    if (!(taken > 0) || !(room > 0))
        return false;
    remedy->mass_ug = amount_down(&batch->now, room / taken * mass_g(lye));
    remedy->share = lye > 0 ? (double)remedy->mass_ug / (double)lye : 0;
    remedy->charges.lye_used = remedy->share;
    return remedy->mass_ug > 0 && remedy->share < (used > 0 ? used : 1);
}

/* Grains that lie undissolved would not be shared out with the lye. */
void put_right_pour_share(struct standing_batch *batch)
{
    if (put_right_dissolves(batch, &batch->now))
        put_made(batch, make_pour_share);
}

static bool make_add_lye(const struct standing_batch *batch, double superfat, struct remedy *remedy)
{
    const struct plan_input *in = batch->input->in;
    enum alkali alkali = alkali_to_add(batch);
    struct charge *charge = &remedy->charges.added_lye[alkali];
    double share = charged_added_share(in, batch->input->plan, alkali);
    double mol_g = share * batch->now.purity[alkali].nominal / MOLAR_ALKALI[alkali];
    double grams = mol_g > 0 ? put_right_slack(&batch->balance, superfat) / mol_g : 0;

    *remedy = begin(batch, REMEDY_ADD_LYE);
    remedy->what = (struct part_ref){PART_ALKALI, (int16_t)alkali, 0};
    remedy->mass_ug = share <= lye_soluble(in) ? amount_down(&batch->now, grams) : 0;
    if (remedy->mass_ug <= 0)
        return false;
    remedy->alkali_ug = mass_ug(mass_g(remedy->mass_ug) * share);
    remedy->water_ug = remedy->mass_ug - remedy->alkali_ug;
    charge->scale = scales_for(&batch->now, mass_g(remedy->mass_ug), NULL);
    charge->half_ug = (charge->has ? charge->half_ug : 0) + batch->now.scale[charge->scale].division_ug / 2;
    charge->mass_ug = (charge->has ? charge->mass_ug : 0) + remedy->mass_ug;
    charge->has = true;
    return true;
}

void put_right_add_lye(struct standing_batch *batch)
{
    put_made(batch, make_add_lye);
}

void put_right_add_lye_over(struct standing_batch *batch)
{
    if (too_soft(batch))
        put_right_add_lye(batch);
}

/* Adds oil in those proportions (of a whole, the sum need not be 1), each rounded up. */
static bool make_oils(const struct standing_batch *batch, double superfat, const double part[RECIPE_OILS],
                      struct remedy *remedy)
{
    int oils = batch->input->in->recipe->oils;
    double worth = 0;

    for (int i = 0; i < oils; i++)
        worth += part[i] * put_right_worth(batch, (struct part_ref){PART_OIL, (int16_t)i, 0}, superfat);
    if (!(worth > 0))
        return false;

    double whole_g = -put_right_slack(&batch->balance, superfat) / worth;

    for (int i = 0; i < oils; i++) {
        remedy->oil_ug[i] = amount_up(&batch->now, part[i] * whole_g);
        remedy->mass_ug += remedy->oil_ug[i];
        if (remedy->oil_ug[i] > 0)
            charge_more(batch, (struct part_ref){PART_OIL, (int16_t)i, 0}, remedy->oil_ug[i], &remedy->charges);
    }
    return remedy->mass_ug > 0;
}

static bool make_add_oils(const struct standing_batch *batch, double superfat, struct remedy *remedy)
{
    *remedy = begin(batch, REMEDY_ADD_OILS);
    remedy->what = (struct part_ref){PART_BATTER, 0, 0};
    return make_oils(batch, superfat, batch->input->plan->oil_share, remedy);
}

/* The oil that the recipe has most of, or most after that; -1 if there is none. */
static int largest_oil(const struct standing_batch *batch, int after)
{
    const struct plan *plan = batch->input->plan;
    int best = -1;

    for (int i = 0; i < batch->input->in->recipe->oils; i++)
        if (i != after && plan->oil[i].rounded_ug > 0 &&
            (best < 0 || plan->oil[i].rounded_ug > plan->oil[best].rounded_ug))
            best = i;
    return best;
}

static bool make_add_one(const struct standing_batch *batch, double superfat, int oil, struct remedy *remedy)
{
    double part[RECIPE_OILS] = {0};

    *remedy = begin(batch, REMEDY_ADD_OIL);
    if (oil < 0)
        return false;
    part[oil] = 1;
    remedy->what = (struct part_ref){PART_OIL, (int16_t)oil, 0};
    return make_oils(batch, superfat, part, remedy);
}

static bool make_add_largest(const struct standing_batch *batch, double superfat, struct remedy *remedy)
{
    return make_add_one(batch, superfat, largest_oil(batch, -1), remedy);
}

static bool make_add_second(const struct standing_batch *batch, double superfat, struct remedy *remedy)
{
    return make_add_one(batch, superfat, largest_oil(batch, largest_oil(batch, -1)), remedy);
}

void put_right_add_oils(struct standing_batch *batch)
{
    put_made(batch, make_add_oils);
    put_made(batch, make_add_largest);
    put_made(batch, make_add_second);
}

/* As much as was planned, and what it takes for all alkali to dissolve. */
void put_right_add_water(struct standing_batch *batch)
{
    const struct plan_input *in = batch->input->in;
    struct part_ref water = {PART_WATER, 0, 0};
    struct remedy remedy = begin(batch, REMEDY_ADD);
    double strength = batch->now.water.strength_rounded, soluble = lye_soluble(in), alkali_g = 0;
    double missing_g = mass_g(put_right_planned_ug(batch, water) - put_right_mass_ug(batch, water));
    struct plan after;

    for (int i = 0; i < ALKALIS; i++)
        alkali_g += mass_g(batch->now.alkali[i].alkali.rounded_ug);
    if (strength > soluble)
        missing_g = fmax(missing_g, alkali_g / soluble - alkali_g / strength);
    remedy.what = water;
    remedy.mass_ug = amount_up(&batch->now, missing_g);
    if (remedy.mass_ug <= 0)
        return;
    charge_more(batch, water, remedy.mass_ug, &remedy.charges);
    reckon(batch, &remedy, &after);
    put(batch, &remedy);
}
