/* One recipe under a maker's hands: previews, steps and their undo, what is saved when, and kept. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "near.h"
#include "work/cell.h"
#include "work/windows.h"

enum { STEPS = 120 };

static void a_preview_never_changes_the_recipe(void **state)
{
    struct windows *windows = *state;
    struct editor *editor = windows->editor[0];
    struct change change = superfat_change(editor, 0.08);
    double alkali_g = editor_plan(editor)->alkali[ALKALI_NAOH].alkali.exact_g;

    assert_int_equal(editor_preview(editor, &change, 1, NULL), LW_OK);
    assert_true(editor_document(editor)->input->recipe->superfat == 0.08);
    recipe_is(editor, &windows->first);
    assert_near(editor_plan(editor)->alkali[ALKALI_NAOH].alkali.exact_g, alkali_g, 1e-9);
    assert_false(editor_unsaved(editor));
    editor_preview_end(editor);
    assert_true(editor_document(editor)->input->recipe->superfat == 0.05);
    assert_int_equal(editor_undo(editor, NULL), LW_NOT_FOUND);
}

/* NaOH for the oils and acids of the plan shown: superfat is a discount on the oils' demand only. Molar mass: CIAAW standard atomic
 * weights, 39.99677 g/mol. */
static void alkali_is_for(const struct editor *editor, double share)
{
    const struct plan *plan = editor_document(editor)->plan;

    assert_near(plan->alkali[ALKALI_NAOH].alkali.exact_g, 39.99677 * ((1 - share) * plan->demand_mol + plan->acid_mol),
                1e-6);
}

static void the_plan_shown_is_that_of_the_preview(void **state)
{
    struct windows *windows = *state;
    struct editor *editor = windows->editor[0];
    struct change change = superfat_change(editor, 0.10);

    alkali_is_for(editor, 0.05);
    assert_int_equal(editor_preview(editor, &change, 1, NULL), LW_OK);
    alkali_is_for(editor, 0.10);
    editor_preview_end(editor);
    alkali_is_for(editor, 0.05);
    editor_applies(editor, &change);
    alkali_is_for(editor, 0.10);
    assert_int_equal(editor_undo(editor, NULL), LW_OK);
    alkali_is_for(editor, 0.05);
}

static void refuses(struct editor *editor, const struct change *change, int n, enum lw_status status, const char *part)
{
    struct lw_error error = {""};
    struct recipe before;
    bool unsaved = editor_unsaved(editor);

    memcpy(&before, editor_recipe(editor), sizeof before);
    assert_int_equal(editor_preview(editor, change, n, &error), status);
    assert_int_equal(editor_apply(editor, change, n, &error), status);
    if (!strstr(error.text, part))
        fail_msg("\"%s\" does not say \"%s\"", error.text, part);
    recipe_is(editor, &before);
    assert_int_equal(editor_document(editor)->input->recipe->oils, before.oils);
    assert_int_equal(editor_unsaved(editor), unsaved);
}

static void what_is_refused_leaves_everything_as_it_was(void **state)
{
    struct windows *windows = *state;
    struct editor *editor = windows->editor[0];
    struct change changes[EDITOR_CHANGES + 1];

    changes[0] = new_oil_change(editor, 0, "snake");
    refuses(editor, changes, 1, LW_NOT_FOUND, "\"snake\" is not an oil");
    changes[0] = superfat_change(editor, 0.1);
    changes[1] = removed_oil_change(editor, 0);
    changes[2] = removed_oil_change(editor, 0);
    changes[2].index = 9;
    refuses(editor, changes, 3, LW_INVALID, "nothing at place 10"); /* all or none */
    for (int i = 0; i <= EDITOR_CHANGES; i++)
        changes[i] = superfat_change(editor, 0.1);
    refuses(editor, changes, EDITOR_CHANGES + 1, LW_FULL, "at most 40 changes");
    assert_int_equal(editor_undo(editor, NULL), LW_NOT_FOUND);
    editor_saves(windows, editor);
    load_draft(windows, &windows->first);
    recipe_is(editor, &windows->first);
}

/* Property: whatever was done, undo of everything returns to the start and redo to the end, and the file follows each way. */
static void undo_of_everything_returns_to_the_start_and_redo_to_the_end(void **state)
{
    struct windows *windows = *state;
    struct editor *editor = windows->editor[0];
    struct chance chance = chance_of(5);
    struct recipe end, kept;

    for (int i = 0; i < STEPS; i++) {
        random_walk(&chance, editor);
        if (chance_below(&chance, 10) == 0)
            editor_saves(windows, editor);
    }
    memcpy(&end, editor_recipe(editor), sizeof end);
    for (int i = 0; i < STEPS; i++)
        assert_int_equal(editor_undo(editor, NULL), LW_OK);
    assert_int_equal(editor_undo(editor, NULL), LW_NOT_FOUND);
    recipe_is(editor, &windows->first);
    editor_saves(windows, editor);
    load_draft(windows, &kept);
    recipe_is(editor, &kept);
    for (int i = 0; i < STEPS; i++)
        assert_int_equal(editor_redo(editor, NULL), LW_OK);
    assert_int_equal(editor_redo(editor, NULL), LW_NOT_FOUND);
    recipe_is(editor, &end);
    editor_saves(windows, editor);
    load_draft(windows, &kept);
    recipe_is(editor, &kept);
}

/* A step back to a name that is not known any more: a sentence, and nothing has changed, not even what can be undone. */
static void undo_to_an_unknown_name_is_refused(void **state)
{
    static struct oil_fact own = {.key = "Own olive",
                                  .name = "Own olive",
                                  .inci = "",
                                  .inci_soap = "",
                                  .sap_lo = 186,
                                  .sap_hi = 192,
                                  .sap_nominal = 189,
                                  .sap_source = "certificate",
                                  .acid_source = "",
                                  .note = ""};
    struct windows *windows = *state;
    struct editor *editor = windows->editor[0];
    struct lw_error error = {""};
    struct recipe without;
    struct change change;

    windows->shelf.oil = &own;
    windows->shelf.oils = 1;
    change = new_oil_change(editor, 4, "Own olive");
    editor_applies(editor, &change);
    change = removed_oil_change(editor, 4);
    editor_applies(editor, &change);
    editor_saves(windows, editor);
    windows->shelf.oils = 0;
    memcpy(&without, editor_recipe(editor), sizeof without);
    assert_int_equal(editor_undo(editor, &error), LW_NOT_FOUND);
    assert_non_null(strstr(error.text, "\"Own olive\" is not an oil"));
    recipe_is(editor, &without);
    assert_false(editor_unsaved(editor));
    windows->shelf.oils = 1;
    assert_int_equal(editor_undo(editor, NULL), LW_OK);
    assert_int_equal(editor_recipe(editor)->oils, 5);
}

static void settings_that_change_are_planned_with(void **state)
{
    struct windows *windows = *state;
    struct editor *editor = windows->editor[0];

    assert_int_equal(editor_document(editor)->plan->oil[0].division_ug, 1000000); /* 450 g: on the scale of 1 g */
    windows->settings.mass_unit = MASS_OZ;
    windows->settings.scale[0].division_ug = 5000000;
    windows->settings.scales = 1;
    assert_int_equal(editor_replan(editor, NULL), LW_OK);
    assert_int_equal(editor_document(editor)->unit, MASS_OZ);
    assert_int_equal(editor_document(editor)->plan->oil[0].division_ug, 5000000);
    recipe_is(editor, &windows->first); /* the bench is not written into the recipe */
    assert_false(editor_unsaved(editor));
}

static void save_writes_only_what_waits(void **state)
{
    struct windows *windows = *state;
    struct editor *editor = windows->editor[0];
    struct change change = superfat_change(editor, 0.07);
    struct recipe kept;

    assert_true(store_changed_elsewhere(windows->store[1])); /* the recipe was made */
    editor_saves(windows, editor);                           /* nothing waits: nothing is written */
    assert_false(store_changed_elsewhere(windows->store[1]));
    editor_applies(editor, &change);
    assert_true(editor_unsaved(editor));
    load_draft(windows, &kept);
    assert_true(kept.superfat == 0.05);
    editor_saves(windows, editor);
    assert_true(store_changed_elsewhere(windows->store[1]));
    load_draft(windows, &kept);
    recipe_is(editor, &kept);
    editor_saves(windows, editor);
    assert_false(store_changed_elsewhere(windows->store[1]));
}

/* The cells and the file agree about what can be: the most and least that a cell takes is saved, and comes back the same. */
static void what_a_cell_takes_can_be_saved(void **state)
{
    static const struct {
        struct cell cell;
        const char *text;
    } rows[] = {
        {{CELL_NAME, 0, 0}, "\"It's\"; %s"},
        {{CELL_SUPERFAT, 0, 0}, "50"},
        {{CELL_SUPERFAT, 0, 0}, "0"},
        {{CELL_WATER, 0, 0}, "99 %"},
        {{CELL_WATER, 0, 0}, "1000 to 1"},
        {{CELL_WATER, 0, 0}, "100 % of oils"},
        {{CELL_WATER_TEMP, 0, 0}, "-4 F"},
        {{CELL_WATER_TEMP, 0, 0}, "203 F"},
        {{CELL_POTASSIUM, 0, 0}, "100"},
        {{CELL_PURITY_NAOH, 0, 0}, "1"},
        {{CELL_PURITY_KOH, 0, 0}, "100"},
        {{CELL_SOLUTION_NAOH, 0, 0}, "99"},
        {{CELL_SOLUTION_KOH, 0, 0}, "0"},
        {{CELL_RESIDUE, 0, 0}, "1000 kg"},
        {{CELL_RESIDUE, 0, 0}, "100 %"},
        {{CELL_OIL_SHARE, 0, 0}, "100"},
        {{CELL_OIL_SHARE, 0, 0}, "0"},
        {{CELL_OIL_GRAMS, 0, 0}, "500 kg"},
        {{CELL_OIL_SAP, 0, 0}, "400"},
        {{CELL_ADDITIVE_DOSE, 0, 0}, "1000 kg"},
        {{CELL_ADDITIVE_DOSE, 0, 0}, "100 %"},
        {{CELL_LIQUID_SHARE, 0, 0}, "100"},
        {{CELL_FRAGRANCE_LOAD, 0, 0}, "1000 g/kg"},
        {{CELL_FRAGRANCE_LOAD, 0, 0}, "100 %"},
        {{CELL_FRAGRANCE_LIMIT, 0, 0}, "100"},
        {{CELL_PORTION_NAME, 1, 0}, "m"},
        {{CELL_PORTION_AMOUNT, 1, 0}, "1000 mm"},
        {{CELL_PORTION_AMOUNT, 1, 0}, "100 %"},
        {{CELL_PORTION_AMOUNT, 1, 0}, "1000 kg"},
        {{CELL_PIECES_COUNT, 2, 0}, "2000"},
        {{CELL_PIECES_MASS, 2, 0}, "1000 kg"},
        {{CELL_PIECES_KIND, 2, 0}, ""},
        {{CELL_PIECES_COUNT, 2, 0}, "0"},
        {{CELL_COLOUR_DOSE, 1, 0}, "1000 g/kg"},
        {{CELL_COLOUR_DOSE, 1, 0}, "1000 kg"},
        {{CELL_COLOUR_DOSE, 1, 0}, "100 %"},
        {{CELL_COLOUR_DOSE, 1, 0}, "1000 parts"},
    };
    struct windows *windows = *state;
    struct editor *editor = windows->editor[0];

    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct cell_context context = {editor_recipe(editor), editor_plan(editor), &windows->settings, FOLLOW_RATIO, 0};
        struct change changes[EDITOR_CHANGES];
        struct lw_error error = {""};
        struct recipe kept;
        int n = 0;

        if (cell_read(&context, rows[i].cell, rows[i].text, changes, &n, &error) != LW_OK ||
            editor_apply(editor, changes, n, &error) != LW_OK ||
            editor_save(editor, &windows->scratch->now, &error) != LW_OK)
            fail_msg("%s \"%s\": %s", cell_name(rows[i].cell.kind), rows[i].text, error.text);
        load_draft(windows, &kept);
        recipe_is(editor, &kept);
    }
}

static void sealing_saves_and_keeps_a_revision(void **state)
{
    struct windows *windows = *state;
    struct editor *editor = windows->editor[0];
    struct change change = superfat_change(editor, 0.07);
    struct recipe sealed;
    int number = 0;

    editor_applies(editor, &change);
    assert_int_equal(editor_seal(editor, &windows->scratch->now, &number, NULL), LW_OK);
    assert_int_equal(number, 1);
    assert_false(editor_unsaved(editor));
    assert_int_equal(editor_seal(editor, &windows->scratch->now, &number, NULL), LW_CONFLICT); /* nothing new */
    change = superfat_change(editor, 0.06);
    editor_applies(editor, &change);
    editor_saves(windows, editor); /* the draft goes on, and the revision stays */
    assert_int_equal(recipes_load(windows->store[1], windows->id, 1, &sealed, NULL, NULL), LW_OK);
    assert_true(sealed.superfat == 0.07);
    assert_int_equal(editor_seal(editor, &windows->scratch->now, &number, NULL), LW_OK);
    assert_int_equal(number, 2);
    assert_int_equal(editor_undo(editor, NULL), LW_OK);
    editor_saves(windows, editor);
    assert_int_equal(recipes_load(windows->store[1], windows->id, 2, &sealed, NULL, NULL), LW_OK);
    assert_true(sealed.superfat == 0.06);
}

static void a_recipe_that_is_not_there_does_not_open(void **state)
{
    struct windows *windows = *state;
    struct lw_error error = {""};
    struct editor *editor = windows->editor[0];

    assert_int_equal(
        editor_open(windows->store[0], windows->id + 1, &windows->shelf, &windows->settings, NULL, &editor, &error),
        LW_NOT_FOUND);
    assert_null(editor);
    assert_true(error.text[0] != '\0');
    editor_free(NULL);
}

#define IN_WINDOWS(test) cmocka_unit_test_setup_teardown(test, windows_set_up, windows_tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_WINDOWS(a_preview_never_changes_the_recipe),
        IN_WINDOWS(the_plan_shown_is_that_of_the_preview),
        IN_WINDOWS(what_is_refused_leaves_everything_as_it_was),
        IN_WINDOWS(undo_of_everything_returns_to_the_start_and_redo_to_the_end),
        IN_WINDOWS(undo_to_an_unknown_name_is_refused),
        IN_WINDOWS(settings_that_change_are_planned_with),
        IN_WINDOWS(save_writes_only_what_waits),
        IN_WINDOWS(what_a_cell_takes_can_be_saved),
        IN_WINDOWS(sealing_saves_and_keeps_a_revision),
        IN_WINDOWS(a_recipe_that_is_not_there_does_not_open),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
