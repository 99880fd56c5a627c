/* portion.c - reads what the portions ask, settles the division, and shares the batter or says why it cannot. */
#include "calc/portion.h"

#include <math.h>
#include <stddef.h>

#include "base/mass.h"
#include "calc/apportion.h"
#include "calc/lye.h"
#include "calc/mould.h"
#include "calc/own.h"
#include "calc/pieces.h"
#include "calc/scales.h"

/* By which percents may miss a hundred, as in the exchange format. */
static const double SHARE_SLACK = 1e-4 * (1 + 1e-9);

/* Largest demand that is taken at its word: keeps sums of micrograms within 64 bits. */
static const double MOST_G = 1e11;

/* Nobody gets more than all of the usable batter; beyond it sums of micrograms would leave 64 bits too. */
static const double MOST_SHARE = 1;

/* What the portions ask, in the recipe's order. */
struct asked {
    int n, rests;
    double fixed_g[RECIPE_PORTIONS]; /* grams, layers and pieces; 0 for the others */
    double share[RECIPE_PORTIONS];   /* of the usable batter; 0 for the others */
    double fixed_sum_g, share_sum;
};

/* A split at one division. */
struct split {
    int64_t division_ug, usable_ug;
    int64_t fixed_ug, remain_ug;    /* sum of the fixed demands as rounded; what the others share, not negative */
    int64_t part_ug[PLAN_PORTIONS]; /* with the implied portion at [asked.n] */
};

double portion_residue_g(const struct plan_input *in, double batter_g)
{
    const struct recipe *recipe = in->recipe;
    const struct practice practice = own_practice(in);
    double residue_g = 0;

    switch (recipe->residue_by) {
    case RESIDUE_PRACTICE:
        residue_g = fmin(practice.jug_residue_g, practice.jug_residue_most_share * batter_g);
        break;
    case RESIDUE_GRAMS:
        residue_g = recipe->residue;
        break;
    case RESIDUE_SHARE:
        residue_g = recipe->residue * batter_g;
        break;
    }
    return fmin(residue_g, batter_g);
}

/* Grams of a demand that does not depend on the others; 0 for a share or rest. */
static double fixed_demand_g(const struct plan_input *in, const struct plan *plan, int i)
{
    const struct recipe *recipe = in->recipe;
    const struct recipe_portion *portion = &recipe->portion[i];

    switch (portion->demand) {
    case DEMAND_GRAMS:
        return portion->amount;
    case DEMAND_LAYER:
        return mould_layer_g(&recipe->size.mould, portion->amount, plan->density_g_ml);
    case DEMAND_PIECES:
        return pieces_asked_g(in, i);
    case DEMAND_SHARE:
    case DEMAND_REST:
        break;
    }
    return 0;
}

static struct asked read_demands(const struct plan_input *in, const struct plan *plan)
{
    struct asked asked = {.n = in->recipe->portions};

    for (int i = 0; i < asked.n; i++) {
        const struct recipe_portion *portion = &in->recipe->portion[i];

        asked.fixed_g[i] = fmin(fixed_demand_g(in, plan, i), MOST_G);
        asked.share[i] = portion->demand == DEMAND_SHARE ? fmin(portion->amount, MOST_SHARE) : 0;
        asked.rests += portion->demand == DEMAND_REST;
        asked.fixed_sum_g += asked.fixed_g[i];
        asked.share_sum += asked.share[i];
    }
    return asked;
}

static bool is_rest(const struct recipe *recipe, int i)
{
    return recipe->portion[i].demand == DEMAND_REST;
}

/* What is left over for rests, or for the implied portion, when shares of the usable batter are served too. Shares
 * that miss a hundred by no more than rounding of percents would are all of it. */
static double left_over_g(const struct asked *asked, double usable_g, double remain_g)
{
    if (asked->rests == 0 && asked->fixed_sum_g == 0 && fabs(asked->share_sum - 1) <= SHARE_SLACK)
        return 0;
    return fmax(remain_g - asked->share_sum * usable_g, 0);
}

/* Weights of those that share what remains; the implied portion is the last. False if nobody shares. */
static bool weights_of(const struct recipe *recipe, const struct asked *asked, double usable_g, double remain_g,
                       double weight[PLAN_PORTIONS])
{
    double left_g = left_over_g(asked, usable_g, remain_g), sum = 0;

    for (int i = 0; i < asked->n; i++) {
        weight[i] = is_rest(recipe, i) ? left_g / asked->rests : asked->share[i] * usable_g;
        sum += weight[i];
    }
    weight[asked->n] = asked->rests == 0 ? left_g : 0;
    return sum + weight[asked->n] > 0;
}

/* Splits at that division. Where the demands do not fit, the sum of the parts is not the usable batter. */
static struct split split_at(const struct recipe *recipe, const struct asked *asked, int64_t available_ug,
                             int64_t division_ug)
{
    struct split split = {.division_ug = division_ug, .usable_ug = mass_down(available_ug, division_ug)};
    double weight[PLAN_PORTIONS];
    int64_t shared_ug[PLAN_PORTIONS] = {0};

    for (int i = 0; i < asked->n; i++) {
        split.part_ug[i] = mass_nearest(mass_ug(asked->fixed_g[i]), division_ug);
        split.fixed_ug += split.part_ug[i];
    }
    split.remain_ug = split.usable_ug > split.fixed_ug ? split.usable_ug - split.fixed_ug : 0;
    if (weights_of(recipe, asked, mass_g(split.usable_ug), mass_g(split.remain_ug), weight))
        apportion((size_t)asked->n + 1, weight, split.remain_ug, division_ug, shared_ug);
    for (int i = 0; i <= asked->n; i++)
        split.part_ug[i] += shared_ug[i];
    return split;
}

/* Division of the scale for the largest portion, and the split at it. The split depends on the division, so it is
 * looked for from the finest up until a split names its own; a portion at the very limit of a scale goes to the
 * coarser. */
static struct split settle_split(const struct plan *plan, const struct recipe *recipe, const struct asked *asked,
                                 int64_t available_ug)
{
    struct split split = split_at(recipe, asked, available_ug, 1);

    for (int tries = 0; tries < RECIPE_SCALES; tries++) {
        int64_t largest_ug = 0;

        for (int i = 0; i <= asked->n; i++)
            largest_ug = split.part_ug[i] > largest_ug ? split.part_ug[i] : largest_ug;

        int64_t division_ug = plan->scale[scales_for(plan, mass_g(largest_ug), NULL)].division_ug;

        if (division_ug <= split.division_ug && tries > 0)
            break;
        split = split_at(recipe, asked, available_ug, division_ug);
    }
    return split;
}

static int64_t coarsest_division(const struct plan_input *in, const struct plan *plan, int64_t division_ug)
{
    int64_t coarsest_ug = division_ug > plan->water.water.division_ug ? division_ug : plan->water.water.division_ug;

    for (int i = 0; i < in->recipe->oils; i++)
        coarsest_ug = plan->oil[i].division_ug > coarsest_ug ? plan->oil[i].division_ug : coarsest_ug;
    return coarsest_ug;
}

/* A batter that is sized by what it has to hold can come out a little small, since alkali is rounded down and the rest to
 * nearest. What is missing up to a coarsest division and one of the split is then taken from the largest fixed demand. */
static void give_way(const struct plan_input *in, const struct plan *plan, const struct asked *asked,
                     struct split *split)
{
    int64_t missing_ug = split->fixed_ug - split->usable_ug;
    int largest = 0;

    if (missing_ug <= 0 || asked->rests > 0 || asked->share_sum > 0 ||
        missing_ug > coarsest_division(in, plan, split->division_ug) + split->division_ug)
        return;
    for (int i = 1; i < asked->n; i++)
        if (split->part_ug[i] > split->part_ug[largest])
            largest = i;
    if (split->part_ug[largest] <= missing_ug)
        return;
    split->part_ug[largest] -= missing_ug;
    split->fixed_ug -= missing_ug;
}

/* First portion that does not get what it asks, -1 if all do: fixed demands in order, then percents, then rests. */
static int first_short(const struct recipe *recipe, const struct asked *asked, const struct split *split)
{
    bool exact_shares = asked->rests == 0 && asked->fixed_sum_g == 0;
    double usable_g = mass_g(split->usable_ug), served_g = 0;
    int64_t served_ug = 0;

    for (int i = 0; i < asked->n; i++) {
        if (asked->fixed_g[i] <= 0)
            continue;
        served_ug += split->part_ug[i];
        if (served_ug > split->usable_ug)
            return i;
    }
    served_g = mass_g(served_ug);
    for (int i = 0; i < asked->n && !exact_shares; i++) {
        served_g += asked->share[i] * usable_g;
        if (asked->share[i] > 0 && served_g > usable_g * (1 + 1e-12))
            return i;
    }
    for (int i = 0; i < asked->n; i++)
        if (is_rest(recipe, i) && split->part_ug[i] == 0)
            return i;
    return -1;
}

/* Batter whose usable part is usable_g. */
static double batter_with_usable_g(const struct plan_input *in, double usable_g)
{
    const struct practice practice = own_practice(in);
    double share = 0, grams = 0;

    switch (in->recipe->residue_by) {
    case RESIDUE_PRACTICE:
        share = practice.jug_residue_most_share;
        if (usable_g / (1 - share) * share > practice.jug_residue_g) {
            share = 0;
            grams = practice.jug_residue_g;
        }
        break;
    case RESIDUE_GRAMS:
        grams = in->recipe->residue;
        break;
    case RESIDUE_SHARE:
        share = in->recipe->residue;
        break;
    }
    return share < 1 ? (usable_g + grams) / (1 - share) : 0;
}

/* Oils of a batter that all demands fit into; 0 if no size would do. Batter is linear in its oils but for fixed
 * grams. */
static double oils_that_would_do_g(const struct plan_input *in, const struct plan *plan, const struct asked *asked,
                                   const struct split *split)
{
    double division_g = mass_g(coarsest_division(in, plan, split->division_ug));

    /* Each weighing may lose half a division and the alkali and the usable batter a whole one. */
    double rounding_g = division_g * (3 + 0.5 * (in->recipe->additives + in->recipe->water.liquids));
    double others = 1 - asked->share_sum;

    if (others <= SHARE_SLACK)
        return 0;

    double usable_g = (mass_g(split->fixed_ug) + asked->rests * mass_g(split->division_ug) + rounding_g) / others;
    double batter_g = batter_with_usable_g(in, usable_g);
    double oils_g = plan->oils_exact_g;
    double now_g = lye_batter_g(in, plan, oils_g), twice_g = lye_batter_g(in, plan, 2 * oils_g);

    if (batter_g <= 0 || twice_g <= now_g)
        return 0;

    double would_g = oils_g + (batter_g - now_g) * oils_g / (twice_g - now_g);

    return ceil(would_g / division_g) * division_g;
}

static void find_short(const struct plan_input *in, struct plan *plan, const struct asked *asked,
                       const struct split *split, int portion)
{
    double usable_g = mass_g(split->usable_ug), fixed_g = mass_g(split->fixed_ug);
    double asked_g = fixed_g + asked->share_sum * usable_g + asked->rests * mass_g(split->division_ug);
    struct finding finding = {
        .code = FINDING_PORTIONS_SHORT,
        .level = LEVEL_STOP,
        .about = {PART_PORTION, (int16_t)portion, 0},
        .number = {asked_g - usable_g, oils_that_would_do_g(in, plan, asked, split), usable_g, fixed_g},
    };

    plan_find(plan, &finding);
}

static void find_over(struct plan *plan, double share_sum)
{
    struct finding finding = {
        .code = FINDING_PORTIONS_OVER,
        .level = LEVEL_STOP,
        .about = {PART_BATTER, 0, 0},
        .number = {share_sum},
    };

    plan_find(plan, &finding);
}

/* Each demand by itself, for a split that does not work out. */
static void as_asked(const struct asked *asked, struct split *split)
{
    for (int i = 0; i < asked->n; i++)
        if (asked->share[i] > 0)
            split->part_ug[i] = mass_nearest(mass_ug(asked->share[i] * mass_g(split->usable_ug)), split->division_ug);
    split->part_ug[asked->n] = 0;
}

static void fill_portion(struct plan *plan, const struct recipe *recipe, int i, const struct split *split)
{
    struct plan_portion *portion = &plan->portion[i];
    double batter_g = mass_g(plan->batter_ug);

    portion->source = i < recipe->portions ? i : -1;
    portion->technique = i < recipe->portions ? recipe->portion[i].technique : TECHNIQUE_POUR;
    portion->batter_ug = split->part_ug[i];
    portion->division_ug = split->division_ug;
    portion->filled_g = mass_g(portion->batter_ug);
    portion->volume_ml = portion->filled_g / plan->density_g_ml;
    portion->oils_g = batter_g > 0 ? portion->filled_g * mass_g(plan->oils_ug) / batter_g : 0;
}

void portion_plan(const struct plan_input *in, struct plan *plan)
{
    const struct recipe *recipe = in->recipe;
    struct asked asked = read_demands(in, plan);
    int64_t asked_residue_ug = mass_ug(portion_residue_g(in, mass_g(plan->batter_ug)));
    struct split split = settle_split(plan, recipe, &asked, plan->batter_ug - asked_residue_ug);
    bool over = asked.share_sum > 1 + SHARE_SLACK;

    give_way(in, plan, &asked, &split);

    int short_of = over ? -1 : first_short(recipe, &asked, &split);

    plan->split_valid = !over && short_of < 0;
    if (over)
        find_over(plan, asked.share_sum);
    if (short_of >= 0)
        find_short(in, plan, &asked, &split, short_of);
    if (!plan->split_valid)
        as_asked(&asked, &split);

    bool implied = plan->split_valid && (split.part_ug[asked.n] > 0 || asked.n == 0);
    int64_t sum_ug = 0;

    plan->portions = asked.n + implied;
    for (int i = 0; i < plan->portions; i++) {
        fill_portion(plan, recipe, i, &split);
        sum_ug += split.part_ug[i];
    }
    plan->residue_ug = plan->split_valid ? plan->batter_ug - sum_ug : asked_residue_ug;
}
