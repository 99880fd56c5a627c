/* split_sample.h - recipes for the tests of portions, doses, densities, moulds and pieces: the worked example of the
 * exchange format, and helpers to change it, to make up others and to look at what comes of them. Facts are the
 * program's own rows. */
#ifndef TESTS_SPLIT_SAMPLE_H
#define TESTS_SPLIT_SAMPLE_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#include "base/mass.h"
#include "lyeway/plan.h"

struct sample {
    struct recipe recipe;
    struct recipe_facts facts;
    struct bench bench;
    struct plan_input in;
    struct plan plan;
};

static inline void near(double value, double expected, double within)
{
    if (!(fabs(value - expected) <= within))
        fail_msg("%.17g, expected %.17g within %g", value, expected, within);
}

static inline int64_t ug(double g)
{
    return mass_ug(g);
}

static inline void sample_oil(struct sample *s, const char *name, double amount)
{
    int i = s->recipe.oils++;

    strcpy(s->recipe.oil[i].name, name);
    s->recipe.oil[i].amount = amount;
    s->facts.oil[i] = facts_oil(name);
}

static inline void sample_scale(struct sample *s, double division_g, double capacity_g)
{
    s->recipe.scale[s->recipe.scales++] = (struct scale){.division_ug = ug(division_g), .capacity_ug = ug(capacity_g)};
}

static inline struct recipe_portion *sample_portion(struct sample *s, enum demand demand, double amount)
{
    struct recipe_portion *portion = &s->recipe.portion[s->recipe.portions++];

    portion->demand = demand;
    portion->amount = amount;
    return portion;
}

static inline struct recipe_colourant *sample_colour(struct sample *s, int i, const char *name, enum colour_by by,
                                                     double value)
{
    int c = s->recipe.portion[i].colourants++;
    struct recipe_colourant *colourant = &s->recipe.portion[i].colourant[c];

    strcpy(colourant->name, name);
    colourant->by = by;
    colourant->value = value;
    s->facts.colourant[i][c] = facts_colourant(name);
    assert_non_null(s->facts.colourant[i][c]);
    return colourant;
}

static inline struct pieces sample_pieces(const char *kind, int count, double mass_g)
{
    struct pieces pieces = {.count = count, .mass_g = mass_g};

    strcpy(pieces.kind, kind);
    return pieces;
}

/* Nothing but facts, practice and pointers: oils, size, scales and portions are still to be given. */
static inline void sample_empty(struct sample *s)
{
    memset(s, 0, sizeof *s);
    s->bench = plan_bench_common();
    s->in = (struct plan_input){&s->recipe, &s->facts, facts_reference(), &s->bench};
    s->recipe.superfat = 0.05;
    s->recipe.water.by = WATER_STRENGTH;
    s->recipe.water.value = 0.33;
    s->recipe.water.temp_c = 20;
    s->recipe.size.by = SIZE_OILS;
    s->recipe.size.mould.fill = 1;
}

/* The exchange format's sample base: 1000 g of oils at 5 %, three portions, one of them piped. */
static inline void sample_base(struct sample *s)
{
    sample_empty(s);
    sample_oil(s, "olive", 0.45);
    sample_oil(s, "coconut", 0.25);
    sample_oil(s, "House blend", 0.30);
    s->recipe.oil[2].sap = (struct ranged){true, 194, 196.5, 199};
    s->recipe.size.grams = 1000;
    s->recipe.additives = 1;
    s->recipe.additive[0] = (struct recipe_additive){.by = ADDITIVE_OF_OILS, .value = 0.01};
    s->facts.additive[0] = facts_additive("citric-acid");
    s->recipe.fragrances = 1;
    s->recipe.fragrance[0] = (struct recipe_fragrance){.by = FRAGRANCE_OF_OILS, .value = 0.03};
    s->facts.fragrance[0] = facts_fragrance("lavender");
    s->recipe.residue_by = RESIDUE_GRAMS;
    s->recipe.residue = 8;
    sample_scale(s, 1, 5000);
    sample_scale(s, 0.01, 200);

    struct recipe_portion *base = sample_portion(s, DEMAND_SHARE, 0.60);
    struct recipe_portion *moss = sample_portion(s, DEMAND_SHARE, 0.25);
    struct recipe_portion *rosettes = sample_portion(s, DEMAND_REST, 0);

    base->scented = moss->scented = true;
    base->technique = moss->technique = TECHNIQUE_SWIRL;
    rosettes->technique = TECHNIQUE_PIPE;
    rosettes->has_pieces = true;
    rosettes->pieces = sample_pieces("rosette", 24, 6.5);
    sample_colour(s, 0, "titanium-dioxide", COLOUR_PER_KG_OILS, 5);
    sample_colour(s, 1, "chromium-oxide-green", COLOUR_PER_KG_OILS, 4);
}

/* First finding with that code from position *from on, which is moved past it; NULL if there is none. */
static inline const struct finding *next_finding(const struct plan *plan, enum finding_code code, int *from)
{
    while (*from < plan->findings) {
        const struct finding *finding = &plan->finding[(*from)++];

        if (finding->code == code)
            return finding;
    }
    return NULL;
}

static inline const struct finding *find(const struct plan *plan, enum finding_code code)
{
    int from = 0;

    return next_finding(plan, code, &from);
}

static inline int64_t portions_ug(const struct plan *plan)
{
    int64_t sum = 0;

    for (int i = 0; i < plan->portions; i++)
        sum += plan->portion[i].batter_ug;
    return sum;
}

/* Marsaglia's xorshift, "Xorshift RNGs" (2003): the same numbers in every run. */
static inline double random_share(void)
{
    static uint64_t state = 88172645463325252ULL;

    state ^= state << 13;
    state ^= state >> 7;
    state ^= state << 17;
    return (double)(state >> 11) * 0x1p-53;
}

static inline double random_between(double lo, double hi)
{
    return lo + (hi - lo) * random_share();
}

static inline int random_int(int lo, int hi)
{
    return lo + (int)(random_share() * (hi - lo + 1));
}

#endif
