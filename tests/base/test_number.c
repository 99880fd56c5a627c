/* test_number.c - numbers from and to text. The outside measure is the C library of the platform in the "C" locale (strtod
 * and printf of glibc are correctly rounded), and the texts known to be hard for such conversions. */
#include <float.h>
#include <locale.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <cmocka.h>

#include "base/number.h"

enum { RANDOM_ROUNDS = 20000 };

/* Marsaglia's xorshift, "Xorshift RNGs" (2003): the same numbers in every run. */
static uint64_t random_bits(void)
{
    static uint64_t state = 88172645463325252ULL;

    state ^= state << 13;
    state ^= state >> 7;
    state ^= state << 17;
    return state;
}

/* What is tested runs under the locale of the environment, which may have a decimal comma; what it is measured by under "C". */
static bool reads(const char *text, double *value)
{
    setlocale(LC_NUMERIC, "");
    bool read = number_read(text, strlen(text), value);
    setlocale(LC_NUMERIC, "C");
    return read;
}

static void write_text(char out[NUMBER_BYTES], double value, int decimals)
{
    setlocale(LC_NUMERIC, "");
    number_write(out, value, decimals);
    setlocale(LC_NUMERIC, "C");
}

static void same_as_strtod(const char *text)
{
    double ours, theirs = strtod(text, NULL);

    if (isinf(theirs)) {
        assert_false(reads(text, &ours));
        return;
    }
    if (!reads(text, &ours))
        fail_msg("not read: %s", text);
    if (memcmp(&ours, &theirs, sizeof ours) != 0)
        fail_msg("%s read as %a, strtod %a", text, ours, theirs);
}

/* RFC 8259, section 6. */
static void only_json_numbers_are_read(void **state)
{
    static const char *const refused[] = {
        "",         "-",         "+1",    "01",    "-01",  ".5",  "5.",    "1.e3",   "1e",  "1e+",
        "1e-",      "--1",       "1 ",    " 1",    "0x10", "1,5", "1.5.2", "nan",    "NaN", "inf",
        "Infinity", "-Infinity", "1e5.0", "1_000", "1f",   "e5",  "1e999", "-1e309", "١",
    };
    static const char *const taken[] = {
        "0", "-0", "0.0", "1", "-1", "10", "0e0", "0E+00", "1e-999", "0e999999999999", "-0.0e-5"};
    double value = 77;

    (void)state;
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        if (reads(refused[i], &value))
            fail_msg("read: %s", refused[i]);
    }
    assert_true(value == 77);
    assert_false(number_read("1\0002", 3, &value));
    for (size_t i = 0; i < sizeof taken / sizeof taken[0]; i++)
        same_as_strtod(taken[i]);
}

static void only_the_given_bytes_are_looked_at(void **state)
{
    double value;

    (void)state;
    assert_true(number_read("12345", 3, &value));
    assert_true(value == 123);
    assert_false(number_read("1.5", 2, &value));
    assert_false(number_read("1", 0, &value));
}

/* Hard cases: the largest subnormal that once hung a popular run-time, the midpoint above the largest double, halves of the
 * smallest; Paxson, "A program for testing IEEE decimal-binary conversion" (1991), tables 1 to 4, from memory. */
static void hard_numbers_are_the_nearest_double(void **state)
{
    /* clang-format off */
    static const char *const hard[] = {
        "2.2250738585072011e-308", "2.2250738585072014e-308", "1.7976931348623157e308", "1.7976931348623158e308",
        "1.797693134862315807e308", "1.7976931348623159e308", "4.9406564584124654e-324", "2.4703282292062327e-324",
        "2.4703282292062328e-324", "2.47032822920623272088284396434110686182e-324",
        "9007199254740993", "9007199254740992.9999999999999999999", "9007199254740993.0000000000000000001", "9007199254740995",
        "5e-324", "1e-323", "1e23", "8.5e22", "9.5e22", "1e22", "1e-22", "123456789012345678901234567890",
        "5e125", "69e267", "999e-26", "7861e-34", "75569e-254", "928609e-261", "9210917e80", "84863171e114", "653777767e273",
        "5232604057e-298", "27235667517e-109", "653532977297e-123", "3142213164987e-294", "46202199371337e-72",
        "231010996856685e-73", "9324754620109615e212", "78459735791271921e49", "272104041512242479e200",
        "6802601037806061975e198", "20505426358836677347e-221", "836168422905420598437e-234", "4891559871276714924261e222",
        "0.500000000000000166533453693773481063544750213623046875", "3.518437208883201171875e13",
        "6929495644600919.5", "3.7455744005952583e15", "0.1", "0.3", "147.24", "0.000001",
    };
    /* clang-format on */

    (void)state;
    for (size_t i = 0; i < sizeof hard / sizeof hard[0]; i++)
        same_as_strtod(hard[i]);
}

static void random_doubles_survive_seventeen_digits(void **state)
{
    (void)state;
    for (int i = 0; i < RANDOM_ROUNDS; i++) {
        uint64_t bits = random_bits();
        double value;
        char text[64];

        memcpy(&value, &bits, sizeof value);
        if (!isfinite(value))
            continue;
        snprintf(text, sizeof text, "%.*e", (int)(16 + random_bits() % 8), value);
        same_as_strtod(text);
    }
}

static void random_digits_are_read_as_strtod_does(void **state)
{
    (void)state;
    for (int i = 0; i < RANDOM_ROUNDS; i++) {
        char text[1000];
        size_t n = 0, digits = 1 + random_bits() % (i % 50 == 0 ? 900 : 30), point = random_bits() % (digits + 1);

        text[n++] = (char)('1' + random_bits() % 9);
        for (size_t d = 1; d < digits; d++) {
            if (d == point)
                text[n++] = '.';
            text[n++] = (char)('0' + random_bits() % 10);
        }
        snprintf(text + n, sizeof text - n, "e%d", (int)(random_bits() % 700) - 350);
        same_as_strtod(text);
    }
}

/* The exact midpoint of two doubles has up to 767 digits; one more digit behind it decides. */
static void midpoints_go_to_even_and_a_last_digit_decides(void **state)
{
    (void)state;
    for (int i = 0; i < 2000; i++) {
        uint64_t bits = random_bits() >> 2; /* below 2^-256: with few digits before the point */
        double low;
        char text[1200];

        if (i % 2 == 0)
            bits >>= 10; /* subnormal */
        memcpy(&low, &bits, sizeof low);
        double high = nextafter(low, INFINITY);
        /* long double of x87 has 64 bits, enough for the midpoint of two doubles of this exponent. */
        long double middle = ((long double)low + high) / 2;
        int length = snprintf(text, sizeof text - 2, "%.1100Le", middle);
        assert_true(length > 0 && length < (int)sizeof text - 2);
        same_as_strtod(text);

        char *e = strchr(text, 'e');
        e[-1] = '1';
        same_as_strtod(text);
    }
}

static void a_long_number_is_read_exactly(void **state)
{
    char *text = malloc(200010);
    double value;

    (void)state;
    assert_non_null(text);
    memcpy(text, "0.", 2);
    memset(text + 2, '0', 99999);
    strcpy(text + 100001, "125e100000");
    assert_true(reads(text, &value));
    assert_true(value == 1.25);

    memset(text, '0', 200000);
    text[0] = '4';
    strcpy(text + 199999, "e-199998");
    assert_true(reads(text, &value));
    assert_true(value == 4);
    free(text);
}

static void written(double value, int decimals, const char *expected)
{
    char out[NUMBER_BYTES];

    write_text(out, value, decimals);
    assert_string_equal(out, expected);
}

static void numbers_are_written_with_the_decimals_asked(void **state)
{
    (void)state;
    written(0, 0, "0");
    written(-0.0, 2, "0.00");
    written(-0.004, 2, "0.00");
    written(-0.005, 2, "-0.01"); /* the double is -0.005000000000000000104 */
    written(1.005, 2, "1.00");   /* the double is 1.00499999999999989 */
    written(0.125, 2, "0.13");   /* a true half goes away from zero */
    written(-0.125, 2, "-0.13");
    written(0.5, 0, "1");
    written(2.5, 0, "3");
    written(-2.5, 0, "-3");
    written(9.995, 2, "9.99"); /* 9.9949999999999992 */
    written(9.9951, 2, "10.00");
    written(0.999999, 5, "1.00000");
    written(123456.789, 3, "123456.789");
    written(0.1, 15, "0.100000000000000");
    written(999999999999999872.0, 0, "999999999999999872");
    written(1e18, 0, "?");
    written(INFINITY, 2, "?");
    written(NAN, 2, "?");
}

/* printf of glibc writes the exact value and rounds it; true halves, where it goes to even, are left out. */
static void same_as_printf(double value, int decimals)
{
    char ours[NUMBER_BYTES], theirs[400], exact[1200];

    snprintf(exact, sizeof exact, "%.300f", value);
    const char *rest = strchr(exact, '.') + 1 + decimals;
    if (rest[0] == '5' && strspn(rest + 1, "0") == strlen(rest + 1))
        return;
    snprintf(theirs, sizeof theirs, "%.*f", decimals, value);
    if (theirs[0] == '-' && strspn(theirs + 1, "0.") == strlen(theirs + 1))
        memmove(theirs, theirs + 1, strlen(theirs));
    write_text(ours, value, decimals);
    if (strcmp(ours, theirs) != 0)
        fail_msg("%a with %d: %s, printf %s", value, decimals, ours, theirs);
}

static void random_numbers_are_written_as_printf_does(void **state)
{
    (void)state;
    for (int i = 0; i < RANDOM_ROUNDS; i++) {
        double value = ldexp((double)random_bits(), -(int)(random_bits() % 140)) * (random_bits() % 2 ? 1 : -1);

        if (fabs(value) < NUMBER_WRITE_BELOW)
            same_as_printf(value, (int)(random_bits() % 16));
    }
}

/* The doubles around a half of the last decimal are nearer to it than 2^-100, so every binary digit counts. */
static void numbers_next_to_a_half_go_to_their_side(void **state)
{
    (void)state;
    for (int odd = 1; odd < 1000; odd += 2) {
        double half = odd * 0.5e-15;

        same_as_printf(nextafter(half, 0), 15);
        same_as_printf(half, 15);
        same_as_printf(nextafter(half, 1), 15);
    }
}

static void short_form_drops_what_says_nothing(void **state)
{
    static const struct {
        double value;
        int decimals;
        const char *text;
    } cases[] = {
        {450, 2, "450"},  {450.5, 2, "450.5"}, {450.25, 2, "450.25"}, {0, 3, "0"},          {100, 0, "100"},
        {-0.001, 2, "0"}, {0.1, 15, "0.1"},    {1e300, 2, "?"},       {-20.10, 2, "-20.1"},
    };
    char out[NUMBER_BYTES];

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        number_write_short(out, cases[i].value, cases[i].decimals);
        assert_string_equal(out, cases[i].text);
    }
}

static void masses_are_written_exactly(void **state)
{
    static const struct {
        int64_t ug, division;
        const char *text;
    } cases[] = {
        {147240000, 10000, "147.24"},
        {147000000, 1000000, "147"},
        {147000000, 10000, "147.00"},
        {147240000, 0, "147.24"},
        {1, 0, "0.000001"},
        {500000, 500000, "0.5"},
        {-500000, 0, "-0.5"},
        {0, 100000, "0.0"},
        {147240000, 1000000, "147.24"},
        {147240000, 500000, "147.24"},
        {INT64_MIN, 0, "-9223372036854.775808"},
        {INT64_MAX, 0, "9223372036854.775807"},
    };
    char out[NUMBER_BYTES];

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        number_write_mass(out, cases[i].ug, cases[i].division);
        assert_string_equal(out, cases[i].text);
    }
}

static void a_division_shows_as_many_decimals_as_it_has(void **state)
{
    (void)state;
    assert_int_equal(number_decimals(0), 0);
    assert_int_equal(number_decimals(5000000), 0);
    assert_int_equal(number_decimals(1000000), 0);
    assert_int_equal(number_decimals(500000), 1);
    assert_int_equal(number_decimals(250000), 2);
    assert_int_equal(number_decimals(10000), 2);
    assert_int_equal(number_decimals(1), 6);
}

static int c_locale(void **state)
{
    (void)state;
    setlocale(LC_ALL, "C");
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(only_json_numbers_are_read),
        cmocka_unit_test(only_the_given_bytes_are_looked_at),
        cmocka_unit_test(hard_numbers_are_the_nearest_double),
        cmocka_unit_test(random_doubles_survive_seventeen_digits),
        cmocka_unit_test(random_digits_are_read_as_strtod_does),
        cmocka_unit_test(midpoints_go_to_even_and_a_last_digit_decides),
        cmocka_unit_test(a_long_number_is_read_exactly),
        cmocka_unit_test(numbers_are_written_with_the_decimals_asked),
        cmocka_unit_test(random_numbers_are_written_as_printf_does),
        cmocka_unit_test(numbers_next_to_a_half_go_to_their_side),
        cmocka_unit_test(short_form_drops_what_says_nothing),
        cmocka_unit_test(masses_are_written_exactly),
        cmocka_unit_test(a_division_shows_as_many_decimals_as_it_has),
    };
    return cmocka_run_group_tests(tests, c_locale, NULL);
}
