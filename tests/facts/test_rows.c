/* test_rows.c - that every row is whole: there, with source and standing, within its ranges, and with references that lead
 * somewhere. The generator checks the tables as they are read; this checks what the program gets. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#include "lyeway/facts.h"
#include "near.h"

static void check_text(const char *text)
{
    assert_non_null(text);
    assert_true(*text != '\0');
}

/* A reference row is never a certificate or the maker's own. */
static void check_origin(enum standing standing, const char *source)
{
    assert_in_range(standing, STANDING_SEEN, STANDING_MEMORY);
    check_text(source);
}

static void the_tables_are_as_large_as_they_should_be(void **state)
{
    const struct reference *r = facts_reference();
    size_t n;

    (void)state;
    facts_oils(&n);
    assert_int_equal(n, 67);
    facts_additives(&n);
    assert_int_equal(n, 25);
    facts_liquids(&n);
    assert_int_equal(n, 15);
    facts_colourants(&n);
    assert_int_equal(n, 58);
    facts_fragrances(&n);
    assert_int_equal(n, 44);
    facts_units(&n);
    assert_int_equal(n, 40);
    assert_int_equal(ACIDS, 19);
    assert_int_equal(r->limits, 64);
    assert_int_equal(r->allergens, 81);
}

static void every_oil_is_whole(void **state)
{
    size_t n;
    const struct oil_fact *oil = facts_oils(&n);

    (void)state;
    for (size_t i = 0; i < n; i++) {
        check_text(oil[i].key);
        check_text(oil[i].name);
        assert_non_null(oil[i].inci);
        assert_non_null(oil[i].inci_soap);
        assert_non_null(oil[i].note);
        check_origin(oil[i].sap_standing, oil[i].sap_source);
        assert_true(0 < oil[i].sap_lo && oil[i].sap_lo <= oil[i].sap_nominal && oil[i].sap_nominal <= oil[i].sap_hi);
        assert_true(oil[i].has_iodine && oil[i].iodine_lo <= oil[i].iodine_hi);
        assert_int_equal(oil[i].density_g_ml > 0, oil[i].density_temp_c > 0);
        assert_in_range(oil[i].kind, OIL_LIQUID, OIL_ACID);
    }
}

static double sum_of(const double share[ACIDS])
{
    double sum = 0;

    for (size_t i = 0; i < ACIDS; i++)
        sum += share[i];
    return sum;
}

/* A single analysis scaled to 100 lies outside its own unscaled figures. */
static void check_acid_ranges(const struct oil_fact *oil)
{
    for (size_t i = 0; i < ACIDS; i++) {
        assert_true(oil->acid_lo[i] <= oil->acid_hi[i]);
        if (oil->acid_lo[i] < oil->acid_hi[i])
            assert_true(oil->acid_lo[i] <= oil->acid[i] && oil->acid[i] <= oil->acid_hi[i]);
    }
}

static void acids_sum_to_one_or_are_not_known(void **state)
{
    size_t n, with_acids = 0;
    const struct oil_fact *oil = facts_oils(&n);

    (void)state;
    for (size_t i = 0; i < n; i++) {
        with_acids += oil[i].has_acids;
        assert_near(sum_of(oil[i].acid), oil[i].has_acids ? 1 : 0, 1e-12);
        assert_true(sum_of(oil[i].acid_hi) >= sum_of(oil[i].acid_lo));
        if (oil[i].has_acids) {
            check_origin(oil[i].acid_standing, oil[i].acid_source);
            check_acid_ranges(&oil[i]);
        } else {
            assert_true(sum_of(oil[i].acid_hi) == 0);
            assert_string_equal(oil[i].acid_source, "");
        }
    }
    assert_int_equal(with_acids, 54);
}

/* Butterfat has about 3.5 % of butyric acid, for which there is no published row; waxes are not triglycerides. */
static void butterfat_and_waxes_have_no_acids(void **state)
{
    size_t n;
    const struct oil_fact *oil = facts_oils(&n);

    (void)state;
    assert_false(facts_oil("butterfat")->has_acids);
    for (size_t i = 0; i < n; i++)
        if (oil[i].kind == OIL_WAX || oil[i].kind == OIL_ACID)
            assert_false(oil[i].has_acids);
    assert_int_equal(facts_oil("jojoba")->kind, OIL_WAX);
    assert_int_equal(facts_oil("lard")->kind, OIL_FAT);
    assert_int_equal(facts_oil("shea")->kind, OIL_BUTTER);
    assert_int_equal(facts_oil("stearic-acid")->kind, OIL_ACID);
}

/* Source of the figures: CXS 210-1999 (amended to 2022) Tables 1 and 2, coconut oil; CXS 33-1981, virgin olive oil. */
static void percents_have_become_shares(void **state)
{
    const struct oil_fact *coconut = facts_oil("coconut"), *olive = facts_oil("olive");

    (void)state;
    assert_true(coconut->acid_lo[ACID_C12_0] == 0.451 && coconut->acid_hi[ACID_C12_0] == 0.532);
    assert_true(coconut->sap_lo == 248 && coconut->sap_hi == 265);
    assert_true(coconut->acid[ACID_C4_0] == 0 && coconut->acid_hi[ACID_C4_0] == 0);
    assert_int_equal(coconut->sap_standing, STANDING_SEEN);
    assert_true(olive->acid_lo[ACID_C18_1] == 0.55 && olive->acid_hi[ACID_C18_1] == 0.83);
    assert_true(olive->sap_lo == 184 && olive->sap_hi == 196);
    assert_int_equal(olive->sap_standing, STANDING_MEMORY);
    assert_true(facts_additive("sodium-lactate-60")->usual_hi == 0.03);
}

static void check_fat(double fat_share, const char *fat_oil)
{
    assert_non_null(fat_oil);
    assert_int_equal(fat_share > 0, *fat_oil != '\0');
    if (*fat_oil)
        assert_string_equal(facts_oil(fat_oil)->key, fat_oil);
}

static void every_additive_and_liquid_is_whole(void **state)
{
    size_t n;
    const struct additive_fact *additive = facts_additives(&n);

    (void)state;
    for (size_t i = 0; i < n; i++) {
        check_text(additive[i].key);
        check_text(additive[i].name);
        check_text(additive[i].kind);
        check_text(additive[i].add_to);
        check_text(additive[i].effect);
        check_fat(additive[i].fat_share, additive[i].fat_oil);
        check_origin(additive[i].standing, additive[i].source);
        assert_true(additive[i].equivalents == 0 || additive[i].molar_mass > 0);
        assert_true(additive[i].usual_lo <= additive[i].usual_hi && additive[i].usual_hi <= 0.05);
    }
    const struct liquid_fact *liquid = facts_liquids(&n);
    for (size_t i = 0; i < n; i++) {
        check_text(liquid[i].key);
        check_text(liquid[i].name);
        check_fat(liquid[i].fat_share, liquid[i].fat_oil);
        check_origin(liquid[i].standing, liquid[i].source);
        assert_non_null(liquid[i].note);
        assert_true(liquid[i].water_share + liquid[i].fat_share + liquid[i].sugar_share <= 1);
        assert_true(liquid[i].density_g_ml > 0.9);
    }
}

static void every_colourant_is_whole(void **state)
{
    size_t n, whiteners = 0;
    const struct colourant_fact *colourant = facts_colourants(&n);

    (void)state;
    for (size_t i = 0; i < n; i++) {
        check_text(colourant[i].key);
        check_text(colourant[i].name);
        check_text(colourant[i].kind);
        check_text(colourant[i].dispersion);
        check_text(colourant[i].behaviour_note);
        assert_non_null(colourant[i].ci_number);
        check_origin(colourant[i].standing, colourant[i].source);
        assert_true(colourant[i].dose_lo <= colourant[i].dose_hi && colourant[i].dose_hi <= 50);
        assert_in_range(colourant[i].behaviour, ALKALI_STABLE, ALKALI_BLEEDS);
        assert_in_range(colourant[i].swatch_rgb, 1, 0xFFFFFF);
        assert_true(colourant[i].fresh_rgb <= 0xFFFFFF && colourant[i].fresh_rgb != colourant[i].swatch_rgb);
        assert_true(colourant[i].fresh_rgb == 0 || colourant[i].behaviour != ALKALI_STABLE);
        whiteners += colourant[i].whitens;
    }
    assert_int_equal(whiteners, 4);
    assert_true(facts_colourant("titanium-dioxide")->whitens && facts_colourant("zinc-oxide")->whitens);
    assert_true(facts_colourant("mica-white")->whitens && facts_colourant("kaolin")->whitens);
    assert_int_equal(facts_colourant("turmeric")->behaviour, ALKALI_SHIFTS_RETURNS);
    assert_true(facts_colourant("manganese-violet")->dose_hi == 0);
}

static void check_constituents(const struct fragrance_fact *fragrance)
{
    const struct reference *r = facts_reference();

    for (size_t i = 0; i < fragrance->constituents; i++) {
        const struct constituent *c = &fragrance->constituent[i];
        assert_in_range(c->limit, 0, r->limits - 1);
        assert_true(0 <= c->lo && c->lo <= c->hi && c->hi <= 1);
        if (fragrance->allergen >= 0)
            assert_int_not_equal(r->limit[c->limit].allergen, fragrance->allergen);
    }
}

static void every_fragrance_is_whole(void **state)
{
    size_t n, unknown = 0;
    const struct fragrance_fact *fragrance = facts_fragrances(&n);

    (void)state;
    for (size_t i = 0; i < n; i++) {
        check_text(fragrance[i].key);
        check_text(fragrance[i].name);
        check_text(fragrance[i].inci);
        check_origin(fragrance[i].standing, fragrance[i].source);
        assert_in_range(fragrance[i].allergen + 1, 0, facts_reference()->allergens);
        assert_in_range(fragrance[i].acceleration, ACCELERATION_SLOWS, ACCELERATION_STRONG);
        assert_true(fragrance[i].density_g_ml > 0.8 && fragrance[i].density_g_ml < 1.3);
        assert_true(fragrance[i].usual_max > 0 && fragrance[i].usual_max <= 0.05);
        check_constituents(&fragrance[i]);
        unknown += fragrance[i].constituents == 0;
    }
    assert_int_equal(unknown, 3);
}

/* Source: ISO 3515:2002 and Ph. Eur. 10 limits for lavender: linalool 20 to 45, linalyl acetate 25 to 47 %. */
static void lavender_has_the_constituents_of_its_standard(void **state)
{
    const struct reference *r = facts_reference();
    const struct fragrance_fact *lavender = facts_fragrance("lavender");
    const struct constituent *c = lavender->constituent;

    (void)state;
    assert_int_equal(lavender->constituents, 9);
    assert_string_equal(r->limit[c[0].limit].key, "linalool");
    assert_true(c[0].lo == 0.20 && c[0].hi == 0.45);
    assert_string_equal(r->limit[c[1].limit].key, "linalyl-acetate");
    assert_true(c[1].lo == 0.25 && c[1].hi == 0.47);
    assert_string_equal(r->allergen[lavender->allergen].inci, "Lavandula Oil/Extract");
    assert_near(lavender->density_g_ml, 0.885, 1e-12);
}

static void every_limit_is_whole_and_counts_towards_the_allergen_of_its_name(void **state)
{
    const struct reference *r = facts_reference();

    (void)state;
    for (size_t i = 0; i < r->limits; i++) {
        const struct limit_fact *limit = &r->limit[i];
        check_text(limit->key);
        check_text(limit->name);
        check_origin(limit->ifra_standing, limit->source);
        check_origin(limit->eu_standing, limit->source);
        assert_false(limit->has_ifra && limit->figure_unknown);
        assert_true(limit->has_ifra || limit->ifra_share == 0);
        assert_true(limit->has_eu || limit->eu_share == 0);
        int expected = -1;
        for (size_t k = 0; k < r->allergens; k++)
            if (strcmp(r->allergen[k].inci, limit->inci) == 0)
                expected = (int)k;
        assert_int_equal(limit->allergen, expected);
    }
}

static const struct limit_fact *limit_of(const char *key)
{
    const struct reference *r = facts_reference();

    for (size_t i = 0; i < r->limits; i++)
        if (strcmp(r->limit[i].key, key) == 0)
            return &r->limit[i];
    fail_msg("no limit %s", key);
    return NULL;
}

/* Source: IFRA Standards, Amendment 49 (2020): methyl eugenol 0.00087 %, citronellal 1.4 % in category 9; Regulation (EU) 2022/1531:
 * methyl salicylate 0.06 % in rinse-off products. */
static void limits_are_shares_of_the_product(void **state)
{
    (void)state;
    assert_true(limit_of("methyl-eugenol")->has_ifra && limit_of("methyl-eugenol")->ifra_share == 0.0000087);
    assert_true(limit_of("citronellal")->ifra_share == 0.014 && !limit_of("citronellal")->has_eu);
    assert_int_equal(limit_of("citronellal")->ifra_standing, STANDING_SEEN);
    assert_false(limit_of("methyl-salicylate")->has_ifra);
    assert_true(limit_of("methyl-salicylate")->has_eu && limit_of("methyl-salicylate")->eu_share == 0.0006);
    assert_true(limit_of("peru-balsam-extract")->figure_unknown && !limit_of("peru-balsam-extract")->has_ifra);
    assert_true(limit_of("hicc")->has_ifra && limit_of("hicc")->ifra_share == 0);
    assert_int_equal(limit_of("citral")->ifra_standing, STANDING_COMPUTED);
    assert_int_equal(limit_of("eugenol")->ifra_standing, STANDING_MEMORY);
    assert_int_equal(limit_of("limonene")->ifra_standing, STANDING_MEMORY);
}

/* Source: Regulation (EU) 2023/1545: 81 names, those it adds due for products placed after 31 July 2026; above 0.01 %. */
static void every_allergen_has_its_threshold_and_date(void **state)
{
    const struct reference *r = facts_reference();
    size_t in_force = 0;

    (void)state;
    for (size_t i = 0; i < r->allergens; i++) {
        check_text(r->allergen[i].key);
        check_text(r->allergen[i].inci);
        check_origin(r->allergen[i].standing, r->allergen[i].source);
        assert_true(r->allergen[i].threshold_rinse_off == 0.0001);
        in_force += *r->allergen[i].placed_until == '\0';
        if (*r->allergen[i].placed_until)
            assert_string_equal(r->allergen[i].placed_until, "2026-07-31");
    }
    assert_int_equal(in_force, 24);
}

static void acids_and_units_have_their_sources(void **state)
{
    size_t n;
    const struct unit_fact *unit = facts_units(&n);

    (void)state;
    for (size_t i = 0; i < ACIDS; i++) {
        check_text(facts_reference()->acid[i].name);
        check_origin(facts_reference()->acid[i].standing, facts_reference()->acid[i].source);
    }
    for (size_t i = 0; i < n; i++) {
        check_text(unit[i].name);
        check_text(unit[i].symbol);
        check_text(unit[i].si_unit);
        check_origin(unit[i].standing, unit[i].source);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_tables_are_as_large_as_they_should_be),
        cmocka_unit_test(every_oil_is_whole),
        cmocka_unit_test(acids_sum_to_one_or_are_not_known),
        cmocka_unit_test(butterfat_and_waxes_have_no_acids),
        cmocka_unit_test(percents_have_become_shares),
        cmocka_unit_test(every_additive_and_liquid_is_whole),
        cmocka_unit_test(every_colourant_is_whole),
        cmocka_unit_test(every_fragrance_is_whole),
        cmocka_unit_test(lavender_has_the_constituents_of_its_standard),
        cmocka_unit_test(every_limit_is_whole_and_counts_towards_the_allergen_of_its_name),
        cmocka_unit_test(limits_are_shares_of_the_product),
        cmocka_unit_test(every_allergen_has_its_threshold_and_date),
        cmocka_unit_test(acids_and_units_have_their_sources),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
