/* One recipe under a maker's hands: previews, steps and their undo, what is saved when, and two windows on one recipe. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"
#include "near.h"
#include "support/scratch.h"
#include "work/editor.h"
#include "work/table.h"

enum { STEPS = 120, GROUP_MOST = 4, WALKS = 12 };

/* Two windows on one recipe of one file. */
struct windows {
    struct scratch *scratch;
    struct shelf shelf; /* empty */
    struct settings settings;
    int64_t id;
    struct store *store[2];
    struct editor *editor[2];
    struct recipe first; /* as it was opened */
};

static struct editor *opened(struct windows *windows, int window)
{
    struct lw_error error = {""};
    struct editor *editor = NULL;

    if (editor_open(windows->store[window], windows->id, &windows->shelf, &windows->settings, &editor, &error) != LW_OK)
        fail_msg("%s", error.text);
    return editor;
}

static int set_up(void **state)
{
    struct windows *windows = calloc(1, sizeof *windows);
    struct recipe recipe;
    void *scratch = NULL;

    if (!windows || scratch_setup(&scratch) != 0)
        return -1;
    windows->scratch = scratch;
    settings_common(&windows->settings);
    table_recipe(&recipe);
    windows->store[0] = scratch_open(windows->scratch);
    windows->store[1] = scratch_open(windows->scratch);
    if (recipes_create(windows->store[0], &recipe, &windows->scratch->now, &windows->id, NULL) != LW_OK)
        return -1;
    windows->editor[0] = opened(windows, 0);
    windows->editor[1] = opened(windows, 1);
    memcpy(&windows->first, editor_recipe(windows->editor[0]), sizeof windows->first);
    *state = windows;
    return 0;
}

static int tear_down(void **state)
{
    struct windows *windows = *state;
    void *scratch = windows->scratch;

    for (int i = 0; i < 2; i++) {
        editor_free(windows->editor[i]);
        scratch_close(windows->store[i]);
    }
    free(windows);
    return scratch_teardown(&scratch);
}

static void is(const struct editor *editor, const struct recipe *recipe)
{
    assert_memory_equal(editor_recipe(editor), recipe, sizeof *recipe);
}

/* The draft in the file. */
static void load(struct windows *windows, struct recipe *recipe)
{
    struct lw_error error = {""};

    if (recipes_load(windows->store[0], windows->id, 0, recipe, NULL, &error) != LW_OK)
        fail_msg("%s", error.text);
}

static void applies(struct editor *editor, const struct change *change)
{
    struct lw_error error = {""};

    if (editor_apply(editor, change, 1, &error) != LW_OK)
        fail_msg("%s", error.text);
}

static void saves(struct windows *windows, struct editor *editor)
{
    struct lw_error error = {""};

    if (editor_save(editor, &windows->scratch->now, &error) != LW_OK)
        fail_msg("%s", error.text);
    assert_false(editor_unsaved(editor));
}

/* Saved, on top of what another window saved meanwhile, and said so. */
static void saves_beside_another(struct windows *windows, struct editor *editor, const char *said)
{
    struct lw_error error = {""};
    struct recipe kept;

    assert_int_equal(editor_save(editor, &windows->scratch->now, &error), LW_CONFLICT);
    if (!strstr(error.text, said))
        fail_msg("\"%s\" does not say \"%s\"", error.text, said);
    assert_false(editor_unsaved(editor));
    load(windows, &kept);
    is(editor, &kept);
}

static struct change superfat(const struct editor *editor, double share)
{
    struct change change;

    change_begin(editor_recipe(editor), CHANGE_HEAD, 0, &change);
    change.after.head.superfat = share;
    return change;
}

static struct change renamed(const struct editor *editor, const char *name)
{
    struct change change;

    change_begin(editor_recipe(editor), CHANGE_HEAD, 0, &change);
    memset(change.after.head.name, 0, LW_NAME_BYTES);
    text_copy(change.after.head.name, LW_NAME_BYTES, name);
    return change;
}

static struct change new_oil(const struct editor *editor, int index, const char *name)
{
    struct change change;

    memset(&change, 0, sizeof change);
    change.part = CHANGE_OIL;
    change.kind = CHANGE_INSERT;
    change.index = index;
    change.after.oil.id = change_free_id(editor_recipe(editor), CHANGE_OIL);
    text_copy(change.after.oil.name, LW_NAME_BYTES, name);
    return change;
}

static struct change removed_oil(const struct editor *editor, int index)
{
    struct change change;

    change_begin(editor_recipe(editor), CHANGE_OIL, index, &change);
    change.kind = CHANGE_REMOVE;
    memset(&change.after, 0, sizeof change.after);
    return change;
}

static struct change oil_amount(const struct editor *editor, int index, double amount)
{
    struct change change;

    change_begin(editor_recipe(editor), CHANGE_OIL, index, &change);
    change.after.oil.amount = amount;
    return change;
}

static void has_oils(const struct editor *editor, int n, const char *const names[])
{
    const struct recipe *recipe = editor_recipe(editor);

    assert_int_equal(recipe->oils, n);
    for (int i = 0; i < n; i++) {
        assert_string_equal(recipe->oil[i].name, names[i]);
        for (int other = 0; other < i; other++)
            assert_int_not_equal(recipe->oil[other].id, recipe->oil[i].id);
    }
}

/* ---- Previews and steps ---- */

static void a_preview_never_changes_the_recipe(void **state)
{
    struct windows *windows = *state;
    struct editor *editor = windows->editor[0];
    struct change change = superfat(editor, 0.08);
    double alkali_g = editor_plan(editor)->alkali[ALKALI_NAOH].alkali.exact_g;

    assert_int_equal(editor_preview(editor, &change, 1, NULL), LW_OK);
    assert_true(editor_document(editor)->input->recipe->superfat == 0.08);
    is(editor, &windows->first);
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
    struct change change = superfat(editor, 0.10);

    alkali_is_for(editor, 0.05);
    assert_int_equal(editor_preview(editor, &change, 1, NULL), LW_OK);
    alkali_is_for(editor, 0.10);
    editor_preview_end(editor);
    alkali_is_for(editor, 0.05);
    applies(editor, &change);
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
    is(editor, &before);
    assert_int_equal(editor_document(editor)->input->recipe->oils, before.oils);
    assert_int_equal(editor_unsaved(editor), unsaved);
}

static void what_is_refused_leaves_everything_as_it_was(void **state)
{
    struct windows *windows = *state;
    struct editor *editor = windows->editor[0];
    struct change changes[EDITOR_CHANGES + 1];

    changes[0] = new_oil(editor, 0, "snake");
    refuses(editor, changes, 1, LW_NOT_FOUND, "\"snake\" is not an oil");
    changes[0] = superfat(editor, 0.1);
    changes[1] = removed_oil(editor, 0);
    changes[2] = removed_oil(editor, 0);
    changes[2].index = 9;
    refuses(editor, changes, 3, LW_INVALID, "nothing at place 10"); /* all or none */
    for (int i = 0; i <= EDITOR_CHANGES; i++)
        changes[i] = superfat(editor, 0.1);
    refuses(editor, changes, EDITOR_CHANGES + 1, LW_FULL, "at most 40 changes");
    assert_int_equal(editor_undo(editor, NULL), LW_NOT_FOUND);
    saves(windows, editor);
    load(windows, &windows->first);
    is(editor, &windows->first);
}

/* A random change of a recipe that can be resolved, and in which no portion is more than all of the batter. */
static void random_step(struct chance *chance, const struct recipe *recipe, struct change *change)
{
    static const char *const names[CHANGE_PARTS] = {[CHANGE_OIL] = "olive",
                                                    [CHANGE_LIQUID] = "milk-goat",
                                                    [CHANGE_ADDITIVE] = "honey",
                                                    [CHANGE_FRAGRANCE] = "lavender"};
    const char *name;

    random_change(chance, recipe, change);
    name = names[change->part];
    if (change->kind == CHANGE_REMOVE)
        return;
    if (name) {
        memset(change->after.oil.name, 0, LW_NAME_BYTES); /* every element has its name behind its id */
        text_copy(change->after.oil.name, LW_NAME_BYTES, name);
    }
    if (change->part == CHANGE_PORTION)
        change->after.portion.amount /= 1e6;
    for (int i = 0; change->part == CHANGE_PORTION && i < change->after.portion.colourants; i++) {
        struct recipe_colourant *colourant = &change->after.portion.colourant[i];

        memset(colourant->name, 0, LW_NAME_BYTES);
        text_copy(colourant->name, LW_NAME_BYTES, "titanium-dioxide");
        memset(colourant->carrier_oil, 0, LW_NAME_BYTES);
    }
}

static void walk(struct chance *chance, struct editor *editor)
{
    struct change changes[GROUP_MOST];
    struct recipe recipe;
    struct lw_error error = {""};
    int n = 1 + chance_below(chance, GROUP_MOST);

    memcpy(&recipe, editor_recipe(editor), sizeof recipe);
    for (int i = 0; i < n; i++) {
        random_step(chance, &recipe, &changes[i]);
        assert_int_equal(change_apply(&recipe, &changes[i], true, NULL), LW_OK);
    }
    if (editor_apply(editor, changes, n, &error) != LW_OK)
        fail_msg("%s", error.text);
    is(editor, &recipe);
}

/* Property: whatever was done, undo of everything returns to the start and redo to the end, and the file follows each way. */
static void undo_of_everything_returns_to_the_start_and_redo_to_the_end(void **state)
{
    struct windows *windows = *state;
    struct editor *editor = windows->editor[0];
    struct chance chance = chance_of(5);
    struct recipe end, kept;

    for (int i = 0; i < STEPS; i++) {
        walk(&chance, editor);
        if (chance_below(&chance, 10) == 0)
            saves(windows, editor);
    }
    memcpy(&end, editor_recipe(editor), sizeof end);
    for (int i = 0; i < STEPS; i++)
        assert_int_equal(editor_undo(editor, NULL), LW_OK);
    assert_int_equal(editor_undo(editor, NULL), LW_NOT_FOUND);
    is(editor, &windows->first);
    saves(windows, editor);
    load(windows, &kept);
    is(editor, &kept);
    for (int i = 0; i < STEPS; i++)
        assert_int_equal(editor_redo(editor, NULL), LW_OK);
    assert_int_equal(editor_redo(editor, NULL), LW_NOT_FOUND);
    is(editor, &end);
    saves(windows, editor);
    load(windows, &kept);
    is(editor, &kept);
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
    change = new_oil(editor, 4, "Own olive");
    applies(editor, &change);
    change = removed_oil(editor, 4);
    applies(editor, &change);
    saves(windows, editor);
    windows->shelf.oils = 0;
    memcpy(&without, editor_recipe(editor), sizeof without);
    assert_int_equal(editor_undo(editor, &error), LW_NOT_FOUND);
    assert_non_null(strstr(error.text, "\"Own olive\" is not an oil"));
    is(editor, &without);
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
    is(editor, &windows->first); /* the bench is not written into the recipe */
    assert_false(editor_unsaved(editor));
}

/* ---- Saving ---- */

static void save_writes_only_what_waits(void **state)
{
    struct windows *windows = *state;
    struct editor *editor = windows->editor[0];
    struct change change = superfat(editor, 0.07);
    struct recipe kept;

    assert_true(store_changed_elsewhere(windows->store[1])); /* the recipe was made */
    saves(windows, editor);                                  /* nothing waits: nothing is written */
    assert_false(store_changed_elsewhere(windows->store[1]));
    applies(editor, &change);
    assert_true(editor_unsaved(editor));
    load(windows, &kept);
    assert_true(kept.superfat == 0.05);
    saves(windows, editor);
    assert_true(store_changed_elsewhere(windows->store[1]));
    load(windows, &kept);
    is(editor, &kept);
    saves(windows, editor);
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
        {{CELL_SIZE, 0, 0}, "1000 kg"},
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
        {{CELL_SIZE, 0, 0}, "1 g"},
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
        load(windows, &kept);
        is(editor, &kept);
    }
}

static void sealing_saves_and_keeps_a_revision(void **state)
{
    struct windows *windows = *state;
    struct editor *editor = windows->editor[0];
    struct change change = superfat(editor, 0.07);
    struct recipe sealed;
    int number = 0;

    applies(editor, &change);
    assert_int_equal(editor_seal(editor, &windows->scratch->now, &number, NULL), LW_OK);
    assert_int_equal(number, 1);
    assert_false(editor_unsaved(editor));
    assert_int_equal(editor_seal(editor, &windows->scratch->now, &number, NULL), LW_CONFLICT); /* nothing new */
    change = superfat(editor, 0.06);
    applies(editor, &change);
    saves(windows, editor); /* the draft goes on, and the revision stays */
    assert_int_equal(recipes_load(windows->store[1], windows->id, 1, &sealed, NULL, NULL), LW_OK);
    assert_true(sealed.superfat == 0.07);
    assert_int_equal(editor_seal(editor, &windows->scratch->now, &number, NULL), LW_OK);
    assert_int_equal(number, 2);
    assert_int_equal(editor_undo(editor, NULL), LW_OK);
    saves(windows, editor);
    assert_int_equal(recipes_load(windows->store[1], windows->id, 2, &sealed, NULL, NULL), LW_OK);
    assert_true(sealed.superfat == 0.06);
}

/* ---- Two windows ---- */

static void another_window_sees_the_change(void **state)
{
    struct windows *windows = *state;
    struct change change = superfat(windows->editor[0], 0.07);

    assert_false(editor_refresh(windows->editor[1], NULL));
    applies(windows->editor[0], &change);
    saves(windows, windows->editor[0]);
    assert_true(editor_refresh(windows->editor[1], NULL));
    is(windows->editor[1], editor_recipe(windows->editor[0]));
    assert_true(editor_document(windows->editor[1])->input->recipe->superfat == 0.07);
    assert_false(editor_refresh(windows->editor[1], NULL));
}

static void both_changes_of_one_part_are_kept(void **state)
{
    struct windows *windows = *state;
    struct change first = superfat(windows->editor[0], 0.07), second = renamed(windows->editor[1], "Hedge Rose");

    applies(windows->editor[0], &first);
    applies(windows->editor[1], &second);
    saves(windows, windows->editor[0]);
    assert_false(editor_refresh(windows->editor[1], NULL)); /* it has something of its own to save first */
    saves_beside_another(windows, windows->editor[1], "both changes are kept");
    assert_string_equal(editor_recipe(windows->editor[1])->name, "Hedge Rose");
    assert_true(editor_recipe(windows->editor[1])->superfat == 0.07);
    assert_true(editor_document(windows->editor[1])->input->recipe->superfat == 0.07);
    assert_true(editor_refresh(windows->editor[0], NULL));
    is(windows->editor[0], editor_recipe(windows->editor[1]));
}

static void a_change_finds_its_oil_where_it_stands_now(void **state)
{
    struct windows *windows = *state;
    struct change first = removed_oil(windows->editor[0], 0), second = oil_amount(windows->editor[1], 2, 0.3);

    applies(windows->editor[0], &first);
    saves(windows, windows->editor[0]);
    applies(windows->editor[1], &second);
    saves_beside_another(windows, windows->editor[1], "both changes are kept");
    has_oils(windows->editor[1], 3, (const char *const[]){"coconut", "palm-high-oleic", "castor"});
    assert_true(editor_recipe(windows->editor[1])->oil[1].amount == 0.3);
    assert_true(editor_recipe(windows->editor[1])->oil[2].amount == 0.08);
}

static void oils_that_both_add_stay_two(void **state)
{
    struct windows *windows = *state;
    struct change first = new_oil(windows->editor[0], 0, "lard"), second = new_oil(windows->editor[1], 4, "neem");

    assert_int_equal(first.after.oil.id, second.after.oil.id);
    applies(windows->editor[0], &first);
    saves(windows, windows->editor[0]);
    applies(windows->editor[1], &second);
    second = oil_amount(windows->editor[1], 4, 0.125); /* what follows means the same oil */
    applies(windows->editor[1], &second);
    saves_beside_another(windows, windows->editor[1], "both changes are kept");
    has_oils(windows->editor[1], 6,
             (const char *const[]){"lard", "olive", "coconut", "palm-high-oleic", "neem", "castor"});
    assert_true(editor_recipe(windows->editor[1])->oil[4].amount == 0.125);
    assert_true(editor_recipe(windows->editor[1])->oil[0].amount == 0);
}

static void a_change_of_what_the_other_took_out_is_told(void **state)
{
    struct windows *windows = *state;
    struct change first = removed_oil(windows->editor[0], 1), second = oil_amount(windows->editor[1], 1, 0.3);

    applies(windows->editor[0], &first);
    saves(windows, windows->editor[0]);
    applies(windows->editor[1], &second);
    saves_beside_another(windows, windows->editor[1], "not all that was changed here still fits");
    has_oils(windows->editor[1], 3, (const char *const[]){"olive", "palm-high-oleic", "castor"});
    assert_true(editor_recipe(windows->editor[1])->oil[1].amount == 0.22);
}

/* Undo takes back what was done here, never what the other did. */
static void undo_begins_anew_after_another_window_changed_the_recipe(void **state)
{
    struct windows *windows = *state;
    struct change first = superfat(windows->editor[0], 0.07), second = renamed(windows->editor[1], "Hedge Rose");

    applies(windows->editor[0], &first);
    applies(windows->editor[1], &second);
    saves(windows, windows->editor[1]);
    saves_beside_another(windows, windows->editor[0], "both changes are kept");
    assert_int_equal(editor_undo(windows->editor[0], NULL), LW_NOT_FOUND);
    assert_true(editor_refresh(windows->editor[1], NULL));
    assert_int_equal(editor_undo(windows->editor[1], NULL), LW_NOT_FOUND);
    assert_string_equal(editor_recipe(windows->editor[0])->name, "Hedge Rose");
}

/* Property: whatever two windows do, in the end both show the same recipe, and it is that of the file. */
static void two_windows_always_come_to_agree(void **state)
{
    struct windows *windows = *state;
    struct chance chance = chance_of(8);
    struct lw_error error = {""};
    struct recipe kept;
    int conflicts = 0;

    for (int i = 0; i < 10 * WALKS; i++) {
        struct editor *editor = windows->editor[chance_below(&chance, 2)];

        for (int steps = chance_below(&chance, 3); steps > 0; steps--)
            walk(&chance, editor);
        if (chance_below(&chance, 3) == 0) {
            enum lw_status status = editor_save(editor, &windows->scratch->now, &error);

            if (status != LW_OK && status != LW_CONFLICT)
                fail_msg("%s", error.text);
            conflicts += status == LW_CONFLICT;
        }
    }
    assert_true(conflicts > 3);
    for (int i = 0; i < 2; i++) {
        enum lw_status status = editor_save(windows->editor[i], &windows->scratch->now, &error);

        assert_true(status == LW_OK || status == LW_CONFLICT);
    }
    editor_refresh(windows->editor[0], NULL);
    load(windows, &kept);
    is(windows->editor[0], &kept);
    is(windows->editor[1], &kept);
    scratch_verify(windows->store[0]);
}

static void a_recipe_that_is_not_there_does_not_open(void **state)
{
    struct windows *windows = *state;
    struct lw_error error = {""};
    struct editor *editor = windows->editor[0];

    assert_int_equal(
        editor_open(windows->store[0], windows->id + 1, &windows->shelf, &windows->settings, &editor, &error),
        LW_NOT_FOUND);
    assert_null(editor);
    assert_true(error.text[0] != '\0');
    editor_free(NULL);
}

#define IN_WINDOWS(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)

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
        IN_WINDOWS(another_window_sees_the_change),
        IN_WINDOWS(both_changes_of_one_part_are_kept),
        IN_WINDOWS(a_change_finds_its_oil_where_it_stands_now),
        IN_WINDOWS(oils_that_both_add_stay_two),
        IN_WINDOWS(a_change_of_what_the_other_took_out_is_told),
        IN_WINDOWS(undo_begins_anew_after_another_window_changed_the_recipe),
        IN_WINDOWS(two_windows_always_come_to_agree),
        IN_WINDOWS(a_recipe_that_is_not_there_does_not_open),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
