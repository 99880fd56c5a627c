/* test_generate.c - one slip in a copy of schema/reference stops the generator with file, line and a sentence.
 *
 * Run from the top of the tree, as make check does; the generator stands in the build folder that this program is in.
 */
#include <dirent.h>
#include <limits.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>
#include <cmocka.h>

#define TABLES "schema/reference"

enum { TEXT = 1 << 17, PATH = 256 };

/* A slip: the first `from` in `file` becomes `to`; the sentence must hold `says`. */
struct slip {
    const char *file, *from, *to, *says;
};

/* clang-format off */
static const struct slip slips[] = {
    /* the form of a table */
    {"oils.tsv", "sap_lo\tsap_nominal", "sap_low\tsap_nominal", "column 6 is 'sap_low', expected 'sap_lo'"},
    {"oils.tsv", "\tnote\n", "\tnote\tcolour\n", "the head has 17 columns, expected 16"},
    {"oils.tsv", "\nolive\t", "\nolive\t\t", "the row has 17 cells, the table 16 columns"},
    {"oils.tsv", "\nolive\tOlive", "\nolive\t Olive", "name begins or ends with a space"},
    {"units.tsv", "\nlitre\tL\t1000", "\nlitre\tL\t1,000", "'1,000' is not a number"},
    {"units.tsv", "\nlitre\tL\t1000", "\nlitre\tL\t1e3", "'1e3' is not a number"},
    {"units.tsv", "\nlitre\tL\t1000", "\nlitre\tL\t01000", "'01000' is not a number"},
    {"units.tsv", "\nlitre\tL\t1000\tmL\tyes", "\nlitre\tL\t1000\tmL\tmaybe", "exact cannot be 'maybe'"},
    {"units.tsv", "\nlitre\tL\t", "\nlitre\tStone\t", "'Stone' already stands in"},
    {"units.tsv", "\nlitre\tL\t", "\nlitre\tOZ\t", "'OZ' already stands in"},
    /* oils */
    {"oils.tsv", "\t184\t190\t196\t", "\t184\t200\t196\t", "the nominal saponification value 200 is outside 184 to 196"},
    {"oils.tsv", "\t184\t190\t196\t", "\t0.184\t190\t196\t", "0.184 is not within 20 to 400"},
    {"oils.tsv", "\t184\t190\t196\tmemory", "\t184\t190\t196\tlearned", "sap_standing cannot be 'learned'"},
    {"oils.tsv", "\t75\t94\t0.911", "\t95\t94\t0.911", "the iodine range is upside down"},
    {"oils.tsv", "\t75\t94\t0.911", "\t\t94\t0.911", "one end of the iodine range is missing"},
    {"oils.tsv", "\t75\t94\t0.911\t20", "\t75\t94\t0.911\t", "a density goes with its temperature"},
    {"oils.tsv", "\nolive\tOlive", "\npalm\tOlive", "key 'palm' is also in line"},
    {"oils.tsv", "\njojoba\t", "\nJojoba\t", "the key 'Jojoba' has more than lower case, digits and hyphens"},
    {"oil_acids.tsv", "\nolive\t", "\nolives\t", "'olives' is no key of"},
    {"oil_acids.tsv", "47.43 (45.1-53.2)", "47.43 (45.1)", "is not of the form 'typical (least-greatest)'"},
    {"oil_acids.tsv", "47.43 (45.1-53.2)", "47.44 (45.1-53.2)", "the typical acids add to 100.0100, not to 100"},
    {"oil_acids.tsv", "47.43 (45.1-53.2)", "47.43 (53.2-45.1)", "the range of c12_0 is upside down"},
    {"oil_acids.tsv", "47.43 (45.1-53.2)", "47.43 (48.1-53.2)", "the typical c12_0 of 47.43 is outside its range"},
    {"acids.tsv", "\nc6_0\t", "\nc7_0\t", "the acid of this line is c7_0, expected c6_0"},
    /* additives, liquids, colourants */
    {"additives.tsv", "\t0.28\tbutterfat", "\t0.28\tbutter fat", "'butter fat' is no key of"},
    {"additives.tsv", "\t0.28\tbutterfat", "\t0\tbutterfat", "fat_share and fat_oil go together"},
    {"additives.tsv", "\t192.123\t3", "\t\t3", "what takes up alkali needs a molar mass"},
    {"liquids.tsv", "\t0.875\t0.037\t", "\t0.975\t0.037\t", "water, fat and sugar add to 1.06"},
    {"colourants.tsv", "#FAF7F0", "#FAF7F", "the swatch '#FAF7F' is not of the form #RRGGBB"},
    {"colourants.tsv", "#9C4A2C", "#9c4A2C", "the swatch '#9c4A2C' is not of the form #RRGGBB"},
    {"colourants.tsv", "#9C4A2C", "", "it shifts and returns, and has no swatch_fresh"},
    {"colourants.tsv", "pigment\tstable", "pigment\tsteady", "behaviour cannot be 'steady'"},
    /* fragrances */
    {"fragrances.tsv", "linalool=20-45", "linalol=20-45", "'linalol' is no key of"},
    {"fragrances.tsv", "linalool=20-45", "linalool=45-20", "the range of linalool is upside down"},
    {"fragrances.tsv", "linalool=20-45", "linalool 20-45", "is not of the form 'constituent=least-greatest; ...'"},
    {"fragrances.tsv", "linalyl-acetate=25-47", "linalool=25-47", "linalool is named twice"},
    {"fragrances.tsv", "Oil\tlavandula", "Oil\tlavender", "'lavender' is no key of"},
    {"fragrances.tsv", "Flower Oil\t\tlinalool=5-15", "Flower Oil\tcananga\tlinalool=5-15", "cananga is already named by its constituent"},
    {"fragrance_limits.tsv", "\t0.00087\t", "\tfew\t", "'few' is not a number"},
    {"fragrance_limits.tsv", "\t0.06\tseen", "\t\tseen", "eu_percent and eu_standing go together"},
    {"allergens.tsv", "2026-07-31", "31 July 2026", "placed_until '31 July 2026' is not of the form 2026-07-31"},
    /* lye */
    {"lye_density.tsv", "NaOH\t20\t2\t", "NaOH\t20\t1\t", "the row does not come after the one before it"},
    {"lye_density.tsv", "\t1.0039\t", "\t10.039\t", "10.039 is not within 0.9 to 1.6"},
    {"lye_heat.tsv", "\t-23.93\t", "\t23.93\t", "23.93 is not within -80 to 0"},
    /* practice */
    {"practice.tsv", "cup_residue_g\t4", "mug_residue_g\t4", "struct practice has no member 'mug_residue_g'"},
    {"practice.tsv", "cup_residue_g\t4\tg\tmemory\testimate: 3 to 6 g stay in a colour cup\n", "", "no row for cup_residue_g"},
    {"practice.tsv", "cup_residue_g\t4", "jug_residue_g\t4", "member 'jug_residue_g' is also in line"},
    {"practice.tsv", "cup_residue_g\t4\tg", "cup_residue_g\t4\toz", "cup_residue_g is in g, not in 'oz'"},
    {"practice.tsv", "naoh_purity_lo\t0.985", "naoh_purity_lo\t98.5", "naoh_purity_lo is above naoh_purity_nominal"},
    {"practice.tsv", "stage_3\t0.4057", "stage_3\t0.7", "stage_3 is above stage_4"},
    {"practice.tsv", "piece_chance\t0.9", "piece_chance\t90", "90 is not within 0.5 to 0.999"},
    /* synonyms */
    {"synonyms.tsv", "\trapeseed-low-erucic\tcanola\n", "\trapeseed\tcanola\n", "'rapeseed' is no key of"},
    {"synonyms.tsv", "\trapeseed-low-erucic\tcanola\n", "\trapeseed-low-erucic\tPalm Kernel\n", "'Palm Kernel' already stands in"},
    {"synonyms.tsv", "\trapeseed-low-erucic\tcanola\n", "\trapeseed-low-erucic\t\n", "synonym is empty"},
    {"synonyms.tsv", "oil\trapeseed-low-erucic\tcanola\n", "fat\trapeseed-low-erucic\tcanola\n", "kind cannot be 'fat'"},
};
/* clang-format on */

static void read_text(const char *path, char text[TEXT])
{
    FILE *file = fopen(path, "r");

    assert_non_null(file);
    size_t n = fread(text, 1, TEXT - 1, file);
    text[n] = '\0';
    assert_true(n < TEXT - 1);
    fclose(file);
}

static void write_text(const char *path, const char *text)
{
    FILE *file = fopen(path, "w");

    assert_non_null(file);
    assert_true(fputs(text, file) >= 0);
    assert_int_equal(fclose(file), 0);
}

static void copy(const char *from_folder, const char *to_folder, const char *name, char text[TEXT])
{
    char path[PATH];

    snprintf(path, sizeof path, "%s/%s", from_folder, name);
    read_text(path, text);
    snprintf(path, sizeof path, "%s/%s", to_folder, name);
    write_text(path, text);
}

/* Calls each with the name of every table. */
static void each_table(void (*each)(const char *folder, const char *name), const char *folder)
{
    DIR *directory = opendir(TABLES);
    struct dirent *entry;

    assert_non_null(directory);
    while ((entry = readdir(directory)))
        if (strstr(entry->d_name, ".tsv"))
            each(folder, entry->d_name);
    closedir(directory);
}

static void copy_one(const char *folder, const char *name)
{
    char *text = malloc(TEXT);

    assert_non_null(text);
    copy(TABLES, folder, name, text);
    free(text);
}

static void remove_one(const char *folder, const char *name)
{
    char path[PATH];

    snprintf(path, sizeof path, "%s/%s", folder, name);
    unlink(path);
}

/* Runs the generator on the folder; its first line of complaint goes to `says`. Returns its exit status. */
static int generate(const char *generator, const char *folder, char says[TEXT])
{
    char command[2 * PATH + 32];

    snprintf(command, sizeof command, "%s %s 2>&1 >/dev/null", generator, folder);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    if (!fgets(says, TEXT, pipe))
        says[0] = '\0';
    int status = pclose(pipe);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

/* Replaces the first `from` and returns the line that it begins on. A leading newline belongs to the line before. */
static int make_slip(const struct slip *slip, char text[TEXT])
{
    char *found = strstr(text, slip->from);
    size_t from = strlen(slip->from), to = strlen(slip->to);
    int line = 1;

    if (!found)
        fail_msg("%s has no '%s'", slip->file, slip->from);
    for (const char *c = text; c < found + (*slip->from == '\n'); c++)
        line += *c == '\n';
    assert_true(strlen(text) + to < TEXT);
    memmove(found + to, found + from, strlen(found + from) + 1);
    memcpy(found, slip->to, to);
    return line;
}

/* The complaint names file and line, but for a row that is missing, which has none. */
static void check_complaint(const struct slip *slip, int line, int status, const char *says)
{
    char place[PATH];

    snprintf(place, sizeof place, "%s:%d: ", slip->file, line);
    if (status != 1 || !strstr(says, slip->says))
        fail_msg("%s: status %d, '%s', expected '%s'", slip->file, status, says, slip->says);
    if (*slip->to && !strstr(says, place))
        fail_msg("'%s' does not name %s", says, place);
}

static void every_slip_stops_the_build_with_file_line_and_a_sentence(void **state)
{
    char folder[] = "/tmp/lyeway-tables-XXXXXX", path[PATH];
    char *text = malloc(TEXT), *says = malloc(TEXT);

    assert_true(text && says);
    assert_non_null(mkdtemp(folder));
    each_table(copy_one, folder);
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++) {
        snprintf(path, sizeof path, "%s/%s", folder, slips[i].file);
        read_text(path, text);
        int line = make_slip(&slips[i], text);
        write_text(path, text);
        int status = generate(*state, folder, says);
        copy(TABLES, folder, slips[i].file, text);
        check_complaint(&slips[i], line, status, says);
    }
    each_table(remove_one, folder);
    rmdir(folder);
    free(says);
    free(text);
}

static void the_tables_as_they_are_pass(void **state)
{
    char *says = malloc(TEXT);

    assert_non_null(says);
    assert_int_equal(generate(*state, TABLES, says), 0);
    assert_string_equal(says, "");
    free(says);
}

static void a_missing_folder_is_refused(void **state)
{
    char *says = malloc(TEXT);

    assert_non_null(says);
    assert_int_equal(generate(*state, TABLES "/none", says), 1);
    assert_non_null(strstr(says, "acids.tsv:1: cannot be read"));
    free(says);
}

/* From build/debug/tests/facts/test_generate to build/tools/facts. */
static void generator_beside(const char *program, char path[PATH])
{
    snprintf(path, PATH - 16, "%s", program);
    for (int up = 0; up < 4; up++) {
        char *slash = strrchr(path, '/');
        *(slash ? slash : path) = '\0';
    }
    strcat(path, *path ? "/tools/facts" : "build/tools/facts");
}

int main(int argc, char **argv)
{
    char generator[PATH];

    (void)argc;
    generator_beside(argv[0], generator);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_prestate(the_tables_as_they_are_pass, generator),
        cmocka_unit_test_prestate(every_slip_stops_the_build_with_file_line_and_a_sentence, generator),
        cmocka_unit_test_prestate(a_missing_folder_is_refused, generator),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
