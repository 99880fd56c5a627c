/* edit.c - editing a cell in place: every key shows the plan as it would be, Esc puts it all back. */
#include "base/text.h"
#include "ui/kit/ask.h"
#include "ui/screens/recipe/state.h"

/* Plans what stands in the field; a text that cannot be read yet leaves the plan as it is and says why on Enter only, but marks
 * the field at once. */
static void preview(struct recipe_screen *screen)
{
    struct change changes[EDITOR_CHANGES];
    struct cell_context context = state_context(screen);
    const struct piece *piece = state_piece(screen);
    struct lw_error error;
    int n = 0;

    editor_preview_end(screen->editor);
    screen->bad = cell_read(&context, piece->cell, screen->field.text, changes, &n, &error) != LW_OK ||
                  editor_preview(screen->editor, changes, n, &error) != LW_OK;
    if (screen->bad)
        desk_say(screen->top.desk, STYLE_PLAIN, "%s", error.text);
    else if (piece->cell.kind == CELL_COLOUR_DOSE)
        state_say_look(screen);
}

void edit_begin(struct recipe_screen *screen, const char *text)
{
    const struct piece *piece = state_piece(screen);
    struct cell_context context = state_context(screen);
    char now[FIELD_BYTES] = "";

    if (!piece || piece->act != ACT_EDIT)
        return;
    cell_text(&context, piece->cell, now, sizeof now);
    field_start(&screen->field, text ? text : now, FIELD_BYTES / 2 - 1);
    screen->editing = true;
    screen->bad = false;
    if (text)
        preview(screen);
    else
        desk_say(screen->top.desk, STYLE_PLAIN, "%s: Enter takes it, Esc leaves it as it was.",
                 cell_name(piece->cell.kind));
}

static void take(struct recipe_screen *screen)
{
    struct change changes[EDITOR_CHANGES];
    struct cell_context context = state_context(screen);
    const struct piece *piece = state_piece(screen);
    struct lw_error error;
    int n = 0;

    if (cell_read(&context, piece->cell, screen->field.text, changes, &n, &error) != LW_OK) {
        desk_say(screen->top.desk, STYLE_PLAIN, "%s", error.text);
        return;
    }
    screen->editing = false;
    if (state_apply(screen, changes, n) && piece->cell.kind == CELL_COLOUR_DOSE)
        state_say_look(screen);
}

static void leave(struct recipe_screen *screen)
{
    screen->editing = false;
    editor_preview_end(screen->editor);
}

bool edit_key(struct recipe_screen *screen, const struct key *key)
{
    enum field_result result;

    if (key->code == KEY_ESCAPE) {
        leave(screen);
        return true;
    }
    if (key->code == KEY_RETURN) {
        take(screen);
        return true;
    }
    /* Moving on takes what was typed, as in a spreadsheet; what cannot be read keeps the field open. */
    if (key->code == KEY_TAB || key->code == KEY_BACKTAB || key->code == KEY_ARROW_UP || key->code == KEY_ARROW_DOWN) {
        take(screen);
        if (!screen->editing)
            move_key(screen, key);
        return true;
    }
    result = field_key(&screen->field, key);
    if (result == FIELD_CHANGED)
        preview(screen);
    else if (result == FIELD_FULL)
        desk_say(screen->top.desk, STYLE_PLAIN, "No more fits here.");
    return true;
}

static bool check_asked(void *context, const char *text, char *note, size_t size)
{
    struct recipe_screen *screen = context;
    struct change changes[EDITOR_CHANGES];
    struct cell_context cell = state_context(screen);
    struct lw_error error = {""};
    int n = 0;

    if (cell_read(&cell, screen->asked, text, changes, &n, &error) == LW_OK)
        return true;
    text_copy(note, size, error.text);
    return false;
}

static void take_asked(void *context, const char *text)
{
    struct recipe_screen *screen = context;
    struct change changes[EDITOR_CHANGES];
    struct cell_context cell = state_context(screen);
    struct lw_error error = {""};
    int n = 0;

    if (cell_read(&cell, screen->asked, text, changes, &n, &error) == LW_OK)
        state_apply(screen, changes, n);
}

void edit_ask(struct recipe_screen *screen, struct cell cell)
{
    struct cell_context context = state_context(screen);
    char now[FIELD_BYTES] = "";

    screen->asked = cell;
    cell_text(&context, cell, now, sizeof now);
    ask_line(screen->top.desk, "Change", cell_name(cell.kind), now, LW_NAME_BYTES - 1, check_asked, take_asked, screen);
}
