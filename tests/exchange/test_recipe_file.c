/* test_recipe_file.c - what the reader makes of a file, and how it refuses one. The form is that of
 * schema/exchange.schema.json; test_schema.c holds the same table of changes against a JSON Schema validator.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <cjson/cJSON.h>

#include "exchange/recipe_file.h"
#include "files.h"
#include "lyeway/finding.h"
#include "mutations.h"
#include "near.h"

static struct recipe_file *read_sample(const char *name)
{
    char *text = sample_file(name);
    struct recipe_file *file;
    struct lw_error error = {""};
    enum lw_status status = read_text_as_file(text, strlen(text), &file, &error);

    assert_string_equal(error.text, "");
    assert_int_equal(status, LW_OK);
    free(text);
    return file;
}

static void the_sample_of_the_format_is_read_whole(void **state)
{
    struct recipe_file *file = read_sample("sample-base.json");
    const struct recipe *recipe = &file->recipe[0];

    (void)state;
    assert_int_equal(file->recipes, 1);
    assert_string_equal(recipe->name, "Sample base");
    assert_int_equal(recipe->uuid[0], 0x6f);
    assert_int_equal(recipe->uuid[15], 0x03);
    assert_int_equal(recipe->revision, 3);
    assert_int_equal(recipe->oils, 3);
    assert_int_equal(recipe->oils_by, OILS_BY_SHARE);
    assert_near(recipe->oil[0].amount, 0.45, 1e-12);
    assert_false(recipe->oil[0].sap.given);
    assert_true(recipe->oil[2].sap.given);
    assert_near(recipe->oil[2].sap.lo, 194, 0);
    assert_near(recipe->oil[2].sap.nominal, 196.5, 0);
    assert_near(recipe->oil[2].sap.hi, 199, 0);
    assert_int_equal(recipe->size.by, SIZE_OILS);
    assert_near(recipe->size.grams, 1000, 0);
    assert_near(recipe->superfat, 0.05, 1e-15);
    assert_near(recipe->alkali.purity[ALKALI_NAOH].lo, 0.985, 1e-15);
    assert_near(recipe->alkali.purity[ALKALI_NAOH].nominal, 1, 0);
    assert_false(recipe->alkali.purity[ALKALI_KOH].given);
    assert_int_equal(recipe->water.by, WATER_STRENGTH);
    assert_near(recipe->water.value, 0.33, 1e-15);
    assert_near(recipe->water.temp_c, 20, 0);
    assert_int_equal(recipe->scales, 2);
    assert_int_equal(recipe->scale[1].division_ug, 10000);
    assert_int_equal(recipe->scale[1].capacity_ug, 200000000);
    assert_int_equal(recipe->portions, 3);
    assert_int_equal(recipe->portion[2].demand, DEMAND_REST);
    assert_true(recipe->portion[2].has_pieces);
    assert_int_equal(recipe->portion[2].pieces.count, 24);
    assert_near(recipe->portion[2].pieces.chance, 0, 0);
    assert_false(recipe->portion[2].scented);
    assert_int_equal(recipe->residue_by, RESIDUE_GRAMS);
    recipe_file_free(file);
}

static void every_member_of_a_recipe_arrives(void **state)
{
    struct recipe_file *file = read_sample("everything.json");
    const struct recipe *base = &file->recipe[0];
    const struct recipe_colourant *green = &base->portion[1].colourant[0];

    (void)state;
    assert_string_equal(base->note, "Cream, moss and clay pink.\nPour the slab before the pink thickens.");
    assert_int_equal(base->purpose, PURPOSE_SHAVING);
    assert_int_equal(base->size.by, SIZE_MOULD);
    assert_true(base->size.has_mould);
    assert_int_equal(base->size.mould.shape, MOULD_BOX);
    assert_near(base->size.mould.height_mm, 45, 0);
    assert_near(base->size.mould.fill, 0.925, 1e-15);
    assert_near(base->alkali.potassium_share, 0.12, 1e-15);
    assert_near(base->alkali.purity[ALKALI_KOH].nominal, 0.895, 1e-15);
    assert_near(base->alkali.solution_share[ALKALI_KOH], 0.495, 1e-15);
    assert_near(base->alkali.solution_share[ALKALI_NAOH], 0, 0);
    assert_int_equal(base->water.by, WATER_RATIO);
    assert_near(base->water.value, 2.03, 0);
    assert_near(base->water.temp_c, 4, 0);
    assert_string_equal(base->water.liquid[1].name, "oat water");
    assert_near(base->water.liquid[1].share_of_water, 0.15, 1e-15);
    assert_int_equal(base->additive[1].by, ADDITIVE_GRAMS);
    assert_int_equal(base->fragrance[1].by, FRAGRANCE_PER_KG_OILS);
    assert_near(base->fragrance[1].value, 6.25, 0);
    assert_string_equal(base->fragrance[0].limit_from, "supplier's sheet of spring");
    assert_int_equal(base->residue_by, RESIDUE_SHARE);
    assert_string_equal(base->scale[0].name, "coarse scale");
    assert_int_equal(base->scale[0].vessel_ug, 310000000);
    assert_int_equal(base->portion[1].demand, DEMAND_LAYER);
    assert_int_equal(green->by, COLOUR_PARTS);
    assert_true(green->carrier_reserved);
    assert_near(green->carrier_ratio, 1.5, 0);
    assert_int_equal(base->portion[1].blend_by, COLOUR_PER_KG_OILS);
    assert_near(base->portion[1].blend_value, 4.5, 0);
    assert_int_equal(base->hushed, 1U << FINDING_RANCID_RISK | 1U << FINDING_SAP_NO_RANGE);
    assert_int_equal(file->recipe[1].scent, PUT_IN_BATTER);
    assert_int_equal(file->recipe[1].size.by, SIZE_AS_GRAMS);
    assert_true(file->recipe[1].size.has_mould);
    assert_int_equal(file->recipe[2].size.pieces.count, 20);
    assert_int_equal(file->recipe[2].fragrance[0].by, FRAGRANCE_OF_BATTER);
    recipe_file_free(file);
}

static void what_is_left_out_gets_its_default(void **state)
{
    struct recipe_file *file = read_sample("everything.json");
    const struct recipe *base = &file->recipe[0], *blossoms = &file->recipe[1], *tub = &file->recipe[3];

    (void)state;
    assert_int_equal(base->portion[0].technique, TECHNIQUE_LAYER);
    assert_int_equal(base->portion[2].technique, TECHNIQUE_POUR);
    assert_int_equal(blossoms->portion[0].technique, TECHNIQUE_PIPE);
    assert_int_equal(blossoms->portion[1].technique, TECHNIQUE_MOULD);
    assert_int_equal(blossoms->portion[1].demand, DEMAND_PIECES);
    assert_int_equal(blossoms->portion[0].demand, DEMAND_GRAMS);
    assert_near(base->portion[2].colourant[0].carrier_ratio, 2, 0);
    assert_false(base->portion[2].colourant[0].carrier_reserved);
    assert_near(base->portion[1].colourant[1].carrier_ratio, 0, 0);
    assert_near(tub->size.mould.fill, 1, 0);
    assert_near(tub->water.temp_c, 20, 0);
    assert_int_equal(tub->purpose, PURPOSE_SKIN);
    assert_int_equal(tub->residue_by, RESIDUE_PRACTICE);
    assert_int_equal(tub->revision, 0);
    assert_int_equal(tub->uuid[0], 0);
    recipe_file_free(file);
}

static void elements_are_numbered_from_one(void **state)
{
    struct recipe_file *file = read_sample("everything.json");
    const struct recipe *base = &file->recipe[0];

    (void)state;
    for (int i = 0; i < base->oils; i++)
        assert_int_equal(base->oil[i].id, i + 1);
    for (int i = 0; i < base->portions; i++)
        assert_int_equal(base->portion[i].id, i + 1);
    assert_int_equal(base->portion[1].colourant[1].id, 2);
    assert_int_equal(base->water.liquid[1].id, 2);
    assert_int_equal(base->additive[1].id, 2);
    assert_int_equal(base->fragrance[1].id, 2);
    recipe_file_free(file);
}

static void percents_that_miss_100_a_little_are_brought_to_it(void **state)
{
    static const char text[] =
        "{\"lyeway\":1,\"recipes\":[{\"name\":\"n\",\"oils\":[{\"oil\":\"a\",\"percent\":60.005},{\"oil\":\"b\","
        "\"percent\":40}],\"size\":{\"oils_g\":100},\"superfat_percent\":5,\"water\":{\"ratio\":2}}]}";
    struct recipe_file *file;
    struct lw_error error;

    (void)state;
    assert_int_equal(read_text_as_file(text, strlen(text), &file, &error), LW_OK);
    assert_near(file->recipe[0].oil[0].amount + file->recipe[0].oil[1].amount, 1, 1e-15);
    assert_near(file->recipe[0].oil[0].amount, 60.005 / 100.005, 1e-15);
    recipe_file_free(file);
}

static void rows_of_the_shelf_are_whole_facts(void **state)
{
    struct recipe_file *file = read_sample("everything.json");
    const struct oil_fact *blend = &file->oil[0], *pips = &file->oil[1];

    (void)state;
    assert_int_equal(file->oils, 2);
    assert_string_equal(blend->name, "House blend");
    assert_ptr_equal(blend->key, blend->name);
    assert_near(blend->sap_lo, 194, 0);
    assert_near(blend->sap_hi, 199, 0);
    assert_true(blend->has_iodine && blend->has_melt && blend->has_acids);
    assert_near(blend->acid[ACID_C18_1], 50 / 98.0, 1e-12);
    assert_near(blend->acid_hi[ACID_C18_1], 50 / 98.0, 1e-12);
    assert_int_equal(blend->kind, OIL_BUTTER);
    assert_string_equal(blend->sap_source, "supplier's sheet, lot 12");
    assert_near(pips->sap_lo, 190.5 * 0.99, 1e-9);
    assert_near(pips->sap_hi, 190.5 * 1.01, 1e-9);
    assert_false(pips->has_acids || pips->has_iodine || pips->has_melt);
    assert_string_equal(pips->inci, "");
    assert_string_equal(pips->note, "");
    assert_near(file->additive[0].active_share, 0.6, 1e-15);
    assert_near(file->liquid[0].sugar_share, 0.012, 1e-15);
    assert_int_equal(file->colourant[0].swatch_rgb, 0xd9a58f);
    assert_near(file->colourant[0].dose_hi, 20, 0);
    assert_int_equal(file->fragrance[0].constituents, 2);
    assert_string_equal(facts_reference()->limit[file->fragrance[0].constituent[1].limit].key, "citral");
    assert_near(file->fragrance[0].constituent[0].hi, 0.3, 1e-15);
    assert_int_equal(file->fragrance[0].acceleration, ACCELERATION_SOME);
    recipe_file_free(file);
}

static void a_limit_on_the_shelf_reaches_the_line_that_has_none(void **state)
{
    struct recipe_file *file = read_sample("everything.json");
    const struct recipe_fragrance *lavender = &file->recipe[0].fragrance[0], *blend = &file->recipe[0].fragrance[1];

    (void)state;
    assert_true(blend->has_limit);
    assert_near(blend->limit_share, 0.0325, 1e-15);
    assert_string_equal(blend->limit_from, "certificate of the blend");
    assert_near(lavender->limit_share, 0.175, 1e-15);
    recipe_file_free(file);
}

static void a_limit_of_the_line_stays_before_that_of_the_shelf(void **state)
{
    char *base = sample_file("everything.json");
    char *text = changed(base, "\"g_per_kg_oils\": 6.25", "\"g_per_kg_oils\": 6.25, \"limit_percent\": 1.5");
    struct recipe_file *file;
    struct lw_error error;

    (void)state;
    assert_int_equal(read_text_as_file(text, strlen(text), &file, &error), LW_OK);
    assert_near(file->recipe[0].fragrance[1].limit_share, 0.015, 1e-15);
    assert_string_equal(file->recipe[0].fragrance[1].limit_from, "");
    recipe_file_free(file);
    free(text);
    free(base);
}

/* One sentence: begins with the file, ends with a full stop, no line break. */
static void assert_one_sentence(const char *text)
{
    assert_memory_equal(text, "test.json: ", 11);
    assert_int_equal(text[strlen(text) - 1], '.');
    assert_null(strchr(text, '\n'));
}

static void check_mutation(const struct mutation *mutation, const char *base)
{
    char *text = changed(base, mutation->from, mutation->to), place[160];
    struct recipe_file *file = NULL;
    struct lw_error error = {""};
    enum lw_status status;

    if (text == NULL)
        fail_msg("not exactly once in the file: %s", mutation->from);
    status = read_text_as_file(text, strlen(text), &file, &error);
    free(text);
    if (mutation->verdict == ACCEPTED) {
        if (status != LW_OK)
            fail_msg("%s -> %s: %s", mutation->from, mutation->to, error.text);
        recipe_file_free(file);
        return;
    }
    snprintf(place, sizeof place, "test.json: %s%s", mutation->pointer,
             mutation->pointer[0] == '\0' || mutation->pointer[0] == 'l' ? "" : ": ");
    if (status == LW_OK || file != NULL || strncmp(error.text, place, strlen(place)) != 0 ||
        strstr(error.text, mutation->says) == NULL)
        fail_msg("%s -> %s: wanted %s ... %s, got %s", mutation->from, mutation->to, place, mutation->says, error.text);
    assert_one_sentence(error.text);
}

static void every_refusal_points_at_the_place_and_says_what_was_found(void **state)
{
    char *base = sample_file("everything.json");

    (void)state;
    for (size_t i = 0; i < MUTATIONS; i++)
        check_mutation(&mutations[i], base);
    free(base);
}

/* A recipe with `n` of something that stands between `before` and `after`. */
static enum lw_status read_many(const char *before, const char *item, int n, const char *after, struct lw_error *error)
{
    static char text[400000];
    struct recipe_file *file = NULL;
    enum lw_status status;
    size_t at;

    at = (size_t)snprintf(
        text, sizeof text,
        "{\"lyeway\":1,\"recipes\":[{\"name\":\"n\",\"superfat_percent\":5,\"water\":{\"ratio\":2},%s", before);
    for (int i = 0; i < n; i++)
        at += (size_t)snprintf(text + at, sizeof text - at, "%s%s", i > 0 ? "," : "", item);
    at += (size_t)snprintf(text + at, sizeof text - at, "%s}]}", after);
    status = read_text_as_file(text, at, &file, error);
    recipe_file_free(file);
    return status;
}

static void a_full_list_is_read_and_one_more_is_refused_with_the_limit(void **state)
{
    static const struct {
        const char *before, *item, *after;
        int most;
        const char *says;
    } lists[] = {
        {"\"oils\":[", "{\"oil\":\"a\",\"grams\":1}", "]", 32, "/recipes/0/oils: found 33 oils, expected at most 32"},
        {"\"oils\":[{\"oil\":\"a\",\"grams\":1}],\"additives\":[", "{\"additive\":\"a\",\"grams\":1}", "]", 16,
         "/recipes/0/additives: found 17 additives, expected at most 16"},
        {"\"oils\":[{\"oil\":\"a\",\"grams\":1}],\"fragrance\":[", "{\"fragrance\":\"a\",\"g_per_kg_oils\":1}", "]", 8,
         "/recipes/0/fragrance: found 9 fragrances, expected at most 8"},
        {"\"oils\":[{\"oil\":\"a\",\"grams\":1}],\"scales\":[", "{\"division_g\":1,\"capacity_g\":1}", "]", 8,
         "/recipes/0/scales: found 9 scales, expected at most 8"},
        {"\"oils\":[{\"oil\":\"a\",\"grams\":1}],\"portions\":[", "{\"name\":\"a\",\"rest\":true}", "]", 16,
         "/recipes/0/portions: found 17 portions, expected at most 16"},
        {"\"oils\":[{\"oil\":\"a\",\"grams\":1}],\"portions\":[{\"name\":\"a\",\"rest\":true,\"colourants\":[",
         "{\"colourant\":\"a\",\"grams\":1}", "]}]", 8,
         "/recipes/0/portions/0/colourants: found 9 colourants, expected at most 8"},
    };
    struct lw_error error;

    (void)state;
    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++) {
        assert_int_equal(read_many(lists[i].before, lists[i].item, lists[i].most, lists[i].after, &error), LW_OK);
        assert_int_equal(read_many(lists[i].before, lists[i].item, lists[i].most + 1, lists[i].after, &error), LW_FULL);
        assert_non_null(strstr(error.text, lists[i].says));
    }
}

static void a_note_holds_4095_bytes_and_no_more(void **state)
{
    static char note[LW_NOTE_BYTES + 40];
    struct lw_error error;

    (void)state;
    for (int extra = 0; extra < 2; extra++) {
        size_t at = (size_t)snprintf(note, sizeof note, "\"oils\":[{\"oil\":\"a\",\"grams\":1}],\"note\":\"");
        size_t most = LW_NOTE_BYTES - 1 + (size_t)extra;
        char *text = malloc(at + most + 2);
        memcpy(text, note, at);
        memset(text + at, 'x', most);
        memcpy(text + at + most, "\"", 2);
        assert_int_equal(read_many(text, "", 0, "", &error), extra == 0 ? LW_OK : LW_FULL);
        free(text);
    }
}

/* Numbers are read again in the order of the text. This program is run under a locale with a decimal comma too. */
static void numbers_after_texts_that_look_like_numbers_are_not_mixed_up(void **state)
{
    static const char text[] = "{\"lyeway\":1,\"recipes\":[{\"name\":\"-1.5e3, \\\"2\\\\\",\"note\":\"\\u0037 "
                               "8\",\"oils\":[{\"oil\":\"9\",\"grams\":1.25e2}],"
                               "\"superfat_percent\":0.5E1,\"water\":{\"ratio\":2}}]}";
    struct recipe_file *file;
    struct lw_error error = {""};

    (void)state;
    read_text_as_file(text, strlen(text), &file, &error);
    assert_string_equal(error.text, "");
    assert_string_equal(file->recipe[0].name, "-1.5e3, \"2\\");
    assert_near(file->recipe[0].oil[0].amount, 125, 0);
    assert_near(file->recipe[0].superfat, 0.05, 1e-16);
    assert_near(file->recipe[0].water.value, 2, 0);
    recipe_file_free(file);
}

static long allocations_left, blocks;

static void *counted_malloc(size_t size)
{
    void *block = NULL;

    if (allocations_left > 0) {
        allocations_left--;
        block = malloc(size);
        blocks += block != NULL;
    }
    return block;
}

static void counted_free(void *block)
{
    blocks -= block != NULL;
    free(block);
}

static void running_out_of_memory_anywhere_is_a_sentence_and_leaks_nothing(void **state)
{
    char *text = sample_file("everything.json");
    cJSON_Hooks hooks = {counted_malloc, counted_free};
    struct recipe_file *file = NULL;
    struct lw_error error;
    enum lw_status status = LW_FULL;
    long most = 0;

    (void)state;
    cJSON_InitHooks(&hooks);
    for (; status != LW_OK && most < 100000; most++) {
        allocations_left = most;
        status = read_text_as_file(text, strlen(text), &file, &error);
        if (status == LW_OK)
            break;
        assert_int_equal(status, LW_FULL);
        assert_null(file);
        assert_non_null(strstr(error.text, "not enough memory"));
        assert_int_equal(blocks, 0);
    }
    assert_int_equal(status, LW_OK);
    assert_true(most > 500);
    recipe_file_free(file);
    assert_int_equal(blocks, 0);
    cJSON_InitHooks(NULL);
    free(text);
}

static void a_file_name_with_control_characters_stays_harmless(void **state)
{
    const struct recipe_file_names names = {facts_reference()};
    struct recipe_file *file;
    struct lw_error error;

    (void)state;
    assert_int_equal(recipe_file_read("[]", 2, "a\033[31m\n.json", &names, &file, &error), LW_INVALID);
    assert_null(strchr(error.text, '\033'));
    assert_null(strchr(error.text, '\n'));
    assert_non_null(strstr(error.text, "found a list, expected an object"));
}

static void a_file_over_the_limit_is_refused_by_its_size(void **state)
{
    const struct recipe_file_names names = {facts_reference()};
    struct recipe_file *file;
    struct lw_error error;

    (void)state;
    assert_int_equal(recipe_file_read("", (size_t)RECIPE_FILE_MOST_BYTES + 1, "big.json", &names, &file, &error),
                     LW_FULL);
    assert_non_null(strstr(error.text, "big.json: found 67108865 bytes, expected at most 67108864"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_sample_of_the_format_is_read_whole),
        cmocka_unit_test(every_member_of_a_recipe_arrives),
        cmocka_unit_test(what_is_left_out_gets_its_default),
        cmocka_unit_test(elements_are_numbered_from_one),
        cmocka_unit_test(percents_that_miss_100_a_little_are_brought_to_it),
        cmocka_unit_test(rows_of_the_shelf_are_whole_facts),
        cmocka_unit_test(a_limit_on_the_shelf_reaches_the_line_that_has_none),
        cmocka_unit_test(a_limit_of_the_line_stays_before_that_of_the_shelf),
        cmocka_unit_test(every_refusal_points_at_the_place_and_says_what_was_found),
        cmocka_unit_test(a_full_list_is_read_and_one_more_is_refused_with_the_limit),
        cmocka_unit_test(a_note_holds_4095_bytes_and_no_more),
        cmocka_unit_test(numbers_after_texts_that_look_like_numbers_are_not_mixed_up),
        cmocka_unit_test(running_out_of_memory_anywhere_is_a_sentence_and_leaks_nothing),
        cmocka_unit_test(a_file_name_with_control_characters_stays_harmless),
        cmocka_unit_test(a_file_over_the_limit_is_refused_by_its_size),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
