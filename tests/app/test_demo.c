/* The demo's two years: how many batches, what befell some of them, and that they are the same whenever they are made. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "app/program.h"

enum { COMMAND_BYTES = 4096, PATH_BYTES = 1024 };

static int lines_of(const char *text)
{
    int n = 0;

    for (; *text; text++)
        n += *text == '\n';
    return n;
}

/* Batches that those words find: a line each, and the head. */
static int found(const char *words)
{
    const struct run *run = RUN("--demo", "batches", words);

    assert_int_equal(run->status, 0);
    return strstr(run->out, "No batch is found") ? 0 : lines_of(run->out) - 1;
}

static void two_years_of_about_120_batches_are_whole(void **state)
{
    const struct run *run;
    int all = found("");

    (void)state;
    assert_in_range(all, 110, 130);
    run = RUN("--demo", "verify");
    assert_non_null(strstr(run->out, "The records are whole."));
}

static void what_befell_some_of_them_is_found(void **state)
{
    (void)state;
    assert_int_equal(found("outcome:\"on hold\""), 1);
    assert_int_equal(found("outcome:rejected"), 1);
    assert_int_equal(found("outcome:\"set aside\""), 2);
    assert_int_equal(found("outcome:\"on the bench\""), 2);
    assert_int_equal(found("seized"), 1);
    assert_in_range(found("outcome:released"), 110, 120);
    assert_int_equal(found("brown came back"), 1);
    assert_int_equal(found("sold out customer"), 1);
    assert_int_equal(found("thermometer broken"), 1);
}

static void what_is_not_understood_lists_nothing(void **state)
{
    const struct run *run = RUN("--demo", "batches", "from:banana");

    (void)state;
    assert_int_not_equal(run->status, 0);
    assert_string_equal(run->out, "");
    assert_non_null(strstr(run->err, "\"from:banana\" names no day"));
}

/* The sheet of a batch is that of the recipe as it was then: the first blossoms had stronger lye. */
static void the_sheet_of_a_batch_is_as_it_was_planned(void **state)
{
    const struct run *run = RUN("--demo", "sheet", "24-001");

    (void)state;
    assert_int_equal(run->status, 0);
    assert_non_null(strstr(run->out, "Batch 24-001"));
    assert_non_null(strstr(run->out, "Strength 36.0 %"));
    run = RUN("--demo", "sheet", "24-999");
    assert_int_equal(run->status, 1);
    assert_non_null(strstr(run->err, "24-999"));
}

static void read_all(const char *path, char **bytes, long *n)
{
    FILE *file = fopen(path, "rb");

    if (!file)
        fail_msg("%s cannot be read", path);
    assert_int_equal(fseek(file, 0, SEEK_END), 0);
    *n = ftell(file);
    rewind(file);
    *bytes = malloc((size_t)*n);
    assert_non_null(*bytes);
    assert_int_equal(fread(*bytes, 1, (size_t)*n, file), (size_t)*n);
    fclose(file);
}

static void made_again_it_is_the_same_to_the_byte(void **state)
{
    const char *built = getenv("LYEWAY_OBJ");
    char command[COMMAND_BYTES], path[PATH_BYTES];
    char *one, *two;
    long n_one, n_two;

    (void)state;
    assert_non_null(built);
    snprintf(path, sizeof path, "%s/again.db", test_folder());
    snprintf(command, sizeof command,
             "%s/ready %s sample-data/recipes.json sample-data/earlier.json sample-data/history.tsv", built, path);
    assert_int_equal(system(command), 0);
    read_all(path, &one, &n_one);
    snprintf(path, sizeof path, "%s/generated/demo.db", built);
    read_all(path, &two, &n_two);
    assert_int_equal(n_one, n_two);
    assert_memory_equal(one, two, (size_t)n_one);
    free(one);
    free(two);
}

/* Without the line that has `but` in it; to be freed. */
static char *book_without(const char *path, const char *but)
{
    const struct run *run = RUN("--db", path, "batches");
    char *book = strdup(run->out), *line, *end;

    assert_int_equal(run->status, 0);
    assert_non_null(book);
    line = strstr(book, but);
    assert_non_null(line);
    while (line > book && line[-1] != '\n')
        line--;
    end = strchr(line, '\n') + 1;
    memmove(line, end, strlen(end) + 1);
    return book;
}

/* One batch takes other chances; no other batch becomes another by that. */
static void one_row_of_the_table_changes_no_other_batch(void **state)
{
    static const char row[] = "\n700\tGoat milk and honey\tplain";
    const char *built = getenv("LYEWAY_OBJ");
    char command[COMMAND_BYTES], before[PATH_BYTES], after[PATH_BYTES], *table, *was, *is;
    long n;

    (void)state;
    read_all("sample-data/history.tsv", &table, &n);
    table = realloc(table, (size_t)n + 1);
    assert_non_null(table);
    table[n] = '\0';
    assert_non_null(strstr(table, row));
    memcpy(strstr(table, row) + sizeof row - sizeof "plain", "early", 5);
    snprintf(before, sizeof before, "%s/before.db", test_folder());
    snprintf(after, sizeof after, "%s/after.db", test_folder());
    snprintf(command, sizeof command,
             "cp %s/generated/demo.db %s && %s/ready %s sample-data/recipes.json sample-data/earlier.json %s", built,
             before, built, after, file_with("early.tsv", table));
    assert_int_equal(system(command), 0);
    was = book_without(before, "24-008");
    is = book_without(after, "24-008");
    assert_string_equal(was, is);
    free(was);
    free(is);
    free(table);
}

static void a_table_that_cannot_be_read_is_refused(void **state)
{
    const char *built = getenv("LYEWAY_OBJ");
    char command[COMMAND_BYTES];

    (void)state;
    snprintf(command, sizeof command,
             "%s/ready %s/bad.db sample-data/recipes.json sample-data/earlier.json %s 2> /dev/null", built,
             test_folder(), file_with("bad.tsv", "days\trecipe\tstory\tnote\nsoon\tHedge Rose base\tplain\t\n"));
    assert_int_not_equal(system(command), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_years_of_about_120_batches_are_whole),
        cmocka_unit_test(what_befell_some_of_them_is_found),
        cmocka_unit_test(what_is_not_understood_lists_nothing),
        cmocka_unit_test(the_sheet_of_a_batch_is_as_it_was_planned),
        cmocka_unit_test(made_again_it_is_the_same_to_the_byte),
        cmocka_unit_test(one_row_of_the_table_changes_no_other_batch),
        cmocka_unit_test(a_table_that_cannot_be_read_is_refused),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
