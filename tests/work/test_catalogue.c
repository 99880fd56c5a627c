/* What a picker finds: by any part of a name or of another name of the trade, the maker's own first. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "work/catalogue.h"

static const struct oil_fact own_oils[] = {
    {.key = "Mill rapeseed", .name = "Mill rapeseed"},
    {.key = "olive", .name = "Grove olive"}, /* goes before the reference's */
};
static const struct fragrance_fact own_fragrance = {.key = "Boathouse blend", .name = "Boathouse blend"};
static const struct shelf_rows nothing,
    own = {.oils = 2, .oil = own_oils, .fragrances = 1, .fragrance = &own_fragrance};

/* Place of a key among what is found; -1: not found. */
static int place(const struct catalogue *catalogue, const char *filter, const char *key)
{
    int index[CATALOGUE_MOST];
    size_t n = catalogue_find(catalogue, filter, index, CATALOGUE_MOST);

    for (size_t i = 0; i < n; i++)
        if (strcmp(catalogue->entry[index[i]].key, key) == 0)
            return (int)i;
    return -1;
}

static size_t found(const struct catalogue *catalogue, const char *filter)
{
    int index[CATALOGUE_MOST];

    return catalogue_find(catalogue, filter, index, CATALOGUE_MOST);
}

/* Names of the trade, and the row that each means: common practice. */
static void a_name_of_the_trade_finds_its_oil_first(void **state)
{
    static const struct {
        const char *filter, *key;
    } rows[] = {
        {"canola", "rapeseed-low-erucic"},
        {"sweet almond", "almond-sweet"},
        {"cacao", "cocoa-butter"},
        {"beef dripping", "tallow-beef"},
        {"soya", "soybean"},
        {"corn", "maize"},
        {"CANOLA OIL", "rapeseed-low-erucic"},
        {"olive", "olive"},
        {"castor", "castor"},
    };
    struct catalogue catalogue;

    (void)state;
    catalogue_open(&catalogue, FACT_OIL, &nothing);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (place(&catalogue, rows[i].filter, rows[i].key) != 0)
            fail_msg("\"%s\" has %s at place %d", rows[i].filter, rows[i].key,
                     place(&catalogue, rows[i].filter, rows[i].key));
}

static void any_part_of_a_name_finds_it_behind_those_that_begin_so(void **state)
{
    struct catalogue catalogue;

    (void)state;
    catalogue_open(&catalogue, FACT_OIL, &nothing);
    assert_true(place(&catalogue, "anol", "rapeseed-low-erucic") >= 0);
    assert_true(place(&catalogue, "ripp", "tallow-beef") >= 0);
    assert_true(place(&catalogue, "kernel", "palm-kernel") >= 0);
    assert_true(place(&catalogue, "nut", "coconut") >= 0 && place(&catalogue, "nut", "cocoa-butter") == -1);
    /* "Palm oil" begins so; "Cotton seed oil" has it inside. */
    assert_true(place(&catalogue, "se", "sesame") < place(&catalogue, "se", "cottonseed"));
    assert_true(place(&catalogue, "se", "cottonseed") > 0);
}

static void every_row_is_found_by_its_key_and_name_and_an_empty_text_finds_all(void **state)
{
    struct catalogue catalogue;

    (void)state;
    for (enum fact_kind kind = FACT_OIL; kind <= FACT_FRAGRANCE; kind++) {
        catalogue_open(&catalogue, kind, &nothing);
        assert_in_range(catalogue.count, 10, CATALOGUE_MOST - 1);
        assert_int_equal(found(&catalogue, ""), catalogue.count);
        for (size_t i = 0; i < catalogue.count; i++) {
            assert_true(place(&catalogue, catalogue.entry[i].key, catalogue.entry[i].key) >= 0);
            assert_true(place(&catalogue, catalogue.entry[i].name, catalogue.entry[i].key) >= 0);
            assert_false(catalogue.entry[i].own);
        }
    }
}

static void nothing_is_found_by_what_nothing_is_called(void **state)
{
    struct catalogue catalogue;
    int index[2] = {-1, -1};
    char endless[300];

    (void)state;
    catalogue_open(&catalogue, FACT_OIL, &own);
    assert_int_equal(found(&catalogue, "snake"), 0);
    memset(endless, 'o', sizeof endless);
    endless[sizeof endless - 1] = '\0';
    assert_int_equal(found(&catalogue, endless), 0);
    assert_int_equal(catalogue_find(&catalogue, "", index, 1), 1); /* no more than there is room for */
    assert_int_equal(index[1], -1);
}

static void the_makers_own_come_first(void **state)
{
    struct catalogue catalogue;
    int index[CATALOGUE_MOST];
    size_t n;

    (void)state;
    catalogue_open(&catalogue, FACT_OIL, &own);
    n = catalogue_find(&catalogue, "", index, CATALOGUE_MOST);
    assert_true(n > 2);
    for (size_t i = 0; i < n; i++)
        assert_int_equal(catalogue.entry[index[i]].own, i < 2);
    assert_string_equal(catalogue.entry[index[0]].name, "Mill rapeseed");
    assert_int_equal(place(&catalogue, "mill", "Mill rapeseed"), 0);
    catalogue_open(&catalogue, FACT_FRAGRANCE, &own);
    assert_int_equal(place(&catalogue, "b", "Boathouse blend"), 0);
    catalogue_open(&catalogue, FACT_COLOURANT, &own);
    assert_int_equal(place(&catalogue, "Boathouse", "Boathouse blend"), -1); /* each kind is its own list */
}

/* An entry that goes before one of the reference is there once, under its own name and all others. */
static void an_own_entry_takes_the_place_of_the_references(void **state)
{
    struct catalogue catalogue;
    size_t reference;
    int olives = 0;

    (void)state;
    catalogue_open(&catalogue, FACT_OIL, &nothing);
    reference = catalogue.count;
    catalogue_open(&catalogue, FACT_OIL, &own);
    assert_int_equal(catalogue.count, reference + 1);
    for (size_t i = 0; i < catalogue.count; i++)
        if (strcmp(catalogue.entry[i].key, "olive") == 0) {
            olives++;
            assert_true(catalogue.entry[i].own);
            assert_string_equal(catalogue.entry[i].name, "Grove olive");
        }
    assert_int_equal(olives, 1);
    assert_int_equal(place(&catalogue, "grove", "olive"), 0);
    assert_int_equal(place(&catalogue, "olive", "olive"), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_name_of_the_trade_finds_its_oil_first),
        cmocka_unit_test(any_part_of_a_name_finds_it_behind_those_that_begin_so),
        cmocka_unit_test(every_row_is_found_by_its_key_and_name_and_an_empty_text_finds_all),
        cmocka_unit_test(nothing_is_found_by_what_nothing_is_called),
        cmocka_unit_test(the_makers_own_come_first),
        cmocka_unit_test(an_own_entry_takes_the_place_of_the_references),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
