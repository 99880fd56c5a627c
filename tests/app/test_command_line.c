/* The command line as its users meet it: what is written where, and the exit status. Statuses: 0 done, 1 refused, 2 wrong
 * usage, 3 trouble with the records, 4 a stop under --strict. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cjson/cJSON.h>
#include <cmocka.h>

#include "app/program.h"

enum { DONE, REFUSED, USAGE, RECORDS, STOP };

static const char good[] =
    "{\"lyeway\": 1, \"recipes\": [{\"name\": \"Plain\", \"oils\": [{\"oil\": \"olive\", \"percent\": 75},"
    "{\"oil\": \"coconut\", \"percent\": 25}], \"size\": {\"oils_g\": 1000}, \"superfat_percent\": 6,"
    "\"water\": {\"strength_percent\": 33}}]}";

/* Nothing is left of the oils' demand, so a chance of lye-heavy over 1 in 4 is certain. */
static const char heavy[] =
    "{\"lyeway\": 1, \"recipes\": [{\"name\": \"Bare\", \"oils\": [{\"oil\": \"olive\", \"percent\": 100}],"
    "\"size\": {\"oils_g\": 1000}, \"superfat_percent\": 0, \"water\": {\"strength_percent\": 33}}]}";

static const char several[] = "{\"lyeway\": 1, \"recipes\": ["
                              "{\"name\": \"First\", \"oils\": [{\"oil\": \"olive\", \"grams\": 500}], "
                              "\"superfat_percent\": 5, \"water\": {\"ratio\": 2}},"
                              "{\"name\": \"Second\", \"oils\": [{\"oil\": \"lard\", \"grams\": 400}], "
                              "\"superfat_percent\": 5, \"water\": {\"ratio\": 2}}]}";

/* No byte that a terminal would act on, on either output. */
static void is_plain_text(const char *text)
{
    for (const unsigned char *c = (const unsigned char *)text; *c; c++)
        if ((*c < 0x20 && *c != '\n') || *c == 0x7f)
            fail_msg("byte %02x in \"%s\"", *c, text);
}

/* One sentence on standard error that begins with the program's name and holds `part`, and nothing on standard output. */
static void failed(const struct run *run, int status, const char *part)
{
    if (run->status != status || strncmp(run->err, "lyeway: ", 8) != 0 || !strstr(run->err, part))
        fail_msg("status %d, not %d with \"%s\": %s", run->status, status, part, run->err);
    assert_string_equal(run->out, "");
    is_plain_text(run->err);
}

static void printed(const struct run *run, int status, const char *part)
{
    if (run->status != status || !strstr(run->out, part))
        fail_msg("status %d, not %d with \"%s\": %s%s", run->status, status, part, run->err, run->out);
    assert_string_equal(run->err, "");
    is_plain_text(run->out);
}

/* The figure `member` of the plan that was printed as JSON. */
static double figure(const struct run *run, const char *member)
{
    if (run->status != DONE)
        fail_msg("status %d: %s", run->status, run->err);

    cJSON *plan = cJSON_Parse(run->out);
    const cJSON *item = cJSON_GetObjectItemCaseSensitive(plan, member);
    double value = cJSON_IsNumber(item) ? item->valuedouble : (double)NAN;

    cJSON_Delete(plan);
    return value;
}

static void is_near(double found, double expected, double within)
{
    if (!(fabs(found - expected) <= within))
        fail_msg("%.12g is not %.12g", found, expected);
}

static void help_and_version_are_printed(void **state)
{
    (void)state;
    printed(RUN("--help"), DONE, "lyeway [--demo] [--db FILE] plan (FILE [NAME] | NAME)");
    printed(RUN("--help"), DONE, "Exit status: 0 done");
    printed(RUN("--version"), DONE, "lyeway ");
    failed(RUN("--help", "plan"), USAGE, "plan");
    failed(RUN("--version", "--help"), USAGE, "--help");
}

static void wrong_usage_is_answered_with_the_usage(void **state)
{
    (void)state;
    failed(RUN(NULL), REFUSED, "needs a terminal");
    failed(RUN("--db"), USAGE, "usage:");
    failed(RUN("--db"), USAGE, "a file is wanted after the option --db.");
    failed(RUN("--db", "a.db", "--db", "b.db"), USAGE, "there is no use here for the option --db.");
    failed(RUN("--demo"), REFUSED, "needs a terminal");
    failed(RUN("bake"), USAGE, "there is no command bake");
    failed(RUN("bake"), USAGE, "lyeway [--demo] [--db FILE] plan");
    failed(RUN("--colour"), USAGE, "there is no use here for the option --colour");
    failed(RUN("plan"), USAGE, "usage: lyeway plan");
    failed(RUN("plan", "--unknown", "x.json"), USAGE, "--unknown is not an option");
    failed(RUN("plan", "-j", "x.json"), USAGE, "-j is not an option");
    failed(RUN("plan", "x.json", "A", "B"), USAGE, "at most one name");
    failed(RUN("plan", "A", "B"), USAGE, "one name");
}

static void too_few_or_too_many_names_are_wrong_usage(void **state)
{
    (void)state;
    failed(RUN("sheet"), USAGE, "sheet takes one name.");
    failed(RUN("sheet", "A", "B"), USAGE, "sheet takes one name.");
    failed(RUN("verify", "A"), USAGE, "verify takes no names.");
    failed(RUN("import"), USAGE, "import takes one file or more.");
    failed(RUN("backup", "a.db", "b.db"), USAGE, "backup takes one file.");
    failed(RUN("restore"), USAGE, "restore takes one file.");
}

static void options_that_repeat_or_conflict_are_wrong_usage(void **state)
{
    const char *file = file_with("good.json", good);

    (void)state;
    failed(RUN("plan", file, "--oils", "500", "--batter", "500"), USAGE, "--oils and --batter");
    failed(RUN("plan", file, "--oils", "500", "--oils", "600"), USAGE, "--oils is given twice");
    failed(RUN("plan", file, "--json", "--json"), USAGE, "--json is given twice");
    failed(RUN("plan", file, "--strict", "--strict"), USAGE, "--strict is given twice");
    failed(RUN("plan", file, "--oils"), USAGE, "--oils wants a value");
    failed(RUN("plan", file, "--json=yes"), USAGE, "--json takes no value");
    failed(RUN("plan", file, "--oil", "500"), USAGE, "--oil is not an option");
}

static void a_mass_that_cannot_be_read_is_wrong_usage(void **state)
{
    const char *file = file_with("good.json", good);

    (void)state;
    failed(RUN("plan", file, "--oils", "plenty"), USAGE, "--oils: \"plenty\" is not a mass");
    failed(RUN("plan", file, "--oils", "1,500"), USAGE, "thousands");
    failed(RUN("plan", file, "--oils", "12 ox"), USAGE, "character 4");
    failed(RUN("plan", file, "--oils", ""), USAGE, "is not a mass");
    failed(RUN("plan", file, "--oils", "0"), USAGE, "above 0");
    failed(RUN("plan", file, "--oils", "5-6"), USAGE, "above 0");
    failed(RUN("plan", file, "--oils", "-5"), USAGE, "is not a mass");
    failed(RUN("plan", file, "--batter", "1001 kg"), USAGE, "at most 1,000 kg");
    failed(RUN("plan", file, "--batter", "nan"), USAGE, "is not a mass");
}

static void a_recipe_of_a_file_is_planned(void **state)
{
    const char *file = file_with("good.json", good);

    (void)state;
    printed(RUN("plan", file), DONE, "Plain");
    printed(RUN("plan", file, "plain"), DONE, "Plain");
    is_near(figure(RUN("plan", file, "--json"), "oils_g"), 1000, 0);
}

static void the_size_can_be_given_in_other_units(void **state)
{
    const char *file = file_with("good.json", good);

    (void)state;
    is_near(figure(RUN("plan", file, "--json", "--oils", "500"), "oils_g"), 500, 0);
    is_near(figure(RUN("plan", file, "--json", "--oils=500g"), "oils_g"), 500, 0);
    is_near(figure(RUN("plan", file, "--json", "--oils", "1.2 kg"), "oils_g"), 1200, 0);
    /* NIST Handbook 44, Appendix C: 12 oz is 340.1943 g, 1 lb 3 oz 538.6409 g */
    is_near(figure(RUN("plan", file, "--json", "--oils", "12 oz"), "oils_g"), 340.1943, 0.00005);
    is_near(figure(RUN("plan", file, "--json", "--oils", "1lb 3oz"), "oils_g"), 538.6409, 0.00005);
    /* three weighings besides each oil, none off by more than half a division of 1 g, alkali by one */
    is_near(figure(RUN("plan", file, "--json", "--batter", "900"), "batter_g"), 900, 2.5);
}

static void options_stand_before_or_after_the_file(void **state)
{
    const char *file = file_with("good.json", good);

    (void)state;
    is_near(figure(RUN("plan", "--json", "--oils", "500", file), "oils_g"), 500, 0);
    is_near(figure(RUN("plan", "--json", file, "Plain", "--oils", "500"), "oils_g"), 500, 0);
    is_near(figure(RUN("plan", "--json", "--", file, "Plain"), "oils_g"), 1000, 0);
    failed(RUN("plan", "--", "--json"), REFUSED, "There are no records at");
}

static void one_of_several_recipes_has_to_be_named(void **state)
{
    const char *file = file_with("several.json", several);

    (void)state;
    failed(RUN("plan", file), REFUSED, "\"First\", \"Second\"");
    failed(RUN("plan", file, "Third"), REFUSED, "no recipe is named \"Third\"; it holds \"First\", \"Second\"");
    is_near(figure(RUN("plan", "--json", file, "Second"), "oils_g"), 400, 0);
    is_near(figure(RUN("plan", "--json", file, "FIRST"), "oils_g"), 500, 0);
}

static void a_dash_is_standard_input(void **state)
{
    (void)state;
    printed(run_with(good, (const char *const[RUN_WORDS]){"plan", "-"}), DONE, "Plain");
    is_near(figure(run_with(several, (const char *const[RUN_WORDS]){"plan", "-", "Second", "--json"}), "oils_g"), 400,
            0);
    failed(run_with("", (const char *const[RUN_WORDS]){"plan", "-"}), REFUSED, "-:");
}

static void bad_input_names_file_place_and_what_was_found(void **state)
{
    /* clang-format off */
    static const struct { const char *text, *part; } cases[] = {
        {"", "bad.json"},
        {"{", "bad.json"},
        {"[]", "bad.json"},
        {"not json", "bad.json"},
        {"{\"lyeway\": 2, \"recipes\": []}", "/lyeway"},
        {"{\"lyeway\": 1, \"recipes\": [{\"name\": \"A\", \"oils\": [{\"oil\": \"oliv\", \"percent\": 100}], \"size\": {\"oils_g\": 500},"
         "\"superfat_percent\": 5, \"water\": {\"ratio\": 2}}]}", "/recipes/0/oils/0/oil: \"oliv\" is not an oil that is known here; nearest are olive"},
        {"{\"lyeway\": 1, \"recipes\": [{\"name\": \"A\", \"oils\": [{\"oil\": \"olive\", \"percent\": 90}], \"size\": {\"oils_g\": 500},"
         "\"superfat_percent\": 5, \"water\": {\"ratio\": 2}}]}", "/recipes/0/oils"},
        {"{\"lyeway\": 1, \"recipes\": [{\"name\": \"A\", \"oils\": [], \"size\": {\"oils_g\": 500},"
         "\"superfat_percent\": 5, \"water\": {\"ratio\": 2}}]}", "/recipes/0/oils"},
        {"{\"lyeway\": 1, \"recipes\": [{\"name\": \"A\", \"oils\": [{\"oil\": \"olive\", \"percent\": 100}], \"size\": {\"oils_g\": 500},"
         "\"superfat_percent\": \"five\", \"water\": {\"ratio\": 2}}]}", "/recipes/0/superfat_percent"},
        {"{\"lyeway\": 1, \"recipes\": [{\"name\": \"A\", \"colour_of_lid\": 3, \"oils\": [{\"oil\": \"olive\", \"percent\": 100}],"
         "\"size\": {\"oils_g\": 500}, \"superfat_percent\": 5, \"water\": {\"ratio\": 2}}]}", "colour_of_lid"},
        {"{\"lyeway\": 1, \"recipes\": [{\"name\": \"\\u001b[2J\", \"oils\": [{\"oil\": \"olive\", \"percent\": 100}],"
         "\"size\": {\"oils_g\": 500}, \"superfat_percent\": 5, \"water\": {\"ratio\": 2}}]}", "line 1, column 37: found the control character"},
        {"{\"lyeway\": 1, \"recipes\": [{\"name\": \"\xff\"}]}", "bad.json"},
        {"{\"lyeway\": 1, \"lyeway\": 1}", "lyeway"},
        {"{\"lyeway\": 1, \"recipes\": []}", "bad.json"},
    };
    /* clang-format on */

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        failed(RUN("plan", file_with("bad.json", cases[i].text)), REFUSED, cases[i].part);
}

static void what_cannot_be_read_is_refused_with_its_name(void **state)
{
    (void)state;
    failed(RUN("plan", "/nowhere/at/all.json"), REFUSED, "/nowhere/at/all.json: cannot be read: there is no such file");
    failed(RUN("plan", test_folder()), REFUSED, "it is a folder, not a file");
    failed(RUN("plan", "Quince Orchard base"), REFUSED, "There are no records at");
    failed(RUN("plan", ""), REFUSED, "There are no records at");
}

static void more_than_64_mib_is_not_read(void **state)
{
    (void)state;
    failed(RUN("plan", "/dev/zero"), REFUSED, "larger than 64 MiB");
}

static void a_stop_fails_only_under_strict(void **state)
{
    const char *stop = file_with("heavy.json", heavy), *fine = file_with("good.json", good);

    (void)state;
    printed(RUN("plan", stop), DONE, "Bare");
    printed(RUN("plan", stop, "--strict"), STOP, "Bare");
    printed(RUN("plan", stop, "--strict", "--json"), STOP, "lye-heavy");
    printed(RUN("plan", fine, "--strict"), DONE, "Plain");
}

static void output_that_cannot_be_written_is_a_failure(void **state)
{
    const char *file = file_with("good.json", good);

    (void)state;
    failed(run_into("/dev/full", (const char *const[RUN_WORDS]){"plan", file}), REFUSED, "the disk is full");
    failed(run_into("/dev/full", (const char *const[RUN_WORDS]){"--help"}), REFUSED, "the disk is full");
    failed(run_into("/dev/full", (const char *const[RUN_WORDS]){"--version"}), REFUSED, "the disk is full");
    failed(run_into(NULL, (const char *const[RUN_WORDS]){"plan", file}), REFUSED, "nobody reads it");
}

static void control_characters_never_reach_the_terminal(void **state)
{
    (void)state;
    failed(RUN("\x1b[2J"), USAGE, "?[2J");
    failed(RUN("--\x1b]0;x\x07"), USAGE, "--?]0;x?");
    failed(RUN("--demo", "plan", "\x1b[31mred"), REFUSED, "?[31mred");
    failed(RUN("plan", "\x1b[31mred.json"), REFUSED, "?[31mred.json");
    failed(RUN("plan", "--\x07"), USAGE, "--?");
    failed(RUN("plan", file_with("several.json", several), "\xe2\x80\xaename"), REFUSED, "\"?name\"");
    failed(RUN("plan", file_with("\x1b[1m.json", "{")), REFUSED, "?[1m.json");
    failed(RUN("plan", file_with("good.json", good), "--oils", "5\x1b[m"), USAGE, "5?[m");
}

static void the_demo_is_built_in(void **state)
{
    (void)state;
    printed(RUN("--demo", "plan"), DONE, "Quince Orchard base");
    printed(RUN("--demo", "plan"), DONE, "Hedge Rose base");
    printed(RUN("--demo", "plan", "--strict"), DONE, "Blossoms and leaves"); /* no stop in any of them */
    is_near(figure(RUN("--demo", "plan", "blossoms AND leaves", "--json"), "oils_g"), 190, 0);
    failed(RUN("--demo", "plan", "--json"), REFUSED, "so one has to be named");
    failed(RUN("--demo", "plan", "Nettle"), REFUSED, "There is no recipe \"Nettle\"");
    failed(RUN("--demo", "sheet", "99-999"), REFUSED, "There is neither a recipe nor a batch \"99-999\"");
    printed(RUN("--demo", "plan", "Blossoms and leaves"), DONE, "of your batches"); /* as the screens say it */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(help_and_version_are_printed),
        cmocka_unit_test(wrong_usage_is_answered_with_the_usage),
        cmocka_unit_test(too_few_or_too_many_names_are_wrong_usage),
        cmocka_unit_test(options_that_repeat_or_conflict_are_wrong_usage),
        cmocka_unit_test(a_mass_that_cannot_be_read_is_wrong_usage),
        cmocka_unit_test(a_recipe_of_a_file_is_planned),
        cmocka_unit_test(the_size_can_be_given_in_other_units),
        cmocka_unit_test(options_stand_before_or_after_the_file),
        cmocka_unit_test(one_of_several_recipes_has_to_be_named),
        cmocka_unit_test(a_dash_is_standard_input),
        cmocka_unit_test(bad_input_names_file_place_and_what_was_found),
        cmocka_unit_test(what_cannot_be_read_is_refused_with_its_name),
        cmocka_unit_test(more_than_64_mib_is_not_read),
        cmocka_unit_test(a_stop_fails_only_under_strict),
        cmocka_unit_test(output_that_cannot_be_written_is_a_failure),
        cmocka_unit_test(control_characters_never_reach_the_terminal),
        cmocka_unit_test(the_demo_is_built_in),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
