/* margin.c - nominal, worst and likely superfat of a mixture. */
#include "calc/margin.h"

#include <math.h>
#include <string.h>

#include "base/mass.h"
#include "calc/constants.h"
#include "calc/distribution.h"

void margin_begin(const struct plan *plan, struct margin_mixture *mixture)
{
    mixture->lines = mixture->saps = 0;
    mixture->scales = plan->scales;
    for (int i = 0; i < plan->scales; i++)
        mixture->accuracy_g[i] = mass_g(plan->scale[i].accuracy_ug);
    for (int i = 0; i < ALKALIS; i++)
        mixture->purity[i] = plan->purity[i];
}

static bool same_sap(const struct margin_sap *a, const struct margin_sap *b)
{
    bool same_oil = a->fact == b->fact && (a->fact || strcmp(a->name, b->name) == 0);
    bool differs = a->value.lo < b->value.lo || a->value.lo > b->value.lo || a->value.hi < b->value.hi ||
                   a->value.hi > b->value.hi || a->value.nominal < b->value.nominal ||
                   a->value.nominal > b->value.nominal;

    return same_oil && !differs;
}

int margin_sap(struct margin_mixture *mixture, struct margin_sap sap)
{
    for (int i = 0; i < mixture->saps; i++)
        if (same_sap(&mixture->sap[i], &sap))
            return i;
    if (mixture->saps == MARGIN_LINES)
        return MARGIN_NO_FAT;
    mixture->sap[mixture->saps] = sap;
    return mixture->saps++;
}

void margin_add(struct margin_mixture *mixture, const struct margin_line *line)
{
    if (mixture->lines < MARGIN_LINES && line->grams * line->counts > 0)
        mixture->line[mixture->lines++] = *line;
}

/* (n - A) / D where D is next to nothing; anything larger says no more. */
#define FAR 1e12

static double ratio_of(struct margin_balance balance)
{
    return fmax(fmin(balance.excess_mol / balance.demand_mol, FAR), -FAR);
}

static double within_most(double superfat)
{
    return fmax(fmin(superfat, MARGIN_MOST), -MARGIN_MOST);
}

static double superfat_at(struct margin_balance balance)
{
    if (balance.demand_mol > 0)
        return within_most(1 - balance.excess_mol / balance.demand_mol);
    return balance.excess_mol > 0 ? -MARGIN_MOST : MARGIN_MOST;
}

static double middle(struct ranged range)
{
    return (range.lo + range.hi) / 2;
}

static double nominal(struct ranged range)
{
    return range.nominal;
}

static double lowest(struct ranged range)
{
    return range.lo;
}

static double highest(struct ranged range)
{
    return range.hi;
}

/* What one gram of each line adds, with saponification values and purities as `pick` takes them from their ranges. */
static void per_gram(const struct margin_mixture *m, double (*pick)(struct ranged), struct margin_balance gram[])
{
    for (int i = 0; i < m->lines; i++) {
        const struct margin_line *line = &m->line[i];
        double alkali = line->alkali_share > 0
                            ? line->alkali_share * pick(m->purity[line->alkali]) / MOLAR_ALKALI[line->alkali]
                            : 0;
        double fat = line->fat >= 0 ? line->fat_share * pick(m->sap[line->fat].value) / 1000 / MOLAR_KOH : 0;

        gram[i] = (struct margin_balance){line->counts * (alkali - line->acid_mol_g), line->counts * fat};
    }
}

static struct margin_balance balance_of(const struct margin_mixture *m, const struct margin_balance gram[])
{
    struct margin_balance sum = {0, 0};

    for (int i = 0; i < m->lines; i++) {
        sum.excess_mol += m->line[i].grams * gram[i].excess_mol;
        sum.demand_mol += m->line[i].grams * gram[i].demand_mol;
    }
    return sum;
}

/* How far a line can be off within its half division, in the direction that is best for `worth` per gram. */
static double best_half(const struct margin_line *line, double worth)
{
    return worth > 0 ? line->half_g : -line->half_g;
}

/* Mass of a line, never below 0, whose scale is off by `off_g`. */
static double best_mass(const struct margin_line *line, double worth, double off_g)
{
    return fmax(line->grams + off_g + best_half(line, worth), 0);
}

/* What all that was weighed on a scale is worth where it is off by `off_g`. */
static double worth_on(const struct margin_mixture *m, const double worth[], int scale, double off_g)
{
    double sum = 0;

    for (int i = 0; i < m->lines; i++)
        if (m->line[i].scale == scale)
            sum += worth[i] * best_mass(&m->line[i], worth[i], off_g);
    return sum;
}

/* How far a scale is off, within its accuracy, where its weighings are worth most. It is at one end unless a mass is
 * so small that it comes to nothing between them: the worth has a bend there. */
static double best_off(const struct margin_mixture *m, const double worth[], int scale)
{
    double accuracy_g = m->accuracy_g[scale], best_g = accuracy_g;

    if (!(accuracy_g > 0))
        return 0;

    double most = worth_on(m, worth, scale, best_g);

    for (int i = -1; i < m->lines; i++) {
        double off_g = i < 0 ? -accuracy_g : -m->line[i].grams - best_half(&m->line[i], worth[i]);

        if (i >= 0 && (m->line[i].scale != scale || fabs(off_g) >= accuracy_g))
            continue;

        double value = worth_on(m, worth, scale, off_g);

        if (value > most) {
            most = value;
            best_g = off_g;
        }
    }
    return best_g;
}

/* The masses that make sum(mass * worth) largest, each within its half division and each scale within its accuracy: the
 * balance with them. */
static struct margin_balance best_masses(const struct margin_mixture *m, const struct margin_balance gram[],
                                         const double worth[])
{
    struct margin_balance sum = {0, 0};
    double off_g[RECIPE_SCALES];

    for (int i = 0; i < m->scales; i++)
        off_g[i] = best_off(m, worth, i);
    for (int i = 0; i < m->lines; i++) {
        const struct margin_line *line = &m->line[i];
        double grams = best_mass(line, worth[i], line->scale == MARGIN_EXACT ? 0 : off_g[line->scale]);

        sum.excess_mol += grams * gram[i].excess_mol;
        sum.demand_mol += grams * gram[i].demand_mol;
    }
    return sum;
}

/* The extreme of (n - A) / D over all inputs: the largest for sign 1, the smallest for sign -1.
 *
 * A ratio of functions that are linear in each input has its extremes at corners. The corner is found by the method
 * of Dinkelbach (Management Science 13, 1967, 492-498): the one that makes sign * (excess - ratio * demand) largest
 * is found input by input, its own ratio is the next to try, and when that is no better the last is the extreme. Two
 * or three rounds do. `ratio` is one that can be had, to begin with. */
static double extreme(const struct margin_mixture *m, const struct margin_balance low[],
                      const struct margin_balance high[], double sign, double ratio)
{
    const struct margin_balance *rich = sign > 0 ? high : low;

    for (int round = 0; round < 20; round++) {
        const struct margin_balance *fat = sign * ratio > 0 ? low : high;
        struct margin_balance gram[MARGIN_LINES];
        double worth[MARGIN_LINES];

        for (int i = 0; i < m->lines; i++) {
            gram[i] = (struct margin_balance){rich[i].excess_mol, fat[i].demand_mol};
            /* per_gram has filled low and high for every line. */
            /* NOLINTNEXTLINE(clang-analyzer-core.UndefinedBinaryOperatorResult) */
            worth[i] = sign * (gram[i].excess_mol - ratio * gram[i].demand_mol);
        }

        struct margin_balance corner = best_masses(m, gram, worth);

        /* No fat left: beyond every ratio or, with nothing else left either, no better than the last. */
        if (!(corner.demand_mol > 0))
            return sign * corner.excess_mol > 0 ? sign * HUGE_VAL : ratio;

        double next = ratio_of(corner);

        if (sign * (next - ratio) <= 1e-14 * fabs(ratio))
            break;
        ratio = next;
    }
    return ratio;
}

/* Variance of s by one input: its effect on s per unit, and half of its range. */
static double variance(double effect, double half)
{
    double a = effect * half;

    return a * a / 3;
}

/* One input that may turn out to matter most. */
struct share {
    double variance;
    enum margin_cause cause;
    struct part_ref part;
};

static void count_input(struct share *total, struct share *most, struct share one)
{
    total->variance += one.variance;
    if (one.variance > most->variance)
        *most = one;
}

/* ds/dx of each line's mass, and of each saponification value and purity, at a balance. */
static void count_facts(const struct margin_mixture *m, struct margin_balance at, struct share *total,
                        struct share *most)
{
    double fat_g[MARGIN_LINES], pure_mol[ALKALIS] = {0}; /* per unit of the value */
    double ratio = at.excess_mol / at.demand_mol;

    for (int i = 0; i < m->saps; i++)
        fat_g[i] = 0;
    for (int i = 0; i < m->lines; i++) {
        const struct margin_line *line = &m->line[i];
        double grams = line->grams * line->counts;

        if (line->fat >= 0)
            fat_g[line->fat] += grams * line->fat_share;
        if (line->alkali_share > 0)
            pure_mol[line->alkali] += grams * line->alkali_share / MOLAR_ALKALI[line->alkali];
    }
    for (int i = 0; i < m->saps; i++) {
        double effect = ratio * fat_g[i] / 1000 / MOLAR_KOH / at.demand_mol;
        double half = (m->sap[i].value.hi - m->sap[i].value.lo) / 2;

        count_input(total, most, (struct share){variance(effect, half), CAUSE_SAP, m->sap[i].part});
    }
    for (int i = 0; i < ALKALIS; i++) {
        double half = (m->purity[i].hi - m->purity[i].lo) / 2;

        count_input(
            total, most,
            (struct share){variance(pure_mol[i] / at.demand_mol, half), CAUSE_PURITY, {PART_ALKALI, (int16_t)i, 0}});
    }
}

/* The same for half divisions, and for the accuracy of scales, which is put down to the weighing that it moves s by
 * most. */
static void count_masses(const struct margin_mixture *m, const struct margin_balance gram[], struct margin_balance at,
                         struct share *total, struct share *most)
{
    double shared[RECIPE_SCALES] = {0}, largest[RECIPE_SCALES] = {0};
    struct part_ref by[RECIPE_SCALES] = {{PART_BATTER, 0, 0}};
    double ratio = at.excess_mol / at.demand_mol;

    for (int i = 0; i < m->lines; i++) {
        const struct margin_line *line = &m->line[i];
        double effect = (ratio * gram[i].demand_mol - gram[i].excess_mol) / at.demand_mol;

        count_input(total, most, (struct share){variance(effect, line->half_g), CAUSE_SCALE, line->part});
        if (line->scale == MARGIN_EXACT)
            continue;
        shared[line->scale] += effect;
        if (fabs(effect) > largest[line->scale]) {
            largest[line->scale] = fabs(effect);
            by[line->scale] = line->part;
        }
    }
    for (int i = 0; i < m->scales; i++)
        count_input(total, most, (struct share){variance(shared[i], m->accuracy_g[i]), CAUSE_SCALE, by[i]});
}

/* Mean, spread and what it comes from, at the middle of every range. */
static void reckon_likely(const struct margin_mixture *m, struct margin *margin)
{
    struct margin_balance gram[MARGIN_LINES];
    struct share facts = {0}, masses = {0}, most = {0};

    per_gram(m, middle, gram);

    struct margin_balance at = balance_of(m, gram);

    margin->mean = superfat_at(at);
    if (!(at.demand_mol > 0) || fabs(margin->mean) >= MARGIN_MOST)
        return;
    count_facts(m, at, &facts, &most);
    count_masses(m, gram, at, &masses, &most);

    double total = facts.variance + masses.variance;

    if (!(total > 0))
        return;
    margin->sd = sqrt(total);
    margin->mostly_from = most.cause;
    margin->mostly = most.part;
    margin->mostly_share = most.variance / total;
    margin->mass_share = masses.variance / total;
}

struct margin_balance margin_balance(const struct margin_mixture *m)
{
    struct margin_balance gram[MARGIN_LINES];

    per_gram(m, nominal, gram);
    return balance_of(m, gram);
}

void margin_reckon(const struct margin_mixture *m, struct margin *margin)
{
    struct margin_balance gram[MARGIN_LINES], low[MARGIN_LINES], high[MARGIN_LINES];

    memset(margin, 0, sizeof *margin);
    per_gram(m, nominal, gram);
    per_gram(m, lowest, low);
    per_gram(m, highest, high);

    struct margin_balance at = balance_of(m, gram);

    margin->nominal = superfat_at(at);
    margin->worst = (struct interval){margin->nominal, margin->nominal};
    if (at.demand_mol > 0) {
        margin->worst.lo = within_most(1 - extreme(m, low, high, 1, ratio_of(at)));
        margin->worst.hi = within_most(1 - extreme(m, low, high, -1, ratio_of(at)));
    }
    reckon_likely(m, margin);
    margin->likely.lo = fmax(margin->mean - 2 * margin->sd, margin->worst.lo);
    margin->likely.hi = fmin(margin->mean + 2 * margin->sd, margin->worst.hi);
    if (margin->sd > 0)
        margin->chance_lye_heavy = normal_cdf(-margin->mean / margin->sd);
    else
        margin->chance_lye_heavy = margin->mean < 0 ? 1 : 0;
}
