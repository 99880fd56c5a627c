/* recipes.c - the list of recipes: open, new, duplicate, archive; filter and order. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "base/utf8.h"
#include "lyeway/names.h"
#include "ui/kit/ask.h"
#include "ui/kit/field.h"
#include "ui/kit/list.h"
#include "ui/screens/dates.h"
#include "ui/screens/top.h"

enum { RECIPES_MOST = 1000, DAY_WIDTH = 10, PURPOSE_WIDTH = 9, KEPT_WIDTH = 14, OILS_WIDTH = 6 };

struct recipes_screen {
    struct top top; /* first, for top_key */
    struct list list;
    struct recipe_line line[RECIPES_MOST];
    enum recipes_order order;
    bool archived, filtering, more;
    struct field filter;
};

static bool take_line(void *context, const struct recipe_line *line)
{
    struct recipes_screen *screen = context;

    if (screen->list.count == RECIPES_MOST) {
        screen->more = true;
        return false;
    }
    screen->line[screen->list.count++] = *line;
    return true;
}

static void read_lines(struct recipes_screen *screen)
{
    struct lw_error error;

    screen->list.count = 0;
    screen->more = false;
    if (recipes_each(workshop_store(screen->top.workshop), screen->filter.text, screen->archived, screen->order,
                     take_line, screen, &error) != LW_OK)
        desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
    list_count(&screen->list, screen->list.count);
}

static const struct recipe_line *chosen(const struct recipes_screen *screen)
{
    return screen->list.count > 0 ? &screen->line[screen->list.selected] : NULL;
}

static void where(void *state, char *out, size_t size)
{
    text_copy(out, size, ((struct recipes_screen *)state)->archived ? "Recipes > archived" : "Recipes");
}

static void paint_row(void *context, int index, bool selected, const struct canvas *line)
{
    const struct recipes_screen *screen = context;
    const struct recipe_line *recipe = &screen->line[index];
    int right = line->cols - DAY_WIDTH - PURPOSE_WIDTH - KEPT_WIDTH - 2 * OILS_WIDTH - 5;
    struct canvas name = canvas_part(line, 0, 0, 1, right);
    char day[DATE_BYTES], shown[LW_NAME_BYTES];

    utf8_clean(shown, sizeof shown, recipe->name, (size_t)right);
    canvas_text(&name, 0, 0, selected ? STYLE_CURSOR : STYLE_PLAIN, shown);
    date_of(day, recipe->changed_s, workshop_now(screen->top.workshop).offset_s);
    canvas_text(line, 0, right + 1, STYLE_PLAIN, day);
    canvas_text(line, 0, right + DAY_WIDTH + 2, STYLE_PLAIN, name_of_purpose(recipe->purpose));
    canvas_print(line, 0, right + DAY_WIDTH + PURPOSE_WIDTH + 3, STYLE_PLAIN, "%*d %*d", OILS_WIDTH - 1, recipe->oils,
                 OILS_WIDTH - 1, recipe->portions);
    canvas_print(line, 0, right + DAY_WIDTH + PURPOSE_WIDTH + 2 * OILS_WIDTH + 4, STYLE_PLAIN,
                 recipe->revisions == 0 ? "draft"
                 : recipe->changed      ? "%d and draft"
                                        : "%d",
                 recipe->revisions);
}

static void paint_heading(const struct canvas *canvas)
{
    int right = canvas->cols - 1 - DAY_WIDTH - PURPOSE_WIDTH - KEPT_WIDTH - 2 * OILS_WIDTH - 5;

    canvas_text(canvas, 0, 1, STYLE_TITLE, "name");
    canvas_text(canvas, 0, right + 2, STYLE_PLAIN, "changed");
    canvas_text(canvas, 0, right + DAY_WIDTH + 3, STYLE_PLAIN, "purpose");
    canvas_print(canvas, 0, right + DAY_WIDTH + PURPOSE_WIDTH + 4, STYLE_PLAIN, "%*s %*s", OILS_WIDTH - 1, "oils",
                 OILS_WIDTH, "split");
    canvas_text(canvas, 0, right + DAY_WIDTH + PURPOSE_WIDTH + 2 * OILS_WIDTH + 5, STYLE_PLAIN, "revision");
}

static void paint_empty(const struct recipes_screen *screen, const struct canvas *body)
{
    struct canvas text = canvas_part(body, 2, 1, 8, body->cols - 2);

    if (screen->filter.text[0])
        canvas_print(&text, 0, 0, STYLE_PLAIN, "No recipe's name has \"%s\" in it. Esc shows all again.",
                     screen->filter.text);
    else if (screen->archived)
        canvas_text(&text, 0, 0, STYLE_PLAIN, "No recipe is archived. A goes back.");
    else
        canvas_wrap(&text, 0, 4, STYLE_PLAIN,
                    "No recipe yet. n starts one: give it a name, add oils, and the lye follows.");
}

static void paint(void *state, const struct canvas *body)
{
    struct recipes_screen *screen = state;
    struct canvas rows = canvas_part(body, 2, 0, body->rows - 2, body->cols);

    if (screen->filtering)
        field_paint(&screen->filter, body, 0, 1, 40);
    else if (screen->filter.text[0])
        canvas_print(body, 0, 1, STYLE_PLAIN, "/ %s", screen->filter.text);
    canvas_print(body, 0, body->cols - 26, STYLE_PLAIN, "%5d%s, %s", screen->list.count, screen->more ? "+" : "",
                 screen->order == RECIPES_NEWEST ? "newest first" : "by name");
    if (screen->list.count == 0) {
        paint_empty(screen, body);
        return;
    }
    rows = canvas_part(body, 1, 0, 1, body->cols);
    paint_heading(&rows);
    rows = canvas_part(body, 2, 0, body->rows - 2, body->cols);
    list_paint(&screen->list, &rows, paint_row, screen);
}

static bool filter_key(struct recipes_screen *screen, const struct key *key)
{
    if (key->code == KEY_ESCAPE) {
        field_start(&screen->filter, "", FIELD_BYTES - 1);
        screen->filtering = false;
        read_lines(screen);
    } else if (key->code == KEY_RETURN)
        screen->filtering = false;
    else if (key->code == KEY_ARROW_UP || key->code == KEY_ARROW_DOWN)
        list_key(&screen->list, key);
    else if (field_key(&screen->filter, key) == FIELD_CHANGED)
        read_lines(screen);
    return true;
}

static bool take_key(void *state, const struct key *key)
{
    struct recipes_screen *screen = state;

    if (screen->filtering)
        return filter_key(screen, key);
    if (key->code == KEY_CLICK) {
        int index = list_at(&screen->list, key->row - 3);

        if (index >= 0)
            screen->list.selected = index;
        return index >= 0;
    }
    return list_key(&screen->list, key) || top_key(&screen->top, key);
}

static const char *nothing_chosen(void *state)
{
    return chosen(state) ? NULL : "There is no recipe here; n starts one.";
}

static void open_chosen(void *state, const struct key *key)
{
    struct recipes_screen *screen = state;

    (void)key;
    top_open_recipe(&screen->top, chosen(screen)->id);
}

static void start_batch(void *state, const struct key *key)
{
    struct recipes_screen *screen = state;

    (void)key;
    start_open(&screen->top, chosen(screen)->id, 0);
}

static void filter(void *state, const struct key *key)
{
    (void)key;
    ((struct recipes_screen *)state)->filtering = true;
}

static void clear_or_leave(void *state, const struct key *key)
{
    struct recipes_screen *screen = state;

    (void)key;
    if (screen->filter.text[0]) {
        field_start(&screen->filter, "", FIELD_BYTES - 1);
        read_lines(screen);
        return;
    }
    desk_pop(screen->top.desk);
}

static bool good_name(void *context, const char *text, char *note, size_t size)
{
    (void)context;
    text_copy(note, size, text[0] ? "Enter makes it and opens it." : "A recipe needs a name.");
    return text[0] != '\0';
}

static void named(void *context, const char *text)
{
    top_new_recipe(&((struct recipes_screen *)context)->top, text);
}

static void make_new(void *state, const struct key *key)
{
    struct recipes_screen *screen = state;

    (void)key;
    ask_line(screen->top.desk, "A new recipe", "What is it called?", "", LW_NAME_BYTES - 1, good_name, named, screen);
}

/* A copy is a recipe of its own: new uuid, no revisions. */
static void duplicate(void *state, const struct key *key)
{
    struct recipes_screen *screen = state;
    struct store *store = workshop_store(screen->top.workshop);
    struct lw_now now = workshop_now(screen->top.workshop);
    struct recipe recipe;
    struct lw_error error;
    char name[LW_NAME_BYTES] = "";
    int64_t id;

    (void)key;
    if (recipes_load(store, chosen(screen)->id, 0, &recipe, NULL, &error) != LW_OK) {
        desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
        return;
    }
    text_add(name, sizeof name, "%s, copy", recipe.name);
    text_copy(recipe.name, sizeof recipe.name, name);
    memset(recipe.uuid, 0, sizeof recipe.uuid);
    recipe.revision = 0;
    if (recipes_create(store, &recipe, &now, &id, &error) != LW_OK)
        desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
    else {
        read_lines(screen);
        desk_say(screen->top.desk, STYLE_PLAIN, "Copied as \"%s\".", recipe.name);
    }
}

static void archive(void *state, const struct key *key)
{
    struct recipes_screen *screen = state;
    struct lw_now now = workshop_now(screen->top.workshop);
    const struct recipe_line line = *chosen(screen);
    struct lw_error error;

    (void)key;
    if (recipes_archive(workshop_store(screen->top.workshop), line.id, !screen->archived, &now, &error) != LW_OK) {
        desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
        return;
    }
    read_lines(screen);
    desk_say(screen->top.desk, STYLE_PLAIN,
             screen->archived ? "\"%s\" is back in the list; A shows it."
                              : "\"%s\" is archived, not lost; A shows the archived ones.",
             line.name);
}

static void show_archived(void *state, const struct key *key)
{
    struct recipes_screen *screen = state;

    (void)key;
    screen->archived = !screen->archived;
    read_lines(screen);
}

static void reorder(void *state, const struct key *key)
{
    struct recipes_screen *screen = state;

    (void)key;
    screen->order = screen->order == RECIPES_NEWEST ? RECIPES_BY_NAME : RECIPES_NEWEST;
    read_lines(screen);
}

static const struct action *actions_of(void *state, size_t *count)
{
    static const struct action usual[] = {
        {"Enter", "open", "Opens the recipe.", open_chosen, nothing_chosen},
        {"n", "new", "Starts a new recipe.", make_new, NULL},
        {"b", "batch", "Starts a batch of the recipe on the bench.", start_batch, nothing_chosen},
        {"/", "filter", "Shows only recipes whose name has what you type.", filter, NULL},
        {"d", "duplicate", "Makes a copy that is a recipe of its own.", duplicate, nothing_chosen},
        {"x Del", "archive", "Archives the recipe, or brings an archived one back.", archive, nothing_chosen},
        {"A", NULL, "Shows the archived recipes, or the others again.", show_archived, NULL},
        {"s", "order", "Sorts by name or newest first.", reorder, NULL},
        {"1 2 3 4 S", NULL, "Today, Recipes, Bench, Batches, Settings.", NULL, NULL},
        {"Esc", "back", "Shows all recipes again, or goes back to Today.", clear_or_leave, NULL},
    };
    static const struct action filtering[] = {
        {"Enter", "keep the filter", "Keeps the filter and goes to the list.", NULL, NULL},
        {"Esc", "show all", "Shows all recipes again.", NULL, NULL},
    };
    bool field = ((struct recipes_screen *)state)->filtering;

    *count = field ? sizeof filtering / sizeof *filtering : sizeof usual / sizeof *usual;
    return field ? filtering : usual;
}

static void news(void *state)
{
    read_lines(state);
}

void recipes_open(const struct top *top)
{
    static const struct view_ops ops = {.title = "Recipes",
                                        .where = where,
                                        .paint = paint,
                                        .key = take_key,
                                        .actions = actions_of,
                                        .shown = news,
                                        .news = news,
                                        .closed = free};
    struct recipes_screen *screen = calloc(1, sizeof *screen);

    if (!screen) {
        desk_say(top->desk, STYLE_STOP, "There is no memory left for the list.");
        return;
    }
    screen->top = *top;
    screen->order = RECIPES_NEWEST;
    field_start(&screen->filter, "", FIELD_BYTES - 1);
    read_lines(screen);
    desk_switch(top->desk, &ops, screen);
}
