/* test_mould.c - volumes and heights by school geometry and by figures makers use. */
#include "calc/split_sample.h"

#include "calc/mould.h"

static const double PI = 3.14159265358979323846;

static struct mould box(double length_mm, double width_mm, double height_mm)
{
    return (struct mould){
        .shape = MOULD_BOX, .length_mm = length_mm, .width_mm = width_mm, .height_mm = height_mm, .fill = 1};
}

/* Common practice: a loaf of 25 x 9 x 6.5 cm holds 1462 mL, a tall one of 11 x 2.5 x 3.5 in 1577 mL, a tube of 7.6
 * cm across and 30 cm long (1361 mL by pi/4 d^2 h). */
static void moulds_hold_what_makers_say(void **state)
{
    struct mould loaf = box(250, 90, 65), tall = box(11 * 25.4, 2.5 * 25.4, 3.5 * 25.4);
    struct mould tube = {.shape = MOULD_CYLINDER, .diameter_mm = 76, .height_mm = 300, .fill = 1};
    struct mould cups = {.shape = MOULD_CAVITIES, .cavities = 12, .volume_ml = 125, .fill = 1};
    struct mould jug = {.shape = MOULD_VOLUME, .volume_ml = 930, .fill = 1};

    (void)state;
    near(mould_ml(&loaf), 1462.5, 1e-9);
    near(mould_ml(&tall), 1577, 0.5);
    near(mould_ml(&tube), PI / 4 * 7.6 * 7.6 * 30, 1e-9);
    near(mould_ml(&tube), 1361, 0.5);
    near(mould_ml(&cups), 1500, 1e-9);
    near(mould_ml(&jug), 930, 1e-9);
}

static void only_the_fill_share_is_filled(void **state)
{
    struct mould loaf = box(250, 90, 65),
                 cups = {.shape = MOULD_CAVITIES, .cavities = 6, .volume_ml = 100, .fill = 0.9};

    (void)state;
    loaf.fill = 0.8;
    near(mould_ml(&loaf), 1170, 1e-9);
    near(mould_ml(&cups), 540, 1e-9);
    loaf.width_mm = 0;
    assert_true(mould_ml(&loaf) == 0);
}

/* Common practice: height in mm is mL over length times width in cm, times 10; a layer of 10 mm of a 25 x 9 loaf is
 * 225 mL. */
static void a_layer_s_height_goes_by_the_box_s_floor(void **state)
{
    struct mould loaf = box(250, 90, 65),
                 tube = {.shape = MOULD_CYLINDER, .diameter_mm = 76, .height_mm = 300, .fill = 1};

    (void)state;
    near(mould_layer_g(&loaf, 10, 1), 225, 1e-9);
    near(mould_layer_g(&loaf, 10, 1.01), 227.25, 1e-9);
    near(mould_height_mm(&loaf, 225), 10, 1e-9);
    near(mould_height_mm(&loaf, 1462.5), 65, 1e-9);
    assert_true(mould_layer_g(&tube, 10, 1) == 0);
    assert_true(mould_height_mm(&tube, 225) == 0);
}

/* Layers of a box, in any heights, are as high together as their volumes together. */
static void heights_of_layers_add_up(void **state)
{
    (void)state;
    for (int turn = 0; turn < 1000; turn++) {
        struct mould mould = box(random_between(50, 500), random_between(30, 300), random_between(20, 120));
        double a = random_between(1, 900), b = random_between(1, 900), density = random_between(0.9, 1.2);

        near(mould_height_mm(&mould, a) + mould_height_mm(&mould, b), mould_height_mm(&mould, a + b), 1e-9);
        near(mould_layer_g(&mould, mould_height_mm(&mould, a), density), a * density, 1e-9);
    }
}

static void base_in_a_box(struct sample *s, double height_mm)
{
    sample_base(s);
    s->recipe.size.mould = box(300, 80, height_mm);
    s->recipe.size.has_mould = true;
    plan_compute(&s->in, &s->plan);
}

/* From the exchange format's example: base 884 mL and moss 368 mL stand in the mould, the piped rosettes do not.
 * 1252 mL on 300 x 80 mm are 52.2 mm high. */
static void piped_portions_stand_on_the_mould(void **state)
{
    struct sample s;

    (void)state;
    base_in_a_box(&s, 53);
    near(s.plan.mould_ml, 1272, 1e-9);
    near(s.plan.filled_ml, 884 + 368, 1);
    near(s.plan.portion[0].layer_mm, 884 / 24.0, 0.05);
    near(s.plan.portion[1].layer_mm, 368 / 24.0, 0.05);
    assert_true(s.plan.portion[2].layer_mm == 0);
    assert_null(find(&s.plan, FINDING_MOULD_OVER));
}

static void more_than_the_mould_holds_is_a_caution(void **state)
{
    struct sample s;

    (void)state;
    base_in_a_box(&s, 50);

    const struct finding *over = find(&s.plan, FINDING_MOULD_OVER);

    assert_non_null(over);
    assert_int_equal(over->level, LEVEL_CAUTION);
    near(over->number[0], 1252, 1);
    near(over->number[1], 1200, 1e-9);
    near(over->number[2], 52 / 24.0, 0.05);
}

static void a_recipe_without_a_mould_has_no_volumes(void **state)
{
    struct sample s;

    (void)state;
    sample_base(&s);
    plan_compute(&s.in, &s.plan);
    assert_true(s.plan.mould_ml == 0 && s.plan.filled_ml == 0 && s.plan.portion[0].layer_mm == 0);
}

/* Of the same three portions, now of a batter that was asked to fill the box, all lie in it. */
static void what_sizes_a_recipe_holds_all_of_it(void **state)
{
    struct sample s;
    double ml = 0;

    (void)state;
    sample_base(&s);
    s.recipe.size.by = SIZE_MOULD;
    s.recipe.size.has_mould = true;
    s.recipe.size.mould = box(300, 80, 50);
    plan_compute(&s.in, &s.plan);
    for (int i = 0; i < 3; i++)
        ml += s.plan.portion[i].layer_mm * 24;
    near(s.plan.portion[2].layer_mm, s.plan.portion[2].volume_ml / 24, 1e-9);
    near(s.plan.filled_ml, 1200, 2);
    near(ml, s.plan.filled_ml, 1e-9);
}

/* Property: a recipe sized by its mould fills it but for what rounding takes or adds, and is not called over, whether
 * some of it is piped, counted as pieces of a kind, or has its carrier oil kept back. */
static void a_recipe_sized_by_its_mould_fits_it(void **state)
{
    int fitted = 0;

    (void)state;
    for (int turn = 0; turn < 300; turn++) {
        struct sample s;

        sample_base(&s);
        s.recipe.size.by = SIZE_MOULD;
        s.recipe.size.has_mould = true;
        s.recipe.size.mould = box(random_between(40, 500), random_between(40, 300), random_between(20, 120));
        s.recipe.size.mould.fill = random_between(0.5, 1);
        if (random_int(0, 1))
            s.recipe.portion[2].technique = TECHNIQUE_POUR;
        if (random_int(0, 1)) {
            struct recipe_portion *centre = sample_portion(&s, DEMAND_PIECES, 0);

            centre->technique = TECHNIQUE_PIPE;
            centre->has_pieces = true;
            centre->pieces = sample_pieces("rosette", 12, 0.2);
            s.recipe.portion[1].amount = 0.05;
        }
        if (random_int(0, 1)) {
            struct recipe_colourant *white = &s.recipe.portion[0].colourant[0];

            strcpy(white->carrier_oil, "coconut");
            white->carrier_ratio = 5;
            white->carrier_reserved = true;
            s.facts.carrier[0][0] = facts_oil("coconut");
        }
        plan_compute(&s.in, &s.plan);
        if (!s.plan.split_valid) { /* a mould too small for its pieces */
            assert_int_equal(s.recipe.portions, 4);
            continue;
        }
        fitted++;
        near(s.plan.filled_ml, s.plan.mould_ml, 4);
        assert_null(find(&s.plan, FINDING_MOULD_OVER));
    }
    assert_true(fitted > 250);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(moulds_hold_what_makers_say),
        cmocka_unit_test(only_the_fill_share_is_filled),
        cmocka_unit_test(a_layer_s_height_goes_by_the_box_s_floor),
        cmocka_unit_test(heights_of_layers_add_up),
        cmocka_unit_test(piped_portions_stand_on_the_mould),
        cmocka_unit_test(more_than_the_mould_holds_is_a_caution),
        cmocka_unit_test(a_recipe_without_a_mould_has_no_volumes),
        cmocka_unit_test(what_sizes_a_recipe_holds_all_of_it),
        cmocka_unit_test(a_recipe_sized_by_its_mould_fits_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
