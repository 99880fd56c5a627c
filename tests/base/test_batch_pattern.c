/* Patterns of batch numbers. The conversions are those of strftime in POSIX.1-2017 (%Y four digits, %y, %m, %d two, %j three). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "lyeway/settings.h"

static void taken(const char *const patterns[], size_t n, bool good)
{
    for (size_t i = 0; i < n; i++)
        if (batch_pattern_valid(patterns[i]) != good)
            fail_msg("%s: \"%s\"", good ? "refused" : "taken", patterns[i]);
}

#define EACH(patterns, good) taken(patterns, sizeof(patterns) / sizeof(patterns)[0], good)

static void a_date_and_one_serial_number_make_a_pattern(void **state)
{
    static const char *const good[] = {"%y-###", "#", "Q%y-###", "%Y%m%d-#", "%y%j-##", "###/%y", "L\xC3\xB6 ###"};

    (void)state;
    EACH(good, true);
}

static void without_a_serial_number_or_with_two_it_is_none(void **state)
{
    static const char *const bad[] = {"", "%y", "batch", "#-#", "%y-##-%m-##"};

    (void)state;
    EACH(bad, false);
}

static void other_conversions_and_what_cannot_be_printed_are_refused(void **state)
{
    static const char *const bad[] = {"%#", "##%", "%H-##", "%%##", "\n##", "##\xFF", "\xE2\x80\xAE##", "%-y##"};

    (void)state;
    EACH(bad, false);
}

/* 31 bytes are left for a number, 9 of them for the digits that a serial number may come to. */
static void the_longest_number_fits_its_place(void **state)
{
    static const char *const good[] = {"1234567890123456789012#", "123456789012345678%Y###", "#########"};
    static const char *const bad[] = {"12345678901234567890123#", "1234567890123456789%Y###", "##########"};

    (void)state;
    EACH(good, true);
    EACH(bad, false);
}

static void a_new_bench_has_a_pattern_that_can_be_used(void **state)
{
    struct settings settings;

    (void)state;
    settings_common(&settings);
    assert_true(batch_pattern_valid(settings.batch_pattern));
    assert_string_equal(settings.batch_pattern, "%y-###");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_date_and_one_serial_number_make_a_pattern),
        cmocka_unit_test(without_a_serial_number_or_with_two_it_is_none),
        cmocka_unit_test(other_conversions_and_what_cannot_be_printed_are_refused),
        cmocka_unit_test(the_longest_number_fits_its_place),
        cmocka_unit_test(a_new_bench_has_a_pattern_that_can_be_used),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
