/* screen.c - what the recipe screen lets a maker do: its action table, and the state behind it. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "ui/screens/recipe/recipe.h"
#include "ui/screens/recipe/state.h"
#include "work/look.h"
#include "work/words_learned.h"

struct line *state_line(struct recipe_screen *screen)
{
    struct spot spot = screen->spot;

    return spot.line < screen->page.lines[spot.region] ? &screen->page.line[spot.region][spot.line] : NULL;
}

struct piece *state_piece(struct recipe_screen *screen)
{
    struct line *line = state_line(screen);

    return line && screen->spot.piece < line->pieces ? &line->piece[screen->spot.piece] : NULL;
}

struct cell_context state_context(const struct recipe_screen *screen)
{
    return (struct cell_context){.recipe = editor_recipe(screen->editor),
                                 .plan = editor_plan(screen->editor),
                                 .settings = workshop_settings(screen->top.workshop),
                                 .follow = screen->follow,
                                 .makes_up = screen->makes_up};
}

/* Lines come and go with the recipe: the spot stays in its region, on the nearest thing that can be chosen. */
static void keep_spot(struct recipe_screen *screen)
{
    struct spot *spot = &screen->spot;
    int lines = screen->page.lines[spot->region];

    if (spot->line >= lines)
        spot->line = lines - 1;
    for (int down = spot->line; down < lines; down++)
        for (int i = 0; i < screen->page.line[spot->region][down].pieces; i++) {
            int piece = (spot->piece + i) % screen->page.line[spot->region][down].pieces;

            if (screen->page.line[spot->region][down].piece[piece].act != ACT_NONE) {
                spot->line = down;
                spot->piece = piece;
                return;
            }
        }
    spot->line = spot->piece = 0;
}

void state_page(struct recipe_screen *screen)
{
    page_build(&screen->page, editor_document(screen->editor), workshop_settings(screen->top.workshop), screen->width,
               screen->tall);
    keep_spot(screen);
}

/* The line of a portion's pieces; -1: it is none. */
static int pieces_line(const struct line *line)
{
    bool pieces = line->pieces > 0 && line->piece[0].act == ACT_EDIT && line->piece[0].cell.kind == CELL_PIECES_COUNT;

    return pieces ? line->piece[0].cell.index : -1;
}

void state_say_look(struct recipe_screen *screen)
{
    const struct plan_document *document = editor_document(screen->editor);
    const struct line *line = state_line(screen);
    const struct recipe_portion *portion;
    char words[PIECE_BYTES];

    if (screen->tall || !line)
        return;
    if (pieces_line(line) >= 0) {
        words_of_learned(document->plan, pieces_line(line), words, sizeof words);
        desk_say(screen->top.desk, STYLE_PLAIN, "%s.", words);
        return;
    }
    if (!line->removable || line->part != CHANGE_PORTION)
        return;
    portion = &document->input->recipe->portion[line->index];
    if (portion->colourants == 0)
        return;
    look_of_portion(document->input, document->plan, line->index, words, sizeof words);
    desk_say(screen->top.desk, STYLE_PLAIN, "%s: %s", portion->name, words);
}

void state_go(struct recipe_screen *screen, enum change_part part, int index, int sub)
{
    static const enum region regions[CHANGE_PARTS] = {
        [CHANGE_LIQUID] = REGION_LYE, [CHANGE_FRAGRANCE] = REGION_PORTIONS, [CHANGE_PORTION] = REGION_PORTIONS};
    enum region region = regions[part]; /* the others stand with the oils */

    state_page(screen);
    for (int i = 0; i < screen->page.lines[region]; i++) {
        const struct line *line = &screen->page.line[region][i];

        if (!line->removable || line->part != part || line->index != index || (sub > 0 && line->sub != sub))
            continue;
        screen->spot = (struct spot){region, i, 0};
        for (int piece = 0; piece < line->pieces; piece++)
            if (line->piece[piece].act == ACT_EDIT &&
                (part != CHANGE_PORTION || line->piece[piece].cell.kind != CELL_PORTION_NAME)) {
                screen->spot.piece = piece;
                return;
            }
        return;
    }
}

bool state_apply(struct recipe_screen *screen, const struct change changes[], int n)
{
    struct lw_error error;

    if (n == 0 || editor_apply(screen->editor, changes, n, &error) == LW_OK)
        return true;
    desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
    return false;
}

static void where(void *state, char *out, size_t size)
{
    struct recipe_screen *screen = state;
    const struct recipe *recipe = editor_recipe(screen->editor);

    snprintf(out, size, "Recipes > %s", recipe->name);
    if (recipe->revision > 0)
        text_add(out, size, "   draft after revision %d", recipe->revision);
    else
        text_add(out, size, "   draft");
    if (editor_unsaved(screen->editor))
        text_add(out, size, "   not saved yet");
}

static bool take_key(void *state, const struct key *key)
{
    struct recipe_screen *screen = state;
    const struct piece *piece;

    if (screen->editing)
        return edit_key(screen, key);
    if (key->code == KEY_CLICK)
        return move_to(screen, key->row - 1, key->col);
    if (move_key(screen, key)) {
        state_say_look(screen);
        return true;
    }
    piece = state_piece(screen);
    /* A digit on a number starts editing it. */
    if (piece && piece->act == ACT_EDIT && key->code == KEY_CHARACTER && !key->alt &&
        ((key->point >= '0' && key->point <= '9') || key->point == '.' || key->point == '(')) {
        edit_begin(screen, (char[]){(char)key->point, '\0'});
        return true;
    }
    return false;
}

static void enter(void *state, const struct key *key)
{
    struct recipe_screen *screen = state;
    const struct piece *piece = state_piece(screen);

    (void)key;
    if (!piece)
        return;
    if (piece->act == ACT_EDIT)
        edit_begin(screen, NULL);
    else if (piece->act == ACT_CYCLE)
        choose_cycle(screen, piece);
    else if (piece->act == ACT_NOTE)
        note_open(screen);
    else
        choose_for_piece(screen, piece);
}

static void add(void *state, const struct key *key)
{
    static const enum change_part parts[REGIONS] = {CHANGE_OIL, CHANGE_LIQUID, CHANGE_PORTION};
    struct recipe_screen *screen = state;
    const struct line *line = state_line(screen);

    (void)key;
    choose_add(screen, line && line->removable ? line->part : parts[screen->spot.region]);
}

static void colour(void *state, const struct key *key)
{
    struct recipe_screen *screen = state;
    const struct line *line = state_line(screen);
    struct piece piece = {
        .act = ACT_ADD, .part = CHANGE_PORTION, .colourant = true, .cell = {CELL_NONE, line->index, 0}};

    (void)key;
    choose_for_piece(screen, &piece);
}

static const char *no_portion(void *state)
{
    const struct line *line = state_line(state);

    return line && line->removable && line->part == CHANGE_PORTION ? NULL : "Put the cursor on a portion first.";
}

static void pieces(void *state, const struct key *key)
{
    struct recipe_screen *screen = state;
    struct change change;

    (void)key;
    change_begin(editor_recipe(screen->editor), CHANGE_PORTION, state_line(screen)->index, &change);
    if (change.after.portion.has_pieces) {
        change.after.portion.has_pieces = false;
        memset(&change.after.portion.pieces, 0, sizeof change.after.portion.pieces);
        if (change.after.portion.demand == DEMAND_PIECES)
            change.after.portion.demand = DEMAND_REST;
    } else {
        change.after.portion.has_pieces = true;
        change.after.portion.pieces.count = 12;
        change.after.portion.pieces.mass_g = 2;
        change.after.portion.technique = TECHNIQUE_PIPE;
    }
    state_apply(screen, &change, 1);
}

static const char *nothing_to_remove(void *state)
{
    const struct line *line = state_line(state);

    return line && line->removable ? NULL : "There is nothing to take out on this line.";
}

/* A colourant is part of its portion; everything else is an element of its list. */
static void take_out(void *state, const struct key *key)
{
    struct recipe_screen *screen = state;
    const struct line *line = state_line(screen);
    struct change change;

    (void)key;
    change_begin(editor_recipe(screen->editor), line->part, line->index, &change);
    if (line->part == CHANGE_PORTION && line->sub >= 0) {
        struct recipe_portion *portion = &change.after.portion;

        memmove(&portion->colourant[line->sub], &portion->colourant[line->sub + 1],
                (size_t)(portion->colourants - line->sub - 1) * sizeof portion->colourant[0]);
        portion->colourants--;
        memset(&portion->colourant[portion->colourants], 0, sizeof portion->colourant[0]);
    } else
        change.kind = CHANGE_REMOVE;
    if (state_apply(screen, &change, 1))
        desk_say(screen->top.desk, STYLE_PLAIN, "Taken out; u brings it back.");
}

static void undo(void *state, const struct key *key)
{
    struct recipe_screen *screen = state;
    struct lw_error error;

    (void)key;
    if (editor_undo(screen->editor, &error) != LW_OK)
        desk_say(screen->top.desk, STYLE_PLAIN, "%s", error.text);
}

static void redo(void *state, const struct key *key)
{
    struct recipe_screen *screen = state;
    struct lw_error error;

    (void)key;
    if (editor_redo(screen->editor, &error) != LW_OK)
        desk_say(screen->top.desk, STYLE_PLAIN, "%s", error.text);
}

/* With one oil to make up the rest, it is the one under the cursor. */
static void follow(void *state, const struct key *key)
{
    struct recipe_screen *screen = state;
    const struct line *line = state_line(screen);

    (void)key;
    screen->follow = (enum follow)((screen->follow + 1) % FOLLOWS);
    if (screen->follow == FOLLOW_ONE && line && line->removable && line->part == CHANGE_OIL)
        screen->makes_up = line->index;
    else if (screen->follow == FOLLOW_ONE)
        screen->makes_up = editor_recipe(screen->editor)->oils - 1;
    if (screen->follow == FOLLOW_ONE && editor_recipe(screen->editor)->oils > 0)
        desk_say(screen->top.desk, STYLE_PLAIN, "When a share is changed, %s makes up the rest.",
                 document_name(editor_document(screen->editor)->input,
                               (struct part_ref){PART_OIL, (int16_t)screen->makes_up, 0}));
    else
        desk_say(screen->top.desk, STYLE_PLAIN, "When a share is changed, the %s.", follow_name(screen->follow));
}

static void size(void *state, const struct key *key)
{
    (void)key;
    size_open(state);
}

static void findings(void *state, const struct key *key)
{
    (void)key;
    findings_open(state);
}

static void revisions(void *state, const struct key *key)
{
    (void)key;
    revisions_open(state);
}

static void saponification(void *state, const struct key *key)
{
    struct recipe_screen *screen = state;

    (void)key;
    edit_ask(screen, (struct cell){CELL_OIL_SAP, state_line(screen)->index, 0});
}

static const char *no_oil(void *state)
{
    const struct line *line = state_line(state);

    return line && line->removable && line->part == CHANGE_OIL ? NULL : "Put the cursor on an oil first.";
}

static void limit(void *state, const struct key *key)
{
    struct recipe_screen *screen = state;

    (void)key;
    edit_ask(screen, (struct cell){CELL_FRAGRANCE_LIMIT, state_line(screen)->index, 0});
}

static const char *no_fragrance(void *state)
{
    const struct line *line = state_line(state);

    return line && line->removable && line->part == CHANGE_FRAGRANCE ? NULL : "Put the cursor on a fragrance first.";
}

static void rename_recipe(void *state, const struct key *key)
{
    (void)key;
    edit_ask(state, (struct cell){CELL_NAME, 0, 0});
}

static void note(void *state, const struct key *key)
{
    (void)key;
    note_open(state);
}

static void keep(void *state, const struct key *key)
{
    struct recipe_screen *screen = state;
    struct lw_now now = workshop_now(screen->top.workshop);
    struct lw_error error;
    int number = 0;

    (void)key;
    if (editor_seal(screen->editor, &now, &number, &error) == LW_OK)
        desk_say(screen->top.desk, STYLE_GOOD,
                 "Kept as revision %d; it will not change any more. The draft goes on from it.", number);
    else
        desk_say(screen->top.desk, STYLE_PLAIN, "%s", error.text);
}

static void back(void *state, const struct key *key)
{
    struct recipe_screen *screen = state;
    struct lw_now now = workshop_now(screen->top.workshop);
    struct lw_error error;
    enum lw_status status = editor_save(screen->editor, &now, &error);

    (void)key;
    if (status == LW_OK || status == LW_CONFLICT)
        desk_pop(screen->top.desk);
    else
        desk_say(screen->top.desk, STYLE_STOP, "%s The recipe stays open so that nothing is lost.", error.text);
}

/* What is on the screen is what is made: nothing may wait to be saved. */
static void start_batch(void *state, const struct key *key)
{
    struct recipe_screen *screen = state;
    struct lw_now now = workshop_now(screen->top.workshop);
    struct lw_error error = {""};

    (void)key;
    if (editor_save(screen->editor, &now, &error) == LW_OK)
        start_open(&screen->top, editor_id(screen->editor), 0);
    else
        desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
}

static const struct action usual_actions[] = {
    {"Enter", "change", "Changes what the cursor is on. A digit starts a number at once.", enter, NULL},
    {"Tab", "region", "Goes to the next region; arrows go from number to number.", NULL, NULL},
    {"a", "add", "Adds an oil, liquid or portion to the region the cursor is in.", add, NULL},
    {"Del x", "take out", "Takes out the oil, additive, fragrance, colour or portion of this line.", take_out,
     nothing_to_remove},
    {"z", "size", "Sizes the recipe by oils, batter, mould or pieces.", size, NULL},
    {"f", "findings", "Lists all findings with what to do about them.", findings, NULL},
    {"b", "batch", "Starts a batch of it on the bench.", start_batch, NULL},
    {"u", "undo", "Takes the last change back, as often as there were changes.", undo, NULL},
    {"U", NULL, "Makes the change again that was undone last.", redo, NULL},
    {"c", "colour", "Adds a colourant to the portion of this line.", colour, no_portion},
    {"p", "pieces", "Counts pieces from the portion of this line, or stops counting them.", pieces, no_portion},
    {"o", "others", "Switches what the other oils do when a share is changed.", follow, NULL},
    {"k", "keep", "Keeps the recipe as it is now as a numbered revision.", keep, NULL},
    {"s", NULL, "Sets the supplier's saponification value of the oil of this line.", saponification, no_oil},
    {"l", NULL, "Sets the limit of the supplier's certificate of the fragrance of this line.", limit, no_fragrance},
    {"n", "note", "Writes a note beside the recipe, of several lines.", note, NULL},
    {"N", NULL, "Renames the recipe.", rename_recipe, NULL},
    {"r", NULL, "Lists the revisions and compares them.", revisions, NULL},
    {"Esc q", "back", "Goes back to the list; everything is saved already.", back, NULL},
};

static const struct action editing_actions[] = {
    {"Enter", "take it", "Takes what is typed.", NULL, NULL},
    {"Esc", "leave as it was", "Puts everything back as it was before.", NULL, NULL},
    {"Tab", NULL, "Takes it and goes on; Up and Down likewise.", NULL, NULL},
};

static const struct action *actions_of(void *state, size_t *count)
{
    struct recipe_screen *screen = state;

    *count = screen->editing ? sizeof editing_actions / sizeof *editing_actions
                             : sizeof usual_actions / sizeof *usual_actions;
    return screen->editing ? editing_actions : usual_actions;
}

static void closed(void *state)
{
    struct recipe_screen *screen = state;

    editor_free(screen->editor);
    free(screen);
}

/* After each paint, and before leaving. */
static void save(void *state)
{
    struct recipe_screen *screen = state;
    struct lw_now now;
    struct lw_error error;

    if (!editor_unsaved(screen->editor))
        return;
    now = workshop_now(screen->top.workshop);
    if (editor_save(screen->editor, &now, &error) != LW_OK)
        desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
}

static void news(void *state)
{
    struct recipe_screen *screen = state;
    struct lw_error error = {""};

    if (!screen->editing && editor_refresh(screen->editor, &error))
        desk_say(screen->top.desk, STYLE_PLAIN, "Another window changed this recipe; it is shown as it is now.");
}

/* *opened stays as it was where it cannot be opened. */
static enum lw_status open_screen(const struct top *top, int64_t id, struct recipe_screen **opened,
                                  struct lw_error *error)
{
    static const struct view_ops ops = {.title = "A recipe",
                                        .where = where,
                                        .paint = paint_recipe,
                                        .key = take_key,
                                        .actions = actions_of,
                                        .closed = closed,
                                        .save = save,
                                        .news = news};
    struct recipe_screen *screen = calloc(1, sizeof *screen);
    enum lw_status status;

    if (!screen)
        return lw_fail(error, LW_FULL, "There is no memory left to open the recipe.");
    if (workshop_learn(top->workshop, error) != LW_OK)
        desk_say(top->desk, STYLE_CAUTION, "%s", error->text);
    status = editor_open(workshop_store(top->workshop), id, workshop_shelf(top->workshop),
                         workshop_settings(top->workshop), workshop_lessons(top->workshop), &screen->editor, error);
    if (status != LW_OK) {
        free(screen);
        return status;
    }
    screen->top = *top;
    screen->spot = (struct spot){REGION_OILS, 1, 0};
    state_page(screen); /* for keys that come before the first frame */
    if (!desk_push(top->desk, &ops, screen))
        return lw_fail(error, LW_FULL, "Too many screens are open; go back with Esc first.");
    *opened = screen;
    return LW_OK;
}

enum lw_status recipe_screen_open(const struct top *top, int64_t id, struct lw_error *error)
{
    struct recipe_screen *screen;

    return open_screen(top, id, &screen, error);
}

enum lw_status recipe_screen_open_findings(const struct top *top, int64_t id, struct lw_error *error)
{
    struct recipe_screen *screen = NULL;
    enum lw_status status = open_screen(top, id, &screen, error);

    if (screen)
        findings_open(screen);
    return status;
}
