/* Sizes as a maker types them. Volumes are geometry; water at 20 C is 998.2 kg per cubic metre (CIPM, Tanaka and others 2001); the ounce
 * is 28.349523125 g exactly (NIST Handbook 44, Appendix C). Whether a size does what it says is asked of the plan made from it. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/mass.h"
#include "base/text.h"
#include "near.h"
#include "work/resolve.h"
#include "work/sizing.h"

/* 45 % olive, 25 % coconut, 30 % palm; 500 g of oils on scales of 1 g and 0.01 g. */
struct sized {
    struct recipe recipe;
    struct recipe_facts facts;
    struct bench bench;
    struct plan_input input;
    struct plan plan;
    struct plan_document document;
    struct settings settings;
};

static void plan_it(struct sized *s)
{
    struct lw_error error = {""};

    assert_int_equal(resolve_recipe(&s->recipe, &(struct shelf_rows){0}, "", &s->facts, &error), LW_OK);
    plan_compute(&s->input, &s->plan);
}

static struct sized *start(void)
{
    static struct sized sized;
    static const char *const names[] = {"olive", "coconut", "palm"};
    static const double shares[] = {0.45, 0.25, 0.30};
    struct sized *s = &sized;

    memset(s, 0, sizeof *s);
    settings_common(&s->settings);
    s->recipe.superfat = 0.05;
    s->recipe.water.by = WATER_STRENGTH;
    s->recipe.water.value = 0.33;
    s->recipe.size = (struct recipe_size){.by = SIZE_OILS, .grams = 500};
    for (int i = 0; i < 3; i++) {
        s->recipe.oil[i] = (struct recipe_oil){.id = (uint32_t)i + 1, .amount = shares[i]};
        text_copy(s->recipe.oil[i].name, LW_NAME_BYTES, names[i]);
    }
    s->recipe.oils = 3;
    s->recipe.scales = 2;
    s->recipe.scale[0] = (struct scale){.name = "coarse", .division_ug = 1000000, .capacity_ug = 5000000000};
    s->recipe.scale[1] = (struct scale){.name = "fine", .division_ug = 10000, .capacity_ug = 200000000};
    s->bench = plan_bench_common();
    s->input = (struct plan_input){&s->recipe, &s->facts, facts_reference(), &s->bench};
    s->document = (struct plan_document){.input = &s->input, .plan = &s->plan};
    plan_it(s);
    return s;
}

static enum lw_status read(struct sized *s, enum size_way way, const char *text, struct recipe_size *size,
                           struct lw_error *error)
{
    *size = s->recipe.size;
    error->text[0] = '\0';
    return sizing_read(&s->document, &s->settings, way, 0, text, size, error);
}

static struct recipe_size taken(struct sized *s, enum size_way way, const char *text)
{
    struct recipe_size size;
    struct lw_error error;

    if (read(s, way, text, &size, &error) != LW_OK)
        fail_msg("\"%s\": %s", text, error.text);
    return size;
}

static void masses_are_read_in_any_unit(void **state)
{
    struct sized *s = start();

    (void)state;
    assert_near(taken(s, WAY_OILS, "500 g").grams, 500, 1e-12);
    assert_near(taken(s, WAY_OILS, "1.2 kg").grams, 1200, 1e-9);
    assert_near(taken(s, WAY_OILS, "250/2").grams, 125, 1e-12);
    assert_near(taken(s, WAY_BATTER, "50 oz").grams, 1417.47615625, 1e-9);
    assert_int_equal(taken(s, WAY_BATTER, "50 oz").by, SIZE_BATTER);
    s->settings.mass_unit = MASS_OZ;
    assert_near(taken(s, WAY_OILS, "16").grams, 453.59237, 1e-9);
}

static void moulds_of_every_shape_are_read(void **state)
{
    struct sized *s = start();
    struct mould box = taken(s, WAY_BOX, "300 x 165 x 25, 90 %").mould;
    struct mould tube = taken(s, WAY_CYLINDER, "75 x 200 mm").mould;
    struct mould cavities = taken(s, WAY_CAVITIES, "6x120 mL, 50%").mould;

    (void)state;
    assert_true(box.shape == MOULD_BOX && box.length_mm == 300 && box.width_mm == 165 && box.height_mm == 25);
    assert_near(box.fill, 0.9, 1e-12);
    assert_true(tube.shape == MOULD_CYLINDER && tube.diameter_mm == 75 && tube.height_mm == 200 && tube.fill == 1);
    assert_true(cavities.shape == MOULD_CAVITIES && cavities.cavities == 6 && cavities.volume_ml == 120);
    assert_near(cavities.fill, 0.5, 1e-12);
    assert_near(taken(s, WAY_VOLUME, "1.2*1000").mould.volume_ml, 1200, 1e-9);
    assert_near(taken(s, WAY_WATER, "998.2 g").mould.volume_ml, 1000, 1e-9);
    assert_true(taken(s, WAY_WATER, "998.2 g").has_mould);
    assert_int_equal(taken(s, WAY_WATER, "998.2 g").by, SIZE_MOULD);
}

static void pieces_are_read_with_all_that_belongs_to_them(void **state)
{
    struct sized *s = start();
    struct pieces all = taken(s, WAY_PIECES, "44 x 2.6 g, blossom, flower, first time, 95 %").pieces;
    struct pieces few = taken(s, WAY_PIECES, "12 x 0.1 oz").pieces;

    (void)state;
    assert_true(all.count == 44 && all.mass_g == 2.6 && all.class == PIECE_FLOWER && all.first_time);
    assert_string_equal(all.kind, "blossom");
    assert_near(all.chance, 0.95, 1e-12);
    assert_true(few.count == 12 && few.class == PIECE_SIMPLE && !few.first_time && few.chance == 0 && !few.kind[0]);
    assert_near(few.mass_g, 2.8349523125, 1e-12);
}

/* Property: an oil that is sized by is used up, whichever it is and however it is named. */
static void the_oil_that_is_left_is_used_up(void **state)
{
    static const struct {
        const char *text;
        int oil;
        double g;
    } table[] = {{"320 g coconut", 1, 320},
                 {"320 coconut oil", 1, 320},
                 {"12 oz, olive", 0, 340.1942775},
                 {"1 lb 3 oz palm", 2, 538.640939375},
                 {"90", 0, 90},
                 {"(100 + 50) g COCO", 1, 150}};

    (void)state;
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        struct sized *s = start();

        s->recipe.size = taken(s, WAY_ONE_OIL, table[i].text);
        plan_it(s);
        assert_near(s->plan.oil[table[i].oil].exact_g, table[i].g, 1e-6);
    }
}

/* The alkali as exact is a whole division, or so little above it that rounding down moves the superfat by under a tenth of
 * a point: of 0.05, that is 0.1 / 95 of the alkali. */
static void whole_alkali_is_whole_on_a_coarse_scale(void **state)
{
    static const enum size_way ways[] = {WAY_WHOLE_LESS, WAY_WHOLE_MORE};

    (void)state;
    for (int i = 0; i < 2; i++) {
        struct sized *s = start();
        double alkali_g;

        s->recipe.scales = 1;
        plan_it(s);
        s->recipe.size = taken(s, ways[i], "");
        assert_true(i == 0 ? s->recipe.size.grams < 500 : s->recipe.size.grams > 500);
        assert_true(fabs(s->recipe.size.grams - 500) <= 125);
        plan_it(s);
        alkali_g = s->plan.alkali[ALKALI_NAOH].alkali.exact_g;
        assert_in_range((int)((alkali_g - floor(alkali_g)) / alkali_g * 1e6), 0, (int)(0.1 / 95 * 1e6) + 1);
    }
}

static void whole_alkali_can_be_asked_on_a_fine_scale_too(void **state)
{
    struct sized *s = start();

    (void)state;
    assert_true(taken(s, WAY_WHOLE_LESS, "").grams < 500);
    assert_true(taken(s, WAY_WHOLE_MORE, "").grams > 500);
}

static void what_cannot_be_read_is_one_sentence(void **state)
{
    static const struct {
        enum size_way way;
        const char *text, *says;
    } table[] = {
        {WAY_OILS, "", "expected"},
        {WAY_OILS, "0", "above 0"},
        {WAY_OILS, "-5 g", "a number was expected"},
        {WAY_OILS, "2000 kg", "at most 1000"},
        {WAY_OILS, "500 g, 90 %", "Nothing is expected after the mass"},
        {WAY_BATTER, "two", "character 1"},
        {WAY_BOX, "300 x 165", "Write 3 numbers with an x between them."},
        {WAY_BOX, "300 x 165 x 25 x 2", "Write 3 numbers with an x between them."},
        {WAY_BOX, "300 x 0 x 25", "above 0"},
        {WAY_BOX, "300 x 165 x 25, full", "a share such as 90 %"},
        {WAY_BOX, "300 x 165 x 25, 101 %", "at most 100 %"},
        {WAY_BOX, "300 x 165 x 25, 0 %", "above 0"},
        {WAY_BOX, "300 x 165 x 25, 90 %, 80 %", "Nothing is expected after the share"},
        {WAY_BOX, "3000 x 3000 x 3000", "1000 litres"},
        {WAY_CYLINDER, "75", "Write 2 numbers"},
        {WAY_VOLUME, "1 x 2", "Write 1 number."},
        {WAY_CAVITIES, "6.5 x 120", "a whole number from 1 to 2000"},
        {WAY_PIECES, "2001 x 2", "a whole number from 1 to 2000"},
        {WAY_PIECES, "44", "Write 2 numbers"},
        {WAY_PIECES, "44 x 2.6, 100 %", "below 100 %"},
        {WAY_PIECES, "44 x 2.6, rose, leaf", "One kind of piece is named already"},
        {WAY_ONE_OIL, "coconut", "character 1"},
        {WAY_ONE_OIL, "320 g castor", "The recipe has no castor; it has"},
        {WAY_ONE_OIL, "0 g coconut", "above 0"},
    };
    struct sized *s = start();
    struct recipe_size size;
    struct lw_error error;

    (void)state;
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        if (read(s, table[i].way, table[i].text, &size, &error) == LW_OK)
            fail_msg("\"%s\" was taken", table[i].text);
        if (!strstr(error.text, table[i].says))
            fail_msg("\"%s\": %s", table[i].text, error.text);
    }
}

static void an_oil_without_a_share_and_a_recipe_without_oils_size_nothing(void **state)
{
    struct sized *s = start();
    struct recipe_size size;
    struct lw_error error;

    (void)state;
    s->recipe.oil[1].amount = 0;
    s->recipe.oil[0].amount = 0.7;
    plan_it(s);
    assert_int_equal(read(s, WAY_ONE_OIL, "10 g coconut", &size, &error), LW_INVALID);
    s->recipe.oils = 0;
    plan_it(s);
    for (int way = 0; way < WAYS; way++)
        assert_int_equal(read(s, (enum size_way)way, "10", &size, &error), LW_NOT_FOUND);
}

/* Property: what is shown for the present size, read again, is that size. */
/* By members: what lies between them is not part of a size. */
static void same_size(const struct recipe_size *a, const struct recipe_size *b)
{
    assert_int_equal(a->by, b->by);
    assert_true(a->grams == b->grams);
    assert_int_equal(a->has_mould, b->has_mould);
    assert_int_equal(a->mould.shape, b->mould.shape);
    assert_true(a->mould.length_mm == b->mould.length_mm && a->mould.width_mm == b->mould.width_mm);
    assert_true(a->mould.height_mm == b->mould.height_mm && a->mould.diameter_mm == b->mould.diameter_mm);
    assert_true(a->mould.volume_ml == b->mould.volume_ml && a->mould.fill == b->mould.fill);
    assert_int_equal(a->mould.cavities, b->mould.cavities);
    assert_string_equal(a->pieces.kind, b->pieces.kind);
    assert_int_equal(a->pieces.count, b->pieces.count);
    assert_true(a->pieces.mass_g == b->pieces.mass_g && a->pieces.chance == b->pieces.chance);
    assert_int_equal(a->pieces.class, b->pieces.class);
    assert_int_equal(a->pieces.first_time, b->pieces.first_time);
}

static void the_text_of_a_size_reads_as_that_size(void **state)
{
    static const struct {
        enum size_way way;
        const char *text;
    } table[] = {{WAY_OILS, "512.5 g"},
                 {WAY_BATTER, "700 g"},
                 {WAY_BOX, "300 x 165 x 25.5 mm, 90 %"},
                 {WAY_CYLINDER, "75 x 200 mm, 100 %"},
                 {WAY_VOLUME, "1200 mL, 80 %"},
                 {WAY_CAVITIES, "6 x 120 mL, 95 %"},
                 {WAY_PIECES, "44 x 2.6 g, blossom, flower, first time, 95 %"}};

    (void)state;
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        struct sized *s = start();
        struct recipe_size again;
        char text[SIZING_BYTES];

        s->recipe.size = taken(s, table[i].way, table[i].text);
        plan_it(s);
        assert_int_equal(sizing_now(&s->recipe), table[i].way);
        sizing_text(&s->document, &s->settings, table[i].way, 0, text);
        assert_string_equal(text, table[i].text);
        again = taken(s, table[i].way, text);
        same_size(&again, &s->recipe.size);
    }
}

static void a_mould_stays_while_the_recipe_is_sized_in_another_way(void **state)
{
    struct sized *s = start();

    (void)state;
    s->recipe.size = taken(s, WAY_BOX, "300 x 165 x 25");
    s->recipe.size = taken(s, WAY_OILS, "400");
    assert_true(s->recipe.size.has_mould && s->recipe.size.mould.length_mm == 300);
    assert_int_equal(s->recipe.size.by, SIZE_OILS);
}

static void every_way_has_a_name_and_a_question(void **state)
{
    (void)state;
    for (int way = 0; way < WAYS; way++) {
        assert_in_range(strlen(sizing_name((enum size_way)way)), 3, 22);
        assert_int_equal(sizing_typed((enum size_way)way), sizing_question((enum size_way)way)[0] != '\0');
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(masses_are_read_in_any_unit),
        cmocka_unit_test(moulds_of_every_shape_are_read),
        cmocka_unit_test(pieces_are_read_with_all_that_belongs_to_them),
        cmocka_unit_test(the_oil_that_is_left_is_used_up),
        cmocka_unit_test(whole_alkali_is_whole_on_a_coarse_scale),
        cmocka_unit_test(whole_alkali_can_be_asked_on_a_fine_scale_too),
        cmocka_unit_test(what_cannot_be_read_is_one_sentence),
        cmocka_unit_test(an_oil_without_a_share_and_a_recipe_without_oils_size_nothing),
        cmocka_unit_test(the_text_of_a_size_reads_as_that_size),
        cmocka_unit_test(a_mould_stays_while_the_recipe_is_sized_in_another_way),
        cmocka_unit_test(every_way_has_a_name_and_a_question),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
