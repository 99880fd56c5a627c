/* size.c - the oils that a recipe's size asks for. */
#include "calc/size.h"

#include <math.h>

#include "calc/constants.h"
#include "calc/density.h"
#include "calc/fill.h"
#include "calc/lye.h"
#include "calc/mould.h"
#include "calc/own.h"
#include "calc/pieces.h"
#include "calc/portion.h"

/* Shares whose sum is this close to 1 are meant to sum to 1. */
static const double normalised_within = 1e-4;

/* A size that is missed by more, relatively, is not reached at all. */
static const double tolerable_miss = 1e-6;

/* What is to come to `target` as the oils grow. */
struct aim {
    const struct plan_input *in;
    const struct plan *plan;
    double target;
    struct fill_fixed fixed; /* only for a mould */
};

static double batter_at(const struct aim *aim, double oils_g)
{
    return lye_batter_g(aim->in, aim->plan, oils_g);
}

static double usable_at(const struct aim *aim, double oils_g)
{
    double batter_g = batter_at(aim, oils_g);

    return batter_g - portion_residue_g(aim->in, batter_g);
}

static double filled_at(const struct aim *aim, double oils_g)
{
    const struct bench *bench = aim->in->bench;
    struct lye_exact exact;

    lye_exact(aim->in, aim->plan, oils_g, &exact);

    double batter_g = batter_at(aim, oils_g), usable_g = batter_g - portion_residue_g(aim->in, batter_g);
    double density_g_ml = bench->density_g_ml > 0 ? bench->density_g_ml
                                                  : density_exact(aim->in, aim->plan, oils_g, &exact);

    density_g_ml *= 1 - own_air(bench);
    return density_g_ml > 0 && batter_g > 0 ? fill_ml(aim->in, &aim->fixed, usable_g, oils_g / batter_g, density_g_ml)
                                            : 0;
}

/* Oils at which `reached` comes to aim->target: by chords, which is exact in one step where it is linear in the oils
 * and in a few where it has a bend (residue at most a share, water that is brought already) or bends a little
 * (density). It rises with the oils; what has no answer (fixed grams alone are more than the target, a residue of
 * everything) ends at next to no oils or at MASS_MOST_G and is told by the rest of the plan. */
static double solve(const struct aim *aim, double (*reached)(const struct aim *, double))
{
    double low = 0, high = MASS_MOST_G, x = aim->target / 2, last = aim->target;
    double last_miss = reached(aim, last) - aim->target;

    for (int i = 0; i < 40; i++) {
        double miss = reached(aim, x) - aim->target;

        if (fabs(miss) <= 1e-13 * aim->target || high - low <= 1e-15 * high)
            break;
        if (miss > 0)
            high = fmin(high, x);
        else
            low = fmax(low, x);

        double next = x - miss * (x - last) / (miss - last_miss);

        if (!(next > low && next < high)) /* also where the chord is level */
            next = high < MASS_MOST_G ? (low + high) / 2 : fmin(x * 4, MASS_MOST_G);
        last = x;
        last_miss = miss;
        x = next;
    }
    return x;
}

/* No oils give the size: what is asked for in grams is already more, or nearly all of the batter stays in the jug. */
static void find_unreached(struct plan *plan, double missing_g, double target_g)
{
    plan_find(plan, &(struct finding){.code = FINDING_PORTIONS_SHORT,
                                      .level = LEVEL_STOP,
                                      .about = {PART_SIZE, 0, 0},
                                      .number = {fabs(missing_g), 0, target_g, target_g + missing_g}});
}

static double solve_or_say(const struct aim *aim, double (*reached)(const struct aim *, double), struct plan *plan)
{
    double oils_g = solve(aim, reached), missing_g = reached(aim, oils_g) - aim->target;

    if (fabs(missing_g) > tolerable_miss * aim->target)
        find_unreached(plan, missing_g, aim->target);
    return oils_g;
}

/* Batter to be poured or piped for the pieces that size the recipe. */
static double pieces_g(const struct plan_input *in)
{
    struct practice practice = own_practice(in);
    struct pieces_known known = pieces_of_size(in);
    int n = pieces_to_pipe(known.pieces.count, known.pieces.chance, known.prior);

    return pieces_batter_g(&practice, &known, n, known.pieces.chance, NULL);
}

/* Total oils; `entered` is the sum of the amounts as entered. */
static double total_oils(const struct plan_input *in, struct plan *plan, double entered)
{
    const struct recipe_size *size = &in->recipe->size;
    struct aim aim = {.in = in, .plan = plan};

    switch (size->by) {
    case SIZE_AS_GRAMS:
        return entered;
    case SIZE_OILS:
        return size->grams;
    case SIZE_BATTER:
        aim.target = size->grams;
        return solve_or_say(&aim, batter_at, plan);
    case SIZE_PIECES:
        aim.target = pieces_g(in);
        return solve_or_say(&aim, usable_at, plan);
    case SIZE_MOULD:
        aim.target = mould_ml(&size->mould);
        fill_fixed(in, &aim.fixed);
        return solve_or_say(&aim, filled_at, plan);
    }
    return entered;
}

void size_plan(const struct plan_input *in, struct plan *plan)
{
    const struct recipe *recipe = in->recipe;
    double entered = 0;

    for (int i = 0; i < recipe->oils; i++)
        entered += recipe->oil[i].amount;
    for (int i = 0; i < recipe->oils; i++)
        plan->oil_share[i] = entered > 0 ? recipe->oil[i].amount / entered : 0;
    if (!(entered > 0))
        return;

    double oils_g = fmin(total_oils(in, plan, entered), MASS_MOST_G);

    /* Shares that do not add up while a recipe is being entered: each oil as asked, the total what they come to. */
    if (recipe->oils_by == OILS_BY_SHARE && recipe->size.by == SIZE_OILS && fabs(entered - 1) > normalised_within)
        oils_g *= entered;
    for (int i = 0; i < recipe->oils; i++)
        plan->oil[i].exact_g = plan->oil_share[i] * oils_g;
    plan->oils_exact_g = oils_g;
}
