/* The shelf: an entry comes back as it was put, whatever of the reference it is like. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "store/shelf.h"
#include "store/shelf_members.h"
#include "support/scratch.h"

struct fixture {
    struct scratch *scratch;
    struct store *store;
    struct shelf *shelf;
    struct lw_error error;
};

static int setup(void **state)
{
    struct fixture *fixture = calloc(1, sizeof *fixture);

    if (!fixture || scratch_setup((void **)&fixture->scratch) != 0)
        return -1;
    fixture->store = scratch_open(fixture->scratch);
    *state = fixture;
    return 0;
}

static int teardown(void **state)
{
    struct fixture *fixture = *state;

    shelf_free(fixture->shelf);
    scratch_close(fixture->store);
    scratch_teardown((void **)&fixture->scratch);
    free(fixture);
    return 0;
}

static void ok(const struct fixture *fixture, enum lw_status status)
{
    if (status != LW_OK)
        fail_msg("status %d: %s", (int)status, fixture->error.text);
}

static const struct shelf *load(struct fixture *fixture)
{
    shelf_free(fixture->shelf);
    ok(fixture, shelf_load(fixture->store, facts_reference(), &fixture->shelf, &fixture->error));
    return fixture->shelf;
}

static void same_texts(const char *const a[], const char *const b[], size_t n)
{
    for (size_t i = 0; i < n; i++)
        assert_string_equal(a[i], b[i]);
}

#define SAME_TEXTS(a, b, ...) \
    same_texts((const char *const[]){TEXTS(a, __VA_ARGS__)}, (const char *const[]){TEXTS(b, __VA_ARGS__)}, 4)
#define TEXTS(row, one, two, three, four) (row)->one, (row)->two, (row)->three, (row)->four

static void same_oil(const struct oil_fact *a, const struct oil_fact *b)
{
    SAME_TEXTS(a, b, key, name, inci, inci_soap);
    SAME_TEXTS(a, b, sap_source, acid_source, note, key);
    assert_true(a->sap_lo == b->sap_lo && a->sap_hi == b->sap_hi && a->sap_nominal == b->sap_nominal);
    assert_int_equal(a->sap_standing, b->sap_standing);
    assert_int_equal(a->has_iodine, b->has_iodine);
    assert_true(a->iodine_lo == b->iodine_lo && a->iodine_hi == b->iodine_hi);
    assert_true(a->density_g_ml == b->density_g_ml && a->density_temp_c == b->density_temp_c);
    assert_int_equal(a->has_melt, b->has_melt);
    assert_true(a->melt_c == b->melt_c);
    assert_int_equal(a->kind, b->kind);
    assert_int_equal(a->has_acids, b->has_acids);
    assert_memory_equal(a->acid, b->acid, sizeof a->acid);
    assert_memory_equal(a->acid_lo, b->acid_lo, sizeof a->acid_lo);
    assert_memory_equal(a->acid_hi, b->acid_hi, sizeof a->acid_hi);
    assert_int_equal(a->acid_standing, b->acid_standing);
}

static void same_additive(const struct additive_fact *a, const struct additive_fact *b)
{
    SAME_TEXTS(a, b, key, name, inci, kind);
    SAME_TEXTS(a, b, fat_oil, add_to, effect, source);
    assert_true(a->active_share == b->active_share && a->molar_mass == b->molar_mass &&
                a->equivalents == b->equivalents);
    assert_true(a->density_g_ml == b->density_g_ml && a->water_share == b->water_share && a->fat_share == b->fat_share);
    assert_true(a->usual_lo == b->usual_lo && a->usual_hi == b->usual_hi);
    assert_int_equal(a->standing, b->standing);
}

static void same_liquid(const struct liquid_fact *a, const struct liquid_fact *b)
{
    SAME_TEXTS(a, b, key, name, inci, fat_oil);
    SAME_TEXTS(a, b, note, source, key, key);
    assert_true(a->water_share == b->water_share && a->fat_share == b->fat_share && a->sugar_share == b->sugar_share);
    assert_true(a->acid_mol_per_kg == b->acid_mol_per_kg && a->density_g_ml == b->density_g_ml);
    assert_int_equal(a->standing, b->standing);
}

static void same_colourant(const struct colourant_fact *a, const struct colourant_fact *b)
{
    SAME_TEXTS(a, b, key, name, inci, ci_number);
    SAME_TEXTS(a, b, kind, behaviour_note, dispersion, eu_status);
    SAME_TEXTS(a, b, us_status, source, key, key);
    assert_int_equal(a->behaviour, b->behaviour);
    assert_true(a->dose_lo == b->dose_lo && a->dose_hi == b->dose_hi);
    assert_int_equal(a->swatch_rgb, b->swatch_rgb);
    assert_int_equal(a->fresh_rgb, b->fresh_rgb);
    assert_int_equal(a->whitens, b->whitens);
    assert_int_equal(a->standing, b->standing);
}

/* Constituents are a set: by limit, in whatever order. */
static const struct constituent *with_limit(const struct fragrance_fact *fragrance, int limit)
{
    for (size_t i = 0; i < fragrance->constituents; i++)
        if (fragrance->constituent[i].limit == limit)
            return &fragrance->constituent[i];
    fail_msg("constituent %d of %s is not there", limit, fragrance->name);
    return NULL;
}

static void same_fragrance(const struct fragrance_fact *a, const struct fragrance_fact *b)
{
    SAME_TEXTS(a, b, key, name, inci, discolouration);
    SAME_TEXTS(a, b, source, key, key, key);
    assert_int_equal(a->allergen, b->allergen);
    assert_true(a->density_g_ml == b->density_g_ml && a->usual_max == b->usual_max);
    assert_int_equal(a->acceleration, b->acceleration);
    assert_int_equal(a->standing, b->standing);
    assert_int_equal(a->constituents, b->constituents);
    for (size_t i = 0; i < b->constituents; i++) {
        const struct constituent *one = with_limit(a, b->constituent[i].limit);

        assert_true(one->lo == b->constituent[i].lo && one->hi == b->constituent[i].hi);
    }
}

/* Every row of the reference, put as the maker's own: between them they have every member that a row can have. */
#define COMES_BACK(test, list, counter, type, all, put, same, ...)                                           \
    static void test(void **state)                                                                           \
    {                                                                                                        \
        struct fixture *fixture = *state;                                                                    \
        size_t n, at;                                                                                        \
        const type *row = all(&n);                                                                           \
                                                                                                             \
        for (size_t i = 0; i < n; i++)                                                                       \
            ok(fixture, put(fixture->store, &row[i], __VA_ARGS__ & fixture->scratch->now, &fixture->error)); \
        assert_int_equal(load(fixture)->counter, n);                                                         \
        for (size_t i = 0; i < n; i++) {                                                                     \
            for (at = 0; at < n && strcmp(fixture->shelf->list[at].key, row[i].key) != 0;)                   \
                at++;                                                                                        \
            assert_true(at < n);                                                                             \
            same(&fixture->shelf->list[at], &row[i]);                                                        \
        }                                                                                                    \
    }

COMES_BACK(every_fact_of_an_oil_comes_back, oil, oils, struct oil_fact, facts_oils, shelf_put_oil, same_oil, )
COMES_BACK(every_fact_of_an_additive_comes_back, additive, additives, struct additive_fact, facts_additives,
           shelf_put_additive, same_additive, )
COMES_BACK(every_fact_of_a_liquid_comes_back, liquid, liquids, struct liquid_fact, facts_liquids, shelf_put_liquid,
           same_liquid, )
COMES_BACK(every_fact_of_a_colourant_comes_back, colourant, colourants, struct colourant_fact, facts_colourants,
           shelf_put_colourant, same_colourant, )
COMES_BACK(every_fact_of_a_fragrance_comes_back, fragrance, fragrances, struct fragrance_fact, facts_fragrances,
           shelf_put_fragrance, same_fragrance, facts_reference(), )

static struct oil_fact own_oil(const char *name, double sap)
{
    return (struct oil_fact){.key = name,
                             .name = name,
                             .inci = "",
                             .inci_soap = "",
                             .sap_lo = sap - 3,
                             .sap_hi = sap + 3,
                             .sap_nominal = sap,
                             .sap_standing = STANDING_CERTIFICATE,
                             .sap_source = "lot 7",
                             .acid_source = "",
                             .note = ""};
}

static void an_entry_of_the_same_name_is_replaced_whatever_the_case(void **state)
{
    struct fixture *fixture = *state;
    struct oil_fact first = own_oil("House blend", 190), second = own_oil("house BLEND", 195);

    first.has_melt = true;
    first.melt_c = 24;
    ok(fixture, shelf_put_oil(fixture->store, &first, &fixture->scratch->now, &fixture->error));
    ok(fixture, shelf_put_oil(fixture->store, &second, &fixture->scratch->now, &fixture->error));
    assert_int_equal(load(fixture)->oils, 1);
    same_oil(&fixture->shelf->oil[0], &second);
}

static void the_same_name_may_stand_for_entries_of_two_kinds(void **state)
{
    struct fixture *fixture = *state;
    struct oil_fact oil = own_oil("Coconut", 257);
    struct liquid_fact liquid = {.key = "",
                                 .name = "Coconut",
                                 .inci = "",
                                 .water_share = 0.95,
                                 .fat_oil = "",
                                 .note = "",
                                 .source = "",
                                 .standing = STANDING_OWN};

    ok(fixture, shelf_put_oil(fixture->store, &oil, &fixture->scratch->now, &fixture->error));
    ok(fixture, shelf_put_liquid(fixture->store, &liquid, &fixture->scratch->now, &fixture->error));
    assert_int_equal(load(fixture)->oils, 1);
    assert_int_equal(fixture->shelf->liquids, 1);
    assert_string_equal(fixture->shelf->liquid[0].key, "Coconut"); /* without a key of its own the name is it */
}

static void an_archived_entry_can_be_read_but_is_not_offered(void **state)
{
    struct fixture *fixture = *state;
    struct oil_fact a = own_oil("A blend", 190), b = own_oil("B blend", 195),
                    olive = own_oil("Olive of the valley", 189);

    olive.key = "olive";
    ok(fixture, shelf_put_oil(fixture->store, &a, &fixture->scratch->now, &fixture->error));
    ok(fixture, shelf_put_oil(fixture->store, &b, &fixture->scratch->now, &fixture->error));
    ok(fixture, shelf_put_oil(fixture->store, &olive, &fixture->scratch->now, &fixture->error));
    assert_int_equal(load(fixture)->offered.oils, 3);
    ok(fixture, shelf_archive(fixture->store, FACT_OIL, "a BLEND", &fixture->scratch->now, &fixture->error));
    assert_int_equal(load(fixture)->offered.oils, 2);
    assert_int_equal(fixture->shelf->oils, 3);
    same_oil(&fixture->shelf->oil[0], &b);
    same_oil(&fixture->shelf->oil[2], &a);

    /* The reference's olive is there again to read old recipes by. */
    ok(fixture,
       shelf_archive(fixture->store, FACT_OIL, "Olive of the valley", &fixture->scratch->now, &fixture->error));
    assert_int_equal(load(fixture)->oils, 2);

    ok(fixture, shelf_put_oil(fixture->store, &a, &fixture->scratch->now, &fixture->error));
    assert_int_equal(load(fixture)->offered.oils, 2);
    assert_int_equal(shelf_archive(fixture->store, FACT_LIQUID, "A blend", &fixture->scratch->now, &fixture->error),
                     LW_NOT_FOUND);
    assert_non_null(strstr(fixture->error.text, "liquid \"A blend\""));
}

static void an_unknown_constituent_makes_the_composition_unknown(void **state)
{
    struct fixture *fixture = *state;
    static const struct constituent constituent[] = {{0, 0.1, 0.2}, {1, 0.3, 0.4}};
    struct fragrance_fact fragrance = {.key = "Orchard",
                                       .name = "Orchard",
                                       .inci = "",
                                       .allergen = -1,
                                       .constituent = constituent,
                                       .constituents = 2,
                                       .discolouration = "",
                                       .source = ""};
    sqlite3 *db;

    ok(fixture,
       shelf_put_fragrance(fixture->store, &fragrance, facts_reference(), &fixture->scratch->now, &fixture->error));
    assert_int_equal(load(fixture)->fragrance[0].constituents, 2);
    assert_int_equal(sqlite3_open(fixture->scratch->path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_exec(db, "UPDATE ingredient_fact SET member = 'constituent:zzz:hi' WHERE number = 0.4",
                                  NULL, NULL, NULL),
                     SQLITE_OK);
    assert_int_equal(sqlite3_changes(db), 1);
    sqlite3_close(db);
    assert_int_equal(load(fixture)->fragrance[0].constituents, 0);
    assert_int_equal(fixture->shelf->fragrances, 1);
}

static void an_entry_that_does_not_fit_is_refused(void **state)
{
    struct fixture *fixture = *state;
    struct oil_fact nameless = own_oil("", 190), endless = own_oil("Endless", 1e300);
    static const struct constituent outside = {100000, 0, 1};
    struct fragrance_fact fragrance = {.key = "Orchard",
                                       .name = "Orchard",
                                       .inci = "",
                                       .allergen = -1,
                                       .constituent = &outside,
                                       .constituents = 1,
                                       .discolouration = "",
                                       .source = ""};

    assert_int_equal(shelf_put_oil(fixture->store, &nameless, &fixture->scratch->now, &fixture->error), LW_INVALID);
    assert_int_equal(shelf_put_oil(fixture->store, &endless, &fixture->scratch->now, &fixture->error), LW_INVALID);
    assert_int_equal(
        shelf_put_fragrance(fixture->store, &fragrance, facts_reference(), &fixture->scratch->now, &fixture->error),
        LW_INVALID);
    assert_int_equal(load(fixture)->oils + fixture->shelf->fragrances, 0);
}

static void the_keys_of_acids_are_those_of_the_reference(void **state)
{
    (void)state;
    for (int i = 0; i < ACIDS; i++)
        assert_string_equal(shelf_acid_key((enum acid)i), facts_reference()->acid[i].key);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(every_fact_of_an_oil_comes_back, setup, teardown),
        cmocka_unit_test_setup_teardown(every_fact_of_an_additive_comes_back, setup, teardown),
        cmocka_unit_test_setup_teardown(every_fact_of_a_liquid_comes_back, setup, teardown),
        cmocka_unit_test_setup_teardown(every_fact_of_a_colourant_comes_back, setup, teardown),
        cmocka_unit_test_setup_teardown(every_fact_of_a_fragrance_comes_back, setup, teardown),
        cmocka_unit_test_setup_teardown(an_entry_of_the_same_name_is_replaced_whatever_the_case, setup, teardown),
        cmocka_unit_test_setup_teardown(the_same_name_may_stand_for_entries_of_two_kinds, setup, teardown),
        cmocka_unit_test_setup_teardown(an_archived_entry_can_be_read_but_is_not_offered, setup, teardown),
        cmocka_unit_test_setup_teardown(an_unknown_constituent_makes_the_composition_unknown, setup, teardown),
        cmocka_unit_test_setup_teardown(an_entry_that_does_not_fit_is_refused, setup, teardown),
        cmocka_unit_test(the_keys_of_acids_are_those_of_the_reference),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
