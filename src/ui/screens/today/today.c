/* today.c - where a maker begins: four short lists (on the bench, cures due, findings that wait, recipes changed last), each line with
 * what Enter does about it; how to start, and in the demo the tour. */
#include <stdlib.h>

#include "base/text.h"
#include "ui/kit/ask.h"
#include "ui/kit/list.h"
#include "ui/kit/loop.h"
#include "ui/screens/dates.h"
#include "ui/screens/top.h"
#include "work/curing.h"
#include "work/waiting.h"

enum { LATEST = 9, CURES = 24, WAITING = 8, ROWS = 64, DAY_WIDTH = 10, TIMERS_WIDTH = 30 };

/* The lists, in their order; a row of the screen is the head of one, or the line of it with that index. */
enum short_list { ON_BENCH, CURES_DUE, WAITING_FINDINGS, LATEST_RECIPES, LISTS };
struct row {
    enum short_list list;
    bool head;
    int index;
};

static const char *const heads[LISTS] = {[ON_BENCH] = "On the bench",
                                         [CURES_DUE] = "Cures",
                                         [WAITING_FINDINGS] = "Findings that wait",
                                         [LATEST_RECIPES] = "Recipes changed last"};

struct today_screen {
    struct top top; /* first, for top_key */
    struct list list;
    int rows;
    struct row row[ROWS];
    int recipes, cures, waiting;
    struct recipe_line line[LATEST];
    struct cure_due cure[CURES];
    struct waiting finding[WAITING];
    int shown[LISTS];
    int first_row; /* of the lists on the screen */
    int room;      /* rows for them when last painted; 0: never */
    bool painted;
    bool looked; /* cures and findings were read: after the first paint, which does not wait for them */
};

static const char *const tour[] = {
    "Enter on \"Blossoms and leaves\": press + three times, once a blossom.",
    "n for the waiting base: type 3 g too much alkali, see what can be done.",
    "2, a recipe: on its superfat type 3, watch the band, then Esc.",
    "4, the book: / blossoms Enter, Space on 26-021 and 25-045, then c.",
    "L there: what the batches taught, like the grams that a blossom takes.",
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

static int batches(const struct today_screen *screen)
{
    return screen->top.running->board.batches;
}

static int length_of(const struct today_screen *screen, enum short_list list)
{
    const int length[LISTS] = {[ON_BENCH] = batches(screen),
                               [CURES_DUE] = screen->cures,
                               [WAITING_FINDINGS] = screen->waiting,
                               [LATEST_RECIPES] = screen->recipes};

    return length[list];
}

/* The longest list but `kept`; LISTS where none has more than a line to give. */
static enum short_list longest_but(const struct today_screen *screen, enum short_list kept)
{
    enum short_list longest = LISTS;
    int most = 1;

    for (int i = 0; i < LISTS; i++)
        if (i != (int)kept && screen->shown[i] > 1 && screen->shown[i] >= most) {
            longest = (enum short_list)i;
            most = screen->shown[i];
        }
    return longest;
}

/* Where there is no room for all, the longest list gives way first, so that each shows something; that of the selection last, so
 * that going on brings every line of it to view. What is still too much scrolls. */
static void share_room(struct today_screen *screen, enum short_list at)
{
    int needed = 0;

    for (int i = 0; i < LISTS; i++) {
        screen->shown[i] = length_of(screen, (enum short_list)i);
        needed += screen->shown[i] + (screen->shown[i] > 0);
    }
    for (; screen->room > 0 && needed > screen->room; needed--) {
        enum short_list longest = longest_but(screen, at);

        if (longest == LISTS)
            return;
        screen->shown[longest]--;
    }
}

/* A list with its head, unless it is empty. */
static void add_rows(struct today_screen *screen, enum short_list list)
{
    if (screen->shown[list] > 0 && screen->rows < ROWS)
        screen->row[screen->rows++] = (struct row){list, true, 0};
    for (int i = 0; i < screen->shown[list] && screen->rows < ROWS; i++)
        screen->row[screen->rows++] = (struct row){list, false, i};
}

static bool at_head(const struct today_screen *screen)
{
    return screen->list.selected < screen->rows && screen->row[screen->list.selected].head;
}

/* The selection stands on the same line as before, wherever it has moved to; heads cannot be selected. */
static void arrange(struct today_screen *screen)
{
    struct row was = screen->list.selected < screen->rows ? screen->row[screen->list.selected]
                                                          : (struct row){.head = true};

    screen->rows = 0;
    share_room(screen, was.head ? ON_BENCH : was.list);
    for (int i = 0; i < LISTS; i++)
        add_rows(screen, (enum short_list)i);
    list_count(&screen->list, screen->rows);
    for (int i = 0; i < screen->rows && !was.head; i++)
        if (!screen->row[i].head && screen->row[i].list == was.list && screen->row[i].index == was.index)
            screen->list.selected = i;
    if (at_head(screen) && screen->list.selected + 1 < screen->rows)
        screen->list.selected++;
}

static void say(const struct today_screen *screen, enum lw_status status, const struct lw_error *error)
{
    if (status != LW_OK)
        desk_say(screen->top.desk, STYLE_STOP, "%s", error->text);
}

/* What takes reading records for: the book is brought up to date first. */
static void look(struct today_screen *screen)
{
    struct workshop *workshop = screen->top.workshop;
    struct lw_now now = workshop_now(workshop);
    struct lw_error error = {""};

    screen->looked = true;
    say(screen, workshop_learn(workshop, &error), &error);
    say(screen, curing_due(workshop, &now, screen->cure, CURES, &screen->cures, &error), &error);
    say(screen, waiting_findings(workshop, screen->finding, WAITING, &screen->waiting, &error), &error);
}

static void read_lines(void *state)
{
    struct today_screen *screen = state;
    struct lw_error error = {""};

    screen->recipes = 0;
    say(screen,
        recipes_each(workshop_store(screen->top.workshop), "", false, RECIPES_NEWEST, take_line, screen, &error),
        &error);
    screen->looked = false;
    arrange(screen);
}

/* What was left for after the first paint is due at once. */
static int wait_ms(void *state)
{
    return ((struct today_screen *)state)->looked ? LOOP_NEVER : 0;
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

static void paint_bench(const struct today_screen *screen, int index, uint16_t style, const struct canvas *line)
{
    const struct batch_line *batch = &screen->top.running->board.line[index];

    canvas_print(line, 0, canvas_text(line, 0, 1, style, batch->name), STYLE_PLAIN, "   batch %s", batch->number);
    paint_timers(screen, batch->id, line);
}

static void paint_cure(const struct today_screen *screen, int index, uint16_t style, const struct canvas *line)
{
    const struct cure_due *due = &screen->cure[index];

    canvas_print(line, 0, canvas_text(line, 0, 1, style, due->number), STYLE_PLAIN, "  %s: %s", due->name, due->text);
}

static void paint_finding(const struct today_screen *screen, int index, uint16_t style, const struct canvas *line)
{
    const struct waiting *waiting = &screen->finding[index];
    struct canvas rest;
    int col;

    canvas_text(line, 0, 1, waiting->level == LEVEL_STOP ? STYLE_STOP : STYLE_CAUTION,
                waiting->level == LEVEL_STOP ? "!!" : "!");
    col = canvas_text(line, 0, 4, style, waiting->name);
    rest = canvas_part(line, 0, col + 2, 1, line->cols - col - 3);
    canvas_span(&rest, 0, 0, rest.cols, STYLE_PLAIN, waiting->what);
}

static void paint_recipe(const struct today_screen *screen, int index, uint16_t style, const struct canvas *line)
{
    char day[DATE_BYTES];

    date_of(day, screen->line[index].changed_s, workshop_now(screen->top.workshop).offset_s);
    canvas_text(line, 0, 1, STYLE_PLAIN, day);
    canvas_text(line, 0, DAY_WIDTH + 3, style, screen->line[index].name);
}

/* With how many lines come to view once the selection is in the list. */
static void paint_head(const struct today_screen *screen, enum short_list list, const struct canvas *line)
{
    int col = canvas_text(line, 0, 0, STYLE_TITLE, heads[list]), hidden = length_of(screen, list) - screen->shown[list];

    if (hidden > 0)
        canvas_print(line, 0, col, STYLE_PLAIN, "   and %d more", hidden);
}

static void paint_row(void *context, int index, bool selected, const struct canvas *line)
{
    static void (*const painters[LISTS])(const struct today_screen *, int, uint16_t,
                                         const struct canvas *) = {[ON_BENCH] = paint_bench,
                                                                   [CURES_DUE] = paint_cure,
                                                                   [WAITING_FINDINGS] = paint_finding,
                                                                   [LATEST_RECIPES] = paint_recipe};
    const struct today_screen *screen = context;
    const struct row *row = &screen->row[index];

    if (row->head)
        paint_head(screen, row->list, line);
    else
        painters[row->list](screen, row->index, selected ? STYLE_CURSOR : STYLE_PLAIN, line);
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

static bool nothing(const struct today_screen *screen)
{
    for (int i = 0; i < LISTS; i++)
        if (length_of(screen, (enum short_list)i) > 0)
            return false;
    return true;
}

static void paint(void *state, const struct canvas *body)
{
    struct today_screen *screen = state;
    struct canvas rows;
    int row = 1;

    if (screen->painted && !screen->looked)
        look(screen);
    screen->painted = true;
    if (screen->top.demo)
        paint_lines(body, "A tour of two minutes", tour, sizeof tour / sizeof *tour, &row);
    else if (nothing(screen))
        paint_lines(body, "Nothing is recorded yet", beginning, sizeof beginning / sizeof *beginning, &row);
    screen->first_row = row;
    screen->room = body->rows - row;
    arrange(screen);
    rows = canvas_part(body, row, 0, body->rows - row, body->cols);
    list_paint(&screen->list, &rows, paint_row, screen);
}

/* A finding is a sentence or two, for which a line has no room: the one that is marked stands whole below. */
static void say_whole(const struct today_screen *screen)
{
    const struct row *row = &screen->row[screen->list.selected];
    const struct waiting *waiting = &screen->finding[row->index];

    if (screen->rows > 0 && !row->head && row->list == WAITING_FINDINGS)
        desk_say(screen->top.desk, STYLE_PLAIN, "%s: %s", waiting->name, waiting->what);
}

/* Over a head the selection goes on as it went; upwards to the last line of the list above, which may not have been in view. */
static bool move(struct today_screen *screen, const struct key *key)
{
    int was = screen->list.selected;

    if (!list_key(&screen->list, key))
        return false;
    if (at_head(screen) && screen->list.selected < was && screen->list.selected > 0) {
        struct row *row = &screen->row[--screen->list.selected];

        row->index = length_of(screen, row->list) - 1;
        arrange(screen);
    } else if (at_head(screen)) {
        screen->list.selected++;
    }
    say_whole(screen);
    return true;
}

static bool take_key(void *state, const struct key *key)
{
    struct today_screen *screen = state;

    if (key->code == KEY_CLICK) {
        int index = list_at(&screen->list, key->row - 1 - screen->first_row);

        if (index >= 0 && !screen->row[index].head)
            screen->list.selected = index;
        say_whole(screen);
        return index >= 0;
    }
    return move(screen, key) || top_key(&screen->top, key);
}

static const char *nothing_chosen(void *state)
{
    return ((struct today_screen *)state)->rows > 0 ? NULL : "There is no recipe yet; n starts one.";
}

static void open_chosen(void *state, const struct key *key)
{
    struct today_screen *screen = state;
    const struct row row = screen->row[screen->list.selected];

    (void)key;
    switch (row.list) {
    case ON_BENCH:
        bench_open(&screen->top, screen->top.running->board.line[row.index].id);
        break;
    case CURES_DUE:
        batch_open(&screen->top, screen->cure[row.index].batch_id);
        break;
    case WAITING_FINDINGS:
        top_open_findings(&screen->top, screen->finding[row.index].recipe_id);
        break;
    case LATEST_RECIPES:
        top_open_recipe(&screen->top, screen->line[row.index].id);
        break;
    case LISTS:
        break;
    }
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
        {"Enter", "open", "Opens the batch, recipe or findings of the line.", open_chosen, nothing_chosen},
        {"n", "new recipe", "Starts a new recipe.", make_new, NULL},
        {"2", "Recipes", "Lists all recipes.", NULL, NULL},
        {"3", "Bench", "Goes to the batch that is being made.", NULL, NULL},
        {"4", "Batches", "The book of all batches: find, compare, plot, learn.", NULL, NULL},
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
                                        .wait_ms = wait_ms,
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
