/* test_records.c - records through the command line: in, out, checked, copied, put back. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

#include "app/program.h"

enum { DONE, REFUSED, USAGE, RECORDS, STOP };
enum { PATH_BYTES = 512, TEXT_BYTES = 1 << 20 };

static const char own[] =
    "{\"lyeway\": 1, \"shelf\": {\"oils\": [{\"name\": \"Harbour blend\", \"sap\": 196.5, \"sap_range\": [194, 199]}]},"
    " \"recipes\": [{\"name\": \"Own\", \"oils\": [{\"oil\": \"Harbour blend\", \"percent\": 60},"
    " {\"oil\": \"canola\", \"percent\": 40}], \"size\": {\"oils_g\": 500}, \"superfat_percent\": 5,"
    " \"water\": {\"strength_percent\": 33}}]}";

static const char unknown[] =
    "{\"lyeway\": 1, \"recipes\": [{\"name\": \"Good\", \"oils\": [{\"oil\": \"olive\", \"percent\": 100}],"
    " \"size\": {\"oils_g\": 500}, \"superfat_percent\": 5, \"water\": {\"ratio\": 2}},"
    " {\"name\": \"Bad\", \"oils\": [{\"oil\": \"olivv\", \"percent\": 100}],"
    " \"size\": {\"oils_g\": 500}, \"superfat_percent\": 5, \"water\": {\"ratio\": 2}}]}";

static const char *records(const char *name)
{
    static char path[4][PATH_BYTES];
    static int at;
    char *mine = path[at++ % 4];

    snprintf(mine, PATH_BYTES, "%s/%s", test_folder(), name);
    return mine;
}

static void ended(const struct run *run, int status, const char *part)
{
    if (run->status != status || (!strstr(run->out, part) && !strstr(run->err, part)))
        fail_msg("status %d, not %d with \"%s\": %s%s", run->status, status, part, run->err, run->out);
}

static void importing_counts_what_was_new_changed_and_unchanged(void **state)
{
    const char *db = records("count.db"), *file = file_with("own.json", own);
    char *changed = strdup(own);

    (void)state;
    ended(RUN("--db", db, "import", file), DONE, "recipes: 1 new, 0 changed, 0 unchanged\nshelf: 1 brought in\n");
    ended(RUN("--db", db, "import", file), DONE, "recipes: 0 new, 0 changed, 1 unchanged");
    memcpy(strstr(changed, "\"percent\": 60"), "\"percent\": 55", 13);
    memcpy(strstr(changed, "\"percent\": 40"), "\"percent\": 45", 13);
    ended(RUN("--db", db, "import", file_with("changed.json", changed)), DONE,
          "recipes: 0 new, 1 changed, 0 unchanged");
    ended(RUN("--db", db, "verify"), DONE, "The records are whole.");
    free(changed);
}

static void what_goes_out_comes_back_the_same(void **state)
{
    const char *first = records("first.db"), *second = records("second.db");
    char *out;

    (void)state;
    ended(RUN("--db", first, "import", "sample-data/recipes.json", file_with("own.json", own)), DONE, "4 new");
    out = strdup(RUN("--db", first, "export")->out);
    ended(RUN("--db", second, "import", file_with("out.json", out)), DONE, "4 new");
    assert_string_equal(RUN("--db", second, "export")->out, out);
    assert_non_null(strstr(out, "Harbour blend"));
    free(out);
}

static void an_export_of_one_name_is_that_recipe_alone(void **state)
{
    const char *db = records("one.db");
    const struct run *run;

    (void)state;
    ended(RUN("--db", db, "import", "sample-data/recipes.json"), DONE, "3 new");
    run = RUN("--db", db, "export", "Hedge Rose base");
    ended(run, DONE, "\"Hedge Rose base\"");
    assert_null(strstr(run->out, "\"Quince Orchard base\""));
    ended(RUN("--db", db, "export", "Hedge"), REFUSED, "Hedge");
    ended(RUN("--db", db, "export", "--batches"), REFUSED, "no batches in these records yet");
}

static void one_bad_file_among_several_brings_nothing_in(void **state)
{
    const char *db = records("none.db");

    (void)state;
    ended(RUN("--db", db, "import", file_with("own.json", own), file_with("bad.json", unknown)), REFUSED,
          "/recipes/1/oils/0/oil");
    ended(RUN("--db", db, "export"), DONE, "\"lyeway\": 1");
    assert_null(strstr(RUN("--db", db, "export")->out, "Own"));
}

static void a_recipe_of_the_records_is_planned_by_its_name(void **state)
{
    const char *db = records("plan.db");

    (void)state;
    ended(RUN("--db", db, "import", "sample-data/recipes.json", file_with("own.json", own)), DONE, "4 new");
    ended(RUN("--db", db, "plan", "Blossoms and leaves"), DONE, "190 g of oils");
    ended(RUN("--db", db, "sheet", "Own"), DONE, "Harbour blend");
    ended(RUN("--db", db, "plan", "Own", "--oils", "1 lb", "--json"), DONE, "\"oils_g\": 453.59");
    ended(RUN("--db", db, "sheet", "Nothing"), REFUSED, "Nothing");
}

static void a_backup_is_whole_and_never_replaces_a_file(void **state)
{
    const char *db = records("back.db"), *copy = records("copy.db");

    (void)state;
    ended(RUN("--db", db, "import", "sample-data/recipes.json"), DONE, "3 new");
    ended(RUN("--db", db, "backup", copy), DONE, "");
    ended(RUN("--db", copy, "verify"), DONE, "whole");
    ended(RUN("--db", db, "backup", copy), RECORDS, "is there already");
}

static void a_restore_brings_the_backup_back_and_keeps_what_was_there(void **state)
{
    const char *db = records("restore.db"), *copy = records("kept.db");
    char aside[PATH_BYTES];

    (void)state;
    ended(RUN("--db", db, "import", "sample-data/recipes.json"), DONE, "3 new");
    ended(RUN("--db", db, "backup", copy), DONE, "");
    ended(RUN("--db", db, "import", file_with("own.json", own)), DONE, "1 new");
    ended(RUN("--db", db, "restore", copy), DONE, "");
    assert_null(strstr(RUN("--db", db, "export")->out, "\"Own\""));
    snprintf(aside, sizeof aside, "%s.before-restore", db);
    assert_non_null(strstr(RUN("--db", aside, "export")->out, "\"Own\""));
    ended(RUN("--db", db, "restore", file_with("not.db", "this is not a database at all, only a text")), RECORDS,
          "not a store of Lyeway");
    ended(RUN("--db", db, "verify"), DONE, "whole");
}

static void a_foreign_damaged_or_newer_file_is_met_with_a_sentence_and_left_as_it_is(void **state)
{
    static const unsigned char header[16] = "SQLite format 3";
    unsigned char page[4096] = {0};
    const char *path = records("foreign.db");
    FILE *file = fopen(path, "wb");
    struct stat before, after;

    (void)state;
    memcpy(page, header, sizeof header);
    page[16] = 0x10; /* pages of 4096 bytes, application_id 0: somebody else's database */
    page[18] = page[19] = 1;
    assert_non_null(file);
    fwrite(page, 1, sizeof page, file);
    fclose(file);
    assert_int_equal(stat(path, &before), 0);
    ended(RUN("--db", path, "verify"), RECORDS, "a database of another program");
    ended(RUN("--db", path, "import", "sample-data/recipes.json"), RECORDS, "a database of another program");
    assert_int_equal(stat(path, &after), 0);
    assert_int_equal(before.st_size, after.st_size);
    ended(RUN("--db", file_with("text.db", "words"), "verify"), RECORDS, "not a store of Lyeway");
    ended(RUN("--db", test_folder(), "verify"), RECORDS, "is a folder");
}

static void records_are_made_for_the_maker_alone(void **state)
{
    const char *db = records("deep/er/own.db");
    struct stat found;
    char folder[PATH_BYTES];

    (void)state;
    ended(RUN("--db", db, "import", "sample-data/recipes.json"), DONE, "3 new");
    assert_int_equal(stat(db, &found), 0);
    assert_int_equal(found.st_mode & 0777, 0600);
    snprintf(folder, sizeof folder, "%s/deep", test_folder());
    assert_int_equal(stat(folder, &found), 0);
    assert_int_equal(found.st_mode & 0777, 0700);
}

static void the_place_of_the_records_follows_the_variables(void **state)
{
    const char *named = records("named.db"), *data = records("data");

    (void)state;
    setenv("LYEWAY_DB", named, 1);
    ended(RUN("import", "sample-data/recipes.json"), DONE, "3 new");
    assert_int_equal(access(named, R_OK), 0);
    setenv("LYEWAY_DB", "", 1); /* empty counts as unset */
    setenv("XDG_DATA_HOME", data, 1);
    ended(RUN("verify"), REFUSED, "lyeway/lyeway.db");
    ended(RUN("import", "sample-data/recipes.json"), DONE, "3 new");
    ended(RUN("verify"), DONE, "whole");
    setenv("XDG_DATA_HOME", "", 1);
}

static void the_demo_leaves_nothing_behind_unless_it_is_given_a_file(void **state)
{
    const char *db = records("demo.db");

    (void)state;
    ended(RUN("--demo", "export", "Hedge Rose base"), DONE, "Hedge Rose base");
    ended(RUN("--demo", "verify"), DONE, "whole");
    assert_int_not_equal(access(db, F_OK), 0);
    ended(RUN("--demo", "--db", db, "verify"), DONE, "whole");
    ended(RUN("--db", db, "sheet", "Quince Orchard base"), DONE, "Quince Orchard base");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(importing_counts_what_was_new_changed_and_unchanged),
        cmocka_unit_test(what_goes_out_comes_back_the_same),
        cmocka_unit_test(an_export_of_one_name_is_that_recipe_alone),
        cmocka_unit_test(one_bad_file_among_several_brings_nothing_in),
        cmocka_unit_test(a_recipe_of_the_records_is_planned_by_its_name),
        cmocka_unit_test(a_backup_is_whole_and_never_replaces_a_file),
        cmocka_unit_test(a_restore_brings_the_backup_back_and_keeps_what_was_there),
        cmocka_unit_test(a_foreign_damaged_or_newer_file_is_met_with_a_sentence_and_left_as_it_is),
        cmocka_unit_test(records_are_made_for_the_maker_alone),
        cmocka_unit_test(the_place_of_the_records_follows_the_variables),
        cmocka_unit_test(the_demo_leaves_nothing_behind_unless_it_is_given_a_file),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
