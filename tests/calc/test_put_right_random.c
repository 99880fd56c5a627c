/* Properties of what is proposed, over random recipes, slips and states: nothing worse than doing nothing, nothing forbidden, and
 * what was put right is left when asked again. */
#include <stdlib.h>

#include "calc/making.h"
#include "support/random_recipe.h"

enum { SENSIBLE = 4000, WILD = 400 };

static double between(struct chance *chance, double lo, double hi)
{
    return lo + (hi - lo) * chance_below(chance, 1000001) / 1e6;
}

static const struct additive_fact ACID_IN_WATER = {
    .key = "citric-acid", .active_share = 1, .molar_mass = 192.123, .equivalents = 3, .add_to = "water"};
static const struct additive_fact MILK_IN_OILS = {
    .key = "milk-powder", .active_share = 1, .fat_share = 0.28, .fat_oil = "coconut", .add_to = "oils"};

static void sensible_others(struct chance *chance, struct kitchen *k, double batch_g)
{
    if (chance_below(chance, 2))
        kitchen_additive(k, &ACID_IN_WATER, batch_g * between(chance, 0, 0.02));
    if (chance_below(chance, 3) == 0) {
        kitchen_additive(k, &MILK_IN_OILS, batch_g * between(chance, 0, 0.04));
        k->facts.additive_fat[k->recipe.additives - 1] = &COCONUT;
    }
    if (chance_below(chance, 3) == 0)
        kitchen_liquid(k, &COCONUT_MILK, &COCONUT, between(chance, 0.1, 0.9));
    else if (chance_below(chance, 4) == 0)
        kitchen_liquid(k, &VINEGAR, NULL, between(chance, 0.1, 0.4));
}

/* Such as a maker has: one to four oils, both alkalis, dry or ready-made, acids, milk, one scale or two. */
static struct kitchen *sensible(struct chance *chance)
{
    static const struct oil_fact *const oils[] = {&OLIVE, &COCONUT, &PALM_HYBRID, &CASTOR};
    struct kitchen *k = kitchen_new();
    double batch_g = exp(between(chance, log(150), log(4000)));

    kitchen_scale(k, 1, 20000, chance_below(chance, 2));
    if (chance_below(chance, 3))
        kitchen_scale(k, 0.01, 200, 0.01);
    for (int i = chance_below(chance, 4); i >= 0; i--)
        kitchen_oil(k, oils[i], batch_g * between(chance, 0.1, 1));
    k->recipe.superfat = between(chance, 0.01, 0.12);
    k->recipe.purpose = (enum purpose)chance_below(chance, 4);
    k->recipe.water.value = between(chance, 0.25, 0.38);
    k->recipe.alkali.potassium_share = chance_below(chance, 3) ? 0 : between(chance, 0, 1);
    if (chance_below(chance, 3) == 0)
        for (int i = 0; i < ALKALIS; i++) {
            k->recipe.alkali.solution_share[i] = 0.5;
            k->recipe.alkali.purity[i] = (struct ranged){true, 0.98, 0.99, 1};
        }
    sensible_others(chance, k, batch_g);
    return k;
}

static bool can_start(const struct plan *plan)
{
    for (int i = 0; i < plan->findings; i++)
        if (plan->finding[i].level == LEVEL_STOP && plan->finding[i].code != FINDING_PORTIONS_SHORT)
            return false;
    return plan->oils_ug > 0;
}

/* Some part that the plan weighs. */
static struct part_ref some_part(struct chance *chance, const struct making *m)
{
    for (;;) {
        struct part_ref part = {(enum part)chance_below(chance, PART_ADDITIVE + 1), (int16_t)chance_below(chance, 4),
                                0};
        const struct weighing *w = charged_weighing(&m->k->in, &m->plan, part);

        if (w && w->rounded_ug > 0)
            return part;
    }
}

static void slip_of(struct chance *chance, struct making *m, struct part_ref part)
{
    static const double times[] = {0, 2, 0.5, 3};
    double planned = planned_g(m, part), division = mass_g(charged_weighing(&m->k->in, &m->plan, part)->division_ug);
    double grams = chance_below(chance, 3) ? planned * exp(between(chance, -0.7, 0.7))
                                           : planned * times[chance_below(chance, 4)];

    weigh(m, part, round(grams / division) * division);
}

static bool whole(const struct making *m, int64_t ug)
{
    for (int i = 0; i < m->plan.scales; i++)
        if (ug % m->plan.scale[i].division_ug == 0)
            return true;
    return false;
}

static bool acts_on_lye(const struct remedy *r)
{
    return r->kind == REMEDY_ADD_LYE || r->kind == REMEDY_POUR_SHARE;
}

static bool dry_alkali(const struct making *m, const struct remedy *r)
{
    return r->kind == REMEDY_ADD && r->what.part == PART_ALKALI &&
           m->k->recipe.alkali.solution_share[r->what.index] <= 0;
}

static void nothing_forbidden(const struct making *m, const struct remedy *r)
{
    enum batch_phase phase = m->input.phase;
    double now = own_superfat(m, &m->charges);

    assert_false(phase >= PHASE_COMBINED && r->kind == REMEDY_ADD && r->what.part == PART_ALKALI);
    assert_false(phase == PHASE_SPLIT && acts_on_lye(r));
    assert_false(phase >= PHASE_COMBINED && r->kind == REMEDY_POUR_SHARE);
    assert_false(phase == PHASE_SPLIT && r->kind != REMEDY_LEAVE && r->kind != REMEDY_SET_ASIDE);
    assert_false(phase != PHASE_APART && phase != PHASE_LYE_MIXED && dry_alkali(m, r));
    assert_false(now < -1e-9 && r->kind == REMEDY_LEAVE);
}

/* A finite margin, and that of the tests' own arithmetic where superfat is one to act on. */
static void figures_are_true(const struct making *m, const struct remedy *r)
{
    double own = own_superfat(m, &r->charges);

    assert_true(isfinite(r->margin.nominal) && isfinite(r->margin.worst.lo) && isfinite(r->margin.likely.hi));
    assert_true(isfinite(r->batter_ml) && isfinite(r->strength) && r->batter_ug >= 0);
    if (fabs(own) < 9)
        assert_near(r->margin.nominal, own, 1e-9 * fmax(1, fabs(own)));
    assert_true(r->mass_ug >= 0 && whole(m, r->kind == REMEDY_ADD_OILS ? 0 : r->mass_ug));
    for (int i = 0; i < m->k->recipe.oils; i++)
        assert_true(r->oil_ug[i] >= 0 && whole(m, r->oil_ug[i]));
    assert_true(r->share > 0 && r->share <= 1);
}

/* In the direction concerned: below what was asked not lower still; above it not higher, and never below what was asked. */
static void no_worse_than_doing_nothing(const struct making *m, const struct remedy *r)
{
    double now = own_superfat(m, &m->charges), then = own_superfat(m, &r->charges), noise = 1e-7;
    double least = fmin(m->k->recipe.superfat, m->plan.margin.nominal);

    if (now < least)
        assert_true(then >= now - noise);
    else
        assert_true(then >= least - noise);
    if (r->kind != REMEDY_LEAVE && r->kind != REMEDY_SET_ASIDE &&
        !(r->kind == REMEDY_ADD && r->what.part == PART_WATER) &&
        !(r->kind == REMEDY_TAKE_OUT && r->what.part == PART_WATER) && now < least)
        assert_true(then > now);
}

static void taking_out_comes_before_adding(const struct making *m)
{
    bool added = false;

    for (int i = 0; i < m->remedies; i++) {
        assert_false(added && m->remedy[i].kind == REMEDY_TAKE_OUT);
        added |= m->remedy[i].kind == REMEDY_ADD || m->remedy[i].kind == REMEDY_ADD_OIL ||
                 m->remedy[i].kind == REMEDY_ADD_OILS || m->remedy[i].kind == REMEDY_ADD_LYE;
    }
}

static void check_all(const struct making *m)
{
    assert_true(m->remedies >= 1 && m->remedies <= REMEDIES);
    taking_out_comes_before_adding(m);
    for (int i = 0; i < m->remedies; i++) {
        nothing_forbidden(m, &m->remedy[i]);
        figures_are_true(m, &m->remedy[i]);
        no_worse_than_doing_nothing(m, &m->remedy[i]);
    }
}

/* Whether the first slip, of a part that was put right, is all that was wrong: then asked again it is left. Where the lye was not
 * dissolved, water goes in first and there may be a second step. */
static void asked_again_it_is_left(struct making *m, struct part_ref what)
{
    struct making then = *m;

    for (int i = 0; i < m->remedies; i++) {
        const struct remedy *r = &m->remedy[i];
        bool for_grains = r->kind == REMEDY_ADD && r->what.part == PART_WATER && what.part != PART_WATER;

        if (r->kind == REMEDY_LEAVE || r->kind == REMEDY_SET_ASIDE || for_grains)
            continue;
        then.charges = r->charges;
        then.input.charges = &then.charges;
        then.remedies = put_right(&then.input, then.remedy);
        if (then.remedy[0].kind != REMEDY_LEAVE && r->margin.nominal <= then.input.superfat_most)
            fail_msg("after %d of %g g (%.4g -> %.4g %%) the first proposal is %d", (int)r->kind, mass_g(r->mass_ug),
                     100 * own_superfat(m, &m->charges), 100 * r->margin.nominal, (int)then.remedy[0].kind);
    }
}

static void one_slip_of_a_sensible_recipe_is_put_right(void **state)
{
    struct chance chance = chance_of(20);
    int tried = 0, kinds[REMEDY_SET_ASIDE + 1] = {0};

    (void)state;
    for (int round = 0; round < SENSIBLE; round++) {
        struct making *m = making_of(sensible(&chance));
        struct part_ref what;

        if (!can_start(&m->plan))
            continue;
        what = some_part(&chance, m);
        alone(m, chance_below(&chance, 2));
        slip_of(&chance, m, what);
        ask(m, (enum batch_phase)chance_below(&chance, PHASE_SPLIT + 1), what);
        check_all(m);
        asked_again_it_is_left(m, what);
        for (int i = 0; i < m->remedies; i++)
            kinds[m->remedy[i].kind]++;
        tried++;
    }
    assert_true(tried > SENSIBLE / 2);
    for (int kind = 0; kind <= REMEDY_SET_ASIDE; kind++) /* each was seen, and not just now and then */
        assert_true(kinds[kind] > 50);
}

static void several_slips_at_once_are_never_made_worse(void **state)
{
    struct chance chance = chance_of(21);

    (void)state;
    for (int round = 0; round < SENSIBLE; round++) {
        struct making *m = making_of(sensible(&chance));

        if (!can_start(&m->plan))
            continue;
        alone(m, chance_below(&chance, 2));
        for (int slips = 1 + chance_below(&chance, 4); slips > 0; slips--)
            slip_of(&chance, m, some_part(&chance, m));
        if (chance_below(&chance, 4) == 0)
            m->charges.lye_used = between(&chance, 0.5, 1);
        ask(m, (enum batch_phase)chance_below(&chance, PHASE_SPLIT + 1), some_part(&chance, m));
        check_all(m);
    }
}

/* Values that no bench has, facts at random from the reference tables: every call ends with finite figures. */
static void wild_facts(struct chance *chance, struct kitchen *k)
{
    size_t oils, additives, liquids, colourants, fragrances;
    const struct oil_fact *oil = facts_oils(&oils);
    const struct additive_fact *additive = facts_additives(&additives);
    const struct liquid_fact *liquid = facts_liquids(&liquids);
    const struct colourant_fact *colourant = facts_colourants(&colourants);
    const struct fragrance_fact *fragrance = facts_fragrances(&fragrances);

    for (int i = 0; i < k->recipe.oils; i++)
        k->facts.oil[i] = &oil[chance_below(chance, (int)oils)];
    for (int i = 0; i < k->recipe.additives; i++)
        k->facts.additive[i] = &additive[chance_below(chance, (int)additives)];
    for (int i = 0; i < k->recipe.water.liquids; i++)
        k->facts.liquid[i] = &liquid[chance_below(chance, (int)liquids)];
    for (int i = 0; i < k->recipe.fragrances; i++)
        k->facts.fragrance[i] = &fragrance[chance_below(chance, (int)fragrances)];
    for (int i = 0; i < k->recipe.portions; i++)
        for (int c = 0; c < k->recipe.portion[i].colourants; c++)
            k->facts.colourant[i][c] = &colourant[chance_below(chance, (int)colourants)];
}

static void whatever_the_recipe_every_figure_is_finite(void **state)
{
    struct chance chance = chance_of(22);

    (void)state;
    for (int round = 0; round < WILD; round++) {
        struct kitchen *k = kitchen_new();
        struct making *m;

        random_recipe(&chance, &k->recipe);
        wild_facts(&chance, k);
        m = making_of(k);
        for (int i = 0; i < RECIPE_OILS; i++)
            m->charges.oil[i] = (struct charge){chance_below(&chance, 2), mass_ug(between(&chance, -10, 1e6)), 0, 0};
        m->charges.water = (struct charge){true, mass_ug(between(&chance, 0, 1e6)), 0, -1};
        m->charges.alkali[0] = (struct charge){true, mass_ug(between(&chance, 0, 1e5)), mass_ug(1), 99};
        m->charges.lye_used = between(&chance, -1, 2);
        alone(m, chance_below(&chance, 2));
        ask(m, (enum batch_phase)chance_below(&chance, PHASE_SPLIT + 1),
            (struct part_ref){(enum part)chance_below(&chance, PART_SIZE + 1), (int16_t)chance_below(&chance, 40), 0});
        assert_true(m->remedies >= 1 && m->remedies <= REMEDIES);
        for (int i = 0; i < m->remedies; i++) {
            const struct remedy *r = &m->remedy[i];

            assert_true(isfinite(r->margin.nominal) && isfinite(r->margin.sd) && isfinite(r->margin.worst.lo));
            assert_true(isfinite(r->batter_ml) && isfinite(r->strength) && isfinite(r->share));
            assert_true(r->mass_ug >= 0 && r->batter_ug >= 0);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CHECK(one_slip_of_a_sensible_recipe_is_put_right),
        CHECK(several_slips_at_once_are_never_made_worse),
        CHECK(whatever_the_recipe_every_figure_is_finite),
    };

    return cmocka_run_group_tests_name("put right, at random", tests, NULL, NULL);
}
