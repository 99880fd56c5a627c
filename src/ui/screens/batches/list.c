/* list.c - the book: every batch a line, found by words, in the orders that are offered, a page of a long book at a time. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "base/utf8.h"
#include "ui/kit/field.h"
#include "ui/kit/list.h"
#include "ui/screens/batches/batches.h"
#include "ui/screens/batches/lines.h"

enum { COUNT_MOST = 1000, HEAD_ROWS = 2 };

struct book_screen {
    struct top top; /* first, for top_key */
    struct list list;
    struct book_list book;
    int found; /* that the filter finds, up to COUNT_MOST + 1 */
    int all;   /* in the whole book, likewise */
    int64_t marked[BOOK_COMPARED];
    int marks;
    bool filtering;
    struct field filter;
    struct lw_error not_understood; /* what is wrong with the filter; "": nothing */
    struct left_out left_out;
};

/* ---- reading */

static void say(const struct book_screen *screen, enum lw_status status, const struct lw_error *error)
{
    if (status != LW_OK)
        desk_say(screen->top.desk, STYLE_STOP, "%s", error->text);
}

static void count(struct book_screen *screen)
{
    const struct book_filter all = {.terms = 0};
    struct store *store = workshop_store(screen->top.workshop);
    struct lw_error error = {""};

    say(screen, book_count(store, &screen->book.filter, COUNT_MOST + 1, &screen->found, &error), &error);
    say(screen, book_count(store, &all, COUNT_MOST + 1, &screen->all, &error), &error);
}

/* The batch whose number is typed comes first to hand, though others hold its pieces. */
static void select_number(struct book_screen *screen)
{
    for (int i = 0; i < screen->book.count; i++)
        if (text_same(screen->book.line[i].number, screen->filter.text))
            screen->list.selected = i;
}

/* From the beginning, by the filter as it is typed. */
static void read_first(struct book_screen *screen)
{
    struct lw_error error = {""};

    screen->not_understood = error;
    book_filter_read(screen->filter.text, workshop_now(screen->top.workshop).offset_s, &screen->book.filter,
                     &screen->not_understood);
    say(screen, book_list_first(screen->top.workshop, &screen->book, &error), &error);
    count(screen);
    screen->list.selected = screen->list.top = 0;
    list_count(&screen->list, screen->book.count);
    select_number(screen);
}

static const struct book_line *chosen(const struct book_screen *screen)
{
    return screen->book.count > 0 ? &screen->book.line[screen->list.selected] : NULL;
}

static void learn(struct book_screen *screen)
{
    struct lw_error error = {""};

    say(screen, workshop_learn(screen->top.workshop, &error), &error);
}

/* The records may have grown: the book is brought up to date, and the selection stays on its batch. */
static void read_again(void *state)
{
    struct book_screen *screen = state;
    const struct book_line *line = chosen(screen);
    int64_t id = line ? line->id : 0;
    int row = screen->list.selected - screen->list.top;
    struct lw_error error = {""};

    learn(screen);
    say(screen, book_list_again(screen->top.workshop, &screen->book, &error), &error);
    count(screen);
    list_count(&screen->list, screen->book.count);
    for (int i = 0; i < screen->book.count; i++)
        if (screen->book.line[i].id == id) {
            screen->list.selected = i;
            screen->list.top = i - row;
        }
}

/* ---- painting */

static bool marked(const struct book_screen *screen, int64_t id)
{
    for (int i = 0; i < screen->marks; i++)
        if (screen->marked[i] == id)
            return true;
    return false;
}

static void paint_row(void *context, int index, bool selected, const struct canvas *line)
{
    const struct book_screen *screen = context;
    const struct book_line *batch = &screen->book.line[index];

    lines_paint(line, batch, workshop_settings(screen->top.workshop), selected, marked(screen, batch->id));
}

static const char *const order_names[BOOK_ORDERS] = {
    [BOOK_NEWEST] = "newest first",       [BOOK_BY_RECIPE] = "by recipe",     [BOOK_BY_SUPERFAT] = "by superfat",
    [BOOK_BY_REJECTS] = "fewest rejects", [BOOK_BY_EACH] = "lightest pieces", [BOOK_BY_WINDOW] = "shortest window"};

/* "120", "1000+": beyond that nobody waits for the count. */
static void add_count(char *out, size_t size, int n)
{
    text_add(out, size, "%d%s", n > COUNT_MOST ? COUNT_MOST : n, n > COUNT_MOST ? "+" : "");
}

static void paint_head(struct book_screen *screen, const struct canvas *body)
{
    char found[64] = "", filter[FILTER_BYTES + 2] = "";
    int right;

    if (screen->marks > 0)
        text_add(found, sizeof found, "%d marked   ", screen->marks);
    add_count(found, sizeof found, screen->found);
    if (screen->filter.text[0]) {
        text_add(found, sizeof found, " of ");
        add_count(found, sizeof found, screen->all);
    }
    text_add(found, sizeof found, ", %s", order_names[screen->book.order]);
    right = (int)utf8_columns(found);
    canvas_text(body, 0, body->cols - 1 - right, STYLE_PLAIN, found);
    if (screen->filter.text[0])
        text_add(filter, sizeof filter, "/ %s", screen->filter.text);
    if (screen->filtering)
        field_paint(&screen->filter, body, 0, 1, body->cols - right - 4);
    else
        canvas_span(body, 0, 1, body->cols - right - 4, STYLE_PLAIN, filter);
}

static void paint_empty(const struct book_screen *screen, const struct canvas *body)
{
    struct canvas text = canvas_part(body, HEAD_ROWS, 1, 6, body->cols - 2);

    if (screen->not_understood.text[0])
        canvas_wrap(&text, 0, 3, STYLE_PLAIN, screen->not_understood.text);
    else if (screen->filter.text[0] && screen->found == 0)
        canvas_print(&text, 0, 0, STYLE_PLAIN, "No batch has all of \"%s\". Esc shows all again.", screen->filter.text);
    else if (screen->all > 0)
        canvas_wrap(&text, 0, 3, STYLE_PLAIN,
                    "None of these batches has that figure on record; s takes another order.");
    else
        canvas_wrap(
            &text, 0, 3, STYLE_PLAIN,
            "No batch yet. Start one from a recipe with b; what is weighed and stamped on the bench is kept here.");
}

static void paint(void *state, const struct canvas *body)
{
    struct book_screen *screen = state;
    struct canvas rows = canvas_part(body, 1, 0, 1, body->cols), about;

    paint_head(screen, body);
    if (screen->book.count == 0) {
        paint_empty(screen, body);
        return;
    }
    lines_heading(&rows, workshop_settings(screen->top.workshop));
    rows = canvas_part(body, HEAD_ROWS, 0, body->rows - HEAD_ROWS - LINES_ABOUT_ROWS, body->cols);
    list_paint(&screen->list, &rows, paint_row, screen);
    about = canvas_part(body, body->rows - LINES_ABOUT_ROWS, 1, LINES_ABOUT_ROWS, body->cols - 2);
    lines_about(&about, chosen(screen), workshop_settings(screen->top.workshop));
}

/* ---- moving */

/* More of the book is read before the selection comes to an end of what is in memory. */
static void read_on(struct book_screen *screen)
{
    struct lw_error error = {""};
    int shift, margin = screen->list.rows > 0 ? screen->list.rows : 1;
    bool back = screen->list.selected < margin && screen->book.more_before;
    bool on = screen->list.selected >= screen->book.count - margin && screen->book.more_after;

    if (!back && !on)
        return;
    say(screen, book_list_on(screen->top.workshop, &screen->book, back, &shift, &error), &error);
    screen->list.selected -= shift;
    screen->list.top -= shift;
    list_count(&screen->list, screen->book.count);
}

/* Home and End go to the ends of the whole book. */
static bool to_end(struct book_screen *screen, const struct key *key)
{
    struct lw_error error = {""};

    if (key->code == KEY_TO_START && screen->book.more_before) {
        say(screen, book_list_first(screen->top.workshop, &screen->book, &error), &error);
        screen->list.selected = 0;
    } else if (key->code == KEY_TO_END && screen->book.more_after) {
        say(screen, book_list_last(screen->top.workshop, &screen->book, &error), &error);
        screen->list.selected = screen->book.count - 1;
    } else {
        return false;
    }
    list_count(&screen->list, screen->book.count);
    return true;
}

static bool move(struct book_screen *screen, const struct key *key)
{
    if (to_end(screen, key))
        return true;
    if (!list_key(&screen->list, key))
        return false;
    read_on(screen);
    return true;
}

static bool filter_key(struct book_screen *screen, const struct key *key)
{
    if (key->code == KEY_ESCAPE) {
        field_start(&screen->filter, "", FILTER_BYTES - 1);
        screen->filtering = false;
        read_first(screen);
    } else if (key->code == KEY_RETURN) {
        screen->filtering = false;
    } else if (key->code == KEY_ARROW_UP || key->code == KEY_ARROW_DOWN) {
        move(screen, key);
    } else if (field_key(&screen->filter, key) == FIELD_CHANGED) {
        read_first(screen);
    }
    return true;
}

static bool take_key(void *state, const struct key *key)
{
    struct book_screen *screen = state;

    if (screen->filtering)
        return filter_key(screen, key);
    if (key->code == KEY_CLICK) {
        int index = list_at(&screen->list, key->row - 1 - HEAD_ROWS);

        if (index >= 0)
            screen->list.selected = index;
        return index >= 0;
    }
    return move(screen, key) || top_key(&screen->top, key);
}

/* ---- actions */

static const char *nothing_chosen(void *state)
{
    return chosen(state) ? NULL : "There is no batch here.";
}

static void open_chosen(void *state, const struct key *key)
{
    struct book_screen *screen = state;

    (void)key;
    batch_open(&screen->top, chosen(screen)->id);
}

static void filter(void *state, const struct key *key)
{
    (void)key;
    ((struct book_screen *)state)->filtering = true;
}

static void filtered(void *context, const char *text)
{
    struct book_screen *screen = context;

    field_start(&screen->filter, text, FILTER_BYTES - 1);
    read_first(screen);
}

static void pick_filter(void *state, const struct key *key)
{
    struct book_screen *screen = state;

    (void)key;
    filter_ask(&screen->top, screen->filter.text, filtered, screen);
}

static void mark(void *state, const struct key *key)
{
    struct book_screen *screen = state;
    int64_t id = chosen(screen)->id;

    (void)key;
    for (int i = 0; i < screen->marks; i++)
        if (screen->marked[i] == id) {
            memmove(screen->marked + i, screen->marked + i + 1,
                    (size_t)(--screen->marks - i) * sizeof screen->marked[0]);
            return;
        }
    if (screen->marks == BOOK_COMPARED) {
        desk_say(screen->top.desk, STYLE_PLAIN, "%d are marked, and no more can be compared; Space on one unmarks it.",
                 BOOK_COMPARED);
        return;
    }
    screen->marked[screen->marks++] = id;
    if (screen->list.selected + 1 < screen->list.count)
        move(screen, &(struct key){.code = KEY_ARROW_DOWN});
}

static const char *too_few_marked(void *state)
{
    const struct book_screen *screen = state;

    return screen->marks >= 2 ? NULL : "Mark two to four batches with Space first; c then puts them side by side.";
}

static void compare(void *state, const struct key *key)
{
    struct book_screen *screen = state;

    (void)key;
    compare_open(&screen->top, screen->marked, screen->marks);
}

static void why(void *state, const struct key *key)
{
    struct book_screen *screen = state;

    (void)key;
    compare_with_before(&screen->top, chosen(screen));
}

static void plot(void *state, const struct key *key)
{
    struct book_screen *screen = state;

    (void)key;
    plot_open(&screen->top, screen->filter.text, BOOK_TEMP, BOOK_WINDOW);
}

static void leave_out(void *state, const struct key *key)
{
    struct book_screen *screen = state;

    (void)key;
    screen->left_out = (struct left_out){screen->top, chosen(screen)->id, read_again, screen};
    left_out_ask(&screen->left_out);
}

static void learned(void *state, const struct key *key)
{
    (void)key;
    learned_open(&((struct book_screen *)state)->top);
}

static void again(void *state, const struct key *key)
{
    struct book_screen *screen = state;

    (void)key;
    again_ask(&screen->top, chosen(screen)->id);
}

static void reorder(void *state, const struct key *key)
{
    struct book_screen *screen = state;

    (void)key;
    screen->book.order = (enum book_order)((screen->book.order + 1) % BOOK_ORDERS);
    read_first(screen);
}

/* Marks outlast the filter: two batches that no words find together are marked one after the other. */
static void clear_or_leave(void *state, const struct key *key)
{
    struct book_screen *screen = state;

    (void)key;
    if (screen->filter.text[0]) {
        field_start(&screen->filter, "", FILTER_BYTES - 1);
        read_first(screen);
    } else if (screen->marks > 0) {
        screen->marks = 0;
    } else {
        desk_pop(screen->top.desk);
    }
}

static void where(void *state, char *out, size_t size)
{
    (void)state;
    text_copy(out, size, "Batches");
}

static const struct action *actions_of(void *state, size_t *count)
{
    static const struct action usual[] = {
        {"Enter", "open", "Opens the record of the batch.", open_chosen, nothing_chosen},
        {"/", "find", "Finds by words and dates: rose 2026-03, fragrance:lav.", filter, NULL},
        {"Space", "mark", "Marks the batch, up to four, or takes the mark away.", mark, nothing_chosen},
        {"c", "compare", "Puts the marked ones side by side and says why they differ.", compare, too_few_marked},
        {"y", "why", "Says why it differs from the batch of the recipe before it.", why, nothing_chosen},
        {"p", "plot", "Draws one figure of the batches found against another.", plot, NULL},
        {"L", "learned", "What the batches have taught, with how many of them speak.", learned, NULL},
        {"n", "new", "Starts a new batch from this one.", again, nothing_chosen},
        {"f", "find by", "Finds by recipe, colourant, fragrance, outcome from lists.", pick_filter, NULL},
        {"s", "order", "Another order: recipe, superfat, rejects, mass, window.", reorder, NULL},
        {"l", "leave out", "Leaves the batch out of what is learned, or counts it again.", leave_out, nothing_chosen},
        {"1 2 3 4 S", NULL, "Today, Recipes, Bench, Batches, Settings.", NULL, NULL},
        {"Esc", NULL, "Shows all again, unmarks, or goes back to Today.", clear_or_leave, NULL},
    };
    static const struct action filtering[] = {
        {"Enter", "keep the filter", "Keeps the filter and goes to the list.", NULL, NULL},
        {"Esc", "show all", "Shows all batches again.", NULL, NULL},
    };
    bool field = ((struct book_screen *)state)->filtering;

    *count = field ? sizeof filtering / sizeof *filtering : sizeof usual / sizeof *usual;
    return field ? filtering : usual;
}

void book_open_with(const struct top *top, const char *filter, enum book_order order)
{
    static const struct view_ops ops = {.title = "Batches",
                                        .where = where,
                                        .paint = paint,
                                        .key = take_key,
                                        .actions = actions_of,
                                        .shown = read_again,
                                        .news = read_again,
                                        .closed = free};
    struct book_screen *screen = calloc(1, sizeof *screen);

    if (!screen) {
        desk_say(top->desk, STYLE_STOP, "There is no memory left for the list.");
        return;
    }
    screen->top = *top;
    screen->book.order = order;
    field_start(&screen->filter, filter, FILTER_BYTES - 1);
    learn(screen);
    read_first(screen);
    desk_switch(top->desk, &ops, screen);
}

void book_open(const struct top *top)
{
    book_open_with(top, "", BOOK_NEWEST);
}
