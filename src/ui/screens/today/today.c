/* today.c - where a maker begins: the batches on the bench, how to start, the recipes changed last, and in the demo the tour. */
#include <stdlib.h>

#include "base/text.h"
#include "ui/kit/ask.h"
#include "ui/kit/list.h"
#include "ui/screens/dates.h"
#include "ui/screens/top.h"

enum { LATEST = 9, DAY_WIDTH = 10, TIMERS_WIDTH = 30 };

struct today_screen {
    struct top top; /* first, for top_key */
    struct list list;
    int recipes;
    struct recipe_line line[LATEST];
};

static const char *const tour[] = {
    "Enter on \"Blossoms and leaves\": + counts a blossom, so press it three times.",
    "n goes to the base that waits: give it 3 g more alkali than asked, and see what can be done.",
    "Open a recipe (2), put the cursor on its superfat, type 3, watch the band, then Esc.",
    "4 is the book: / blossoms Enter, Space on two whose windows differ, then c says why.",
    "L in the book says what all of them taught: how many grams a blossom really takes.",
};

static const char *const beginning[] = {
    "n starts a recipe: give it a name, add oils, and the lye follows at every key.",
    "2 lists the recipes. ? says what the keys do, wherever you are.",
    "To look around first, leave with q and start lyeway --demo: made-up records, thrown away after.",
};

static bool take_line(void *context, const struct recipe_line *line)
{
    struct today_screen *screen = context;

    screen->line[screen->recipes++] = *line;
    return screen->recipes < LATEST;
}

/* Batches on the bench stand before the recipes. */
static int batches(const struct today_screen *screen)
{
    return screen->top.running->board.batches;
}

static void read_lines(void *state)
{
    struct today_screen *screen = state;
    struct lw_error error;

    screen->recipes = 0;
    if (recipes_each(workshop_store(screen->top.workshop), "", false, RECIPES_NEWEST, take_line, screen, &error) !=
        LW_OK)
        desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
    list_count(&screen->list, batches(screen) + screen->recipes);
}

static void where(void *state, char *out, size_t size)
{
    text_copy(out, size, ((struct today_screen *)state)->top.demo ? "Today   made-up records of the demo" : "Today");
}

/* The timers of one batch, the soonest first, as the first line writes them. */
static void paint_timers(const struct today_screen *screen, int64_t batch, const struct canvas *line)
{
    const struct board *board = &screen->top.running->board;
    struct board own = {.batches = 1};
    char text[TIMERS_WIDTH * 4];

    for (int i = 0; i < board->timers; i++)
        if (board->timer[i].batch == batch)
            own.timer[own.timers++] = board->timer[i];
    board_status(&own, workshop_now(screen->top.workshop).utc_s, TIMERS_WIDTH, text, sizeof text);
    canvas_span_right(line, 0, line->cols - TIMERS_WIDTH - 1, TIMERS_WIDTH, STYLE_STRONG, text);
}

static void paint_row(void *context, int index, bool selected, const struct canvas *line)
{
    const struct today_screen *screen = context;
    struct canvas name = canvas_part(line, 0, DAY_WIDTH + 2, 1, line->cols - DAY_WIDTH - 2);
    const struct batch_line *batch = &screen->top.running->board.line[index];
    uint16_t style = selected ? STYLE_CURSOR : STYLE_PLAIN;
    char day[DATE_BYTES];

    if (index < batches(screen)) {
        canvas_text(line, 0, 0, STYLE_STRONG, "on bench");
        canvas_print(&name, 0, canvas_text(&name, 0, 0, style, batch->name), STYLE_PLAIN, "   batch %s", batch->number);
        paint_timers(screen, batch->id, line);
        return;
    }
    index -= batches(screen);
    date_of(day, screen->line[index].changed_s, workshop_now(screen->top.workshop).offset_s);
    canvas_text(line, 0, 0, STYLE_PLAIN, day);
    canvas_text(&name, 0, 0, style, screen->line[index].name);
}

static void paint_lines(const struct canvas *body, const char *title, const char *const lines[], int count, int *row)
{
    canvas_text(body, (*row)++, 1, STYLE_TITLE, title);
    for (int i = 0; i < count; i++) {
        struct canvas text = canvas_part(body, *row, 5, body->rows - *row, body->cols - 6);

        canvas_print(body, *row, 2, STYLE_PLAIN, "%d", i + 1);
        *row += canvas_wrap(&text, 0, 3, STYLE_PLAIN, lines[i]);
    }
    (*row)++;
}

static void paint(void *state, const struct canvas *body)
{
    struct today_screen *screen = state;
    struct canvas rows;
    int row = 1;

    list_count(&screen->list, batches(screen) + screen->recipes);
    if (screen->top.demo)
        paint_lines(body, "A tour of two minutes", tour, sizeof tour / sizeof *tour, &row);
    else if (screen->list.count == 0)
        paint_lines(body, "Nothing is recorded yet", beginning, sizeof beginning / sizeof *beginning, &row);
    if (screen->list.count == 0)
        return;
    canvas_text(body, row++, 1, STYLE_TITLE,
                batches(screen) > 0 ? "On the bench, and recipes changed last" : "Recipes changed last");
    rows = canvas_part(body, row, 0, body->rows - row, body->cols);
    list_paint(&screen->list, &rows, paint_row, screen);
}

static bool take_key(void *state, const struct key *key)
{
    struct today_screen *screen = state;

    return list_key(&screen->list, key) || top_key(&screen->top, key);
}

static const char *nothing_chosen(void *state)
{
    return ((struct today_screen *)state)->list.count > 0 ? NULL : "There is no recipe yet; n starts one.";
}

static void open_chosen(void *state, const struct key *key)
{
    struct today_screen *screen = state;

    (void)key;
    if (screen->list.selected < batches(screen))
        bench_open(&screen->top, screen->top.running->board.line[screen->list.selected].id);
    else
        top_open_recipe(&screen->top, screen->line[screen->list.selected - batches(screen)].id);
}

static void named(void *context, const char *text)
{
    top_new_recipe(&((struct today_screen *)context)->top, text);
}

static bool good_name(void *context, const char *text, char *note, size_t size)
{
    (void)context;
    text_copy(note, size, text[0] ? "Enter makes it and opens it." : "A recipe needs a name.");
    return text[0] != '\0';
}

static void make_new(void *state, const struct key *key)
{
    struct today_screen *screen = state;

    (void)key;
    ask_line(screen->top.desk, "A new recipe", "What is it called?", "", LW_NAME_BYTES - 1, good_name, named, screen);
}

static const struct action *actions_of(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"Enter", "open", "Opens the batch or recipe that is marked.", open_chosen, nothing_chosen},
        {"n", "new recipe", "Starts a new recipe.", make_new, NULL},
        {"2", "Recipes", "Lists all recipes.", NULL, NULL},
        {"3", "Bench", "Goes to the batch that is being made.", NULL, NULL},
        {"S", "settings", "Units, scales, vessels, names for labels, and what new recipes begin with.", NULL, NULL},
        {"q", "leave", "Leaves; everything is saved already.", NULL, NULL},
    };

    (void)state;
    *count = sizeof actions / sizeof *actions;
    return actions;
}

void today_open(const struct top *top)
{
    static const struct view_ops ops = {.title = "Today",
                                        .where = where,
                                        .paint = paint,
                                        .key = take_key,
                                        .actions = actions_of,
                                        .shown = read_lines,
                                        .news = read_lines,
                                        .closed = free};
    struct today_screen *screen = calloc(1, sizeof *screen);

    if (!screen)
        return;
    screen->top = *top;
    read_lines(screen);
    desk_push(top->desk, &ops, screen);
}
