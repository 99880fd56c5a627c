/* Days from seconds, against the C library's gmtime_r and dates that standards give. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <time.h>

#include <cmocka.h>

#include "base/day.h"

static void check_against_the_library(int64_t utc_s)
{
    time_t t = (time_t)utc_s;
    struct tm tm;
    struct day day = day_of(utc_s, 0);

    assert_non_null(gmtime_r(&t, &tm));
    assert_int_equal(day.year, tm.tm_year + 1900);
    assert_int_equal(day.month, tm.tm_mon + 1);
    assert_int_equal(day.day, tm.tm_mday);
    assert_int_equal(day.of_year, tm.tm_yday + 1);
    assert_int_equal(day.hour, tm.tm_hour);
    assert_int_equal(day.minute, tm.tm_min);
    assert_int_equal(day.second, tm.tm_sec);
    assert_int_equal(day_count(day.year, day.month, day.day), day_number(utc_s, 0));
}

/* POSIX gmtime_r. Steps of a prime number of seconds, so that all times of day come up. */
static void every_day_of_eight_hundred_years_is_that_of_the_c_library(void **state)
{
    (void)state;
    for (int64_t s = -12 * INT64_C(1000000000); s < 13 * INT64_C(1000000000); s += 86399)
        check_against_the_library(s);
}

/* ISO 8601:2004 gives 1985-04-12 as day 102 of its year; 2000 is a leap year, 1900 is none (proleptic Gregorian). */
static void days_of_the_year_are_those_of_the_standard(void **state)
{
    (void)state;
    assert_int_equal(day_of(INT64_C(482112000), 0).year, 1985);
    assert_int_equal(day_of(INT64_C(482112000), 0).of_year, 102);
    assert_int_equal(day_of(INT64_C(978220800), 0).of_year, 366);   /* 2000-12-31 */
    assert_int_equal(day_of(INT64_C(-2177539200), 0).of_year, 365); /* 1900-12-31 */
}

static void the_makers_own_midnight_begins_a_day(void **state)
{
    (void)state;
    assert_int_equal(day_number(0, 0), 0);
    assert_int_equal(day_number(0, -1), -1);
    assert_int_equal(day_number(86399, 1), 1);
    assert_int_equal(day_of(0, 19800).hour, 5);
    assert_int_equal(day_of(0, 19800).minute, 30);
    assert_int_equal(day_of(0, -3600).day, 31);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_day_of_eight_hundred_years_is_that_of_the_c_library),
        cmocka_unit_test(days_of_the_year_are_those_of_the_standard),
        cmocka_unit_test(the_makers_own_midnight_begins_a_day),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
