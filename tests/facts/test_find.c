/* test_find.c - finding facts by key, name and synonym. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#include "facts/find.h"
#include "lyeway/facts.h"

struct lookup {
    const char *name, *key;
};

/* Trade and botanical names: common practice. */
static void an_oil_is_found_by_key_name_and_synonym(void **state)
{
    static const struct lookup lookup[] = {
        {"olive", "olive"},
        {"Olive oil (virgin or refined)", "olive"},
        {"olive oil", "olive"},
        {"Canola", "rapeseed-low-erucic"},
        {"sweet almond", "almond-sweet"},
        {"cacao", "cocoa-butter"},
        {"beef dripping", "tallow-beef"},
        {"soya", "soybean"},
        {"corn", "maize"},
        {"arachis", "groundnut"},
        {"linseed", "flaxseed"},
        {"shea", "shea-butter"},
        {"karite", "shea-butter"},
        {"hemp", "hempseed"},
        {"sunflower oil", "sunflower"},
        {"tallow", "tallow-beef"},
        {"pork fat", "lard"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof lookup / sizeof *lookup; i++) {
        const struct oil_fact *oil = facts_oil(lookup[i].name);
        assert_non_null(oil);
        assert_string_equal(oil->key, lookup[i].key);
    }
}

static void the_other_kinds_are_found_too(void **state)
{
    (void)state;
    assert_string_equal(facts_additive("Citric acid anhydrous")->key, "citric-acid");
    assert_string_equal(facts_additive("table salt")->key, "salt");
    assert_string_equal(facts_additive("sugar")->key, "sugar");
    assert_string_equal(facts_liquid("goat milk")->key, "milk-goat");
    assert_string_equal(facts_colourant("white mica")->key, "mica-white");
    assert_string_equal(facts_fragrance("ylang ylang")->key, "ylang");
    assert_string_equal(facts_unit("OZ")->name, "avoirdupois ounce");
    assert_string_equal(facts_unit("inch")->symbol, "in");
}

static void case_spaces_hyphens_and_underscores_do_not_count(void **state)
{
    (void)state;
    assert_ptr_equal(facts_oil("ALMOND SWEET"), facts_oil("almond-sweet"));
    assert_ptr_equal(facts_oil("almond_sweet"), facts_oil("almond-sweet"));
    assert_ptr_equal(facts_oil("Coconut-Oil"), facts_oil("coconut"));
    assert_true(fact_same_name("Palm_Kernel oil", "palm-kernel-OIL"));
    assert_false(fact_same_name("palm", "palm-kernel"));
    assert_false(fact_same_name("palm-kernel", "palm"));
    assert_false(fact_same_name("palmkernel", "palm-kernel"));
}

static void an_unknown_or_empty_name_finds_nothing(void **state)
{
    (void)state;
    assert_null(facts_oil("no such oil"));
    assert_null(facts_oil(""));
    assert_null(facts_oil("oliv"));
    assert_null(facts_additive("olive"));
    assert_null(facts_liquid("no such liquid"));
    assert_null(facts_colourant("no such colourant"));
    assert_null(facts_fragrance("no such fragrance"));
    assert_null(facts_unit("no such unit"));
}

/* One kind's finder seen through the key of what it finds. */
static const char *key_found(enum fact_kind kind, const char *name)
{
    switch (kind) {
    case FACT_OIL:
        return facts_oil(name)->key;
    case FACT_ADDITIVE:
        return facts_additive(name)->key;
    case FACT_LIQUID:
        return facts_liquid(name)->key;
    case FACT_COLOURANT:
        return facts_colourant(name)->key;
    case FACT_FRAGRANCE:
        return facts_fragrance(name)->key;
    }
    return NULL;
}

struct count {
    enum fact_kind kind;
    size_t names, keys;
};

static void check_name(void *context, const char *name, const char *key)
{
    struct count *count = context;

    assert_string_equal(key_found(count->kind, name), key);
    count->names++;
    count->keys += strcmp(name, key) == 0;
}

static size_t rows_of(enum fact_kind kind)
{
    size_t n[5];

    facts_oils(&n[FACT_OIL]);
    facts_additives(&n[FACT_ADDITIVE]);
    facts_liquids(&n[FACT_LIQUID]);
    facts_colourants(&n[FACT_COLOURANT]);
    facts_fragrances(&n[FACT_FRAGRANCE]);
    return n[kind];
}

static void every_name_leads_to_its_key_and_every_row_has_one(void **state)
{
    (void)state;
    for (enum fact_kind kind = FACT_OIL; kind <= FACT_FRAGRANCE; kind++) {
        struct count count = {.kind = kind};
        facts_each_name(kind, check_name, &count);
        assert_int_equal(count.keys, rows_of(kind));
        assert_true(count.names > 2 * count.keys);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_oil_is_found_by_key_name_and_synonym),
        cmocka_unit_test(the_other_kinds_are_found_too),
        cmocka_unit_test(case_spaces_hyphens_and_underscores_do_not_count),
        cmocka_unit_test(an_unknown_or_empty_name_finds_nothing),
        cmocka_unit_test(every_name_leads_to_its_key_and_every_row_has_one),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
