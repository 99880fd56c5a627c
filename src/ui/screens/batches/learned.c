/* learned.c - what the batches have taught: each figure with its spread, how many speak, and what stood before. */
#include <stdlib.h>

#include "base/text.h"
#include "ui/kit/list.h"
#include "ui/screens/batches/batches.h"

enum { LINES_MOST = 160, VALUE_WIDTH = 11, BATCHES_WIDTH = 8, NAME_LEAST = 30, ABOUT_ROWS = 4 };

struct learned_screen {
    struct top top; /* first, for top_key */
    struct list list;
    struct lesson_line line[LINES_MOST];
};

static void read_lines(void *state)
{
    struct learned_screen *screen = state;
    struct lw_error error = {""};

    if (workshop_learn(screen->top.workshop, &error) != LW_OK)
        desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
    list_count(&screen->list, lessons_lines(workshop_lessons(screen->top.workshop), screen->line, LINES_MOST));
}

static const struct lesson_line *chosen(const struct learned_screen *screen)
{
    return screen->list.count > 0 ? &screen->line[screen->list.selected] : NULL;
}

/* ---- painting */

static bool wide(int cols)
{
    return cols >= 110;
}

static void paint_row(void *context, int index, bool selected, const struct canvas *line)
{
    const struct learned_screen *screen = context;
    const struct lesson_line *lesson = &screen->line[index];
    int spread = wide(line->cols + 1) ? 44 : 0, name = line->cols - VALUE_WIDTH - BATCHES_WIDTH - 4 - spread;
    char batches[32] = "";

    canvas_span(line, 0, 0, name, selected ? STYLE_CURSOR : STYLE_PLAIN, lesson->name);
    canvas_span_right(line, 0, name + 1, VALUE_WIDTH, lesson->used ? STYLE_STRONG : STYLE_FAINT, lesson->value);
    if (spread > 0)
        canvas_span(line, 0, name + VALUE_WIDTH + 3, spread - 2, STYLE_PLAIN, lesson->spread);
    text_add(batches, sizeof batches, "%d%s", lesson->batches, lesson->used ? "" : " few");
    canvas_span_right(line, 0, line->cols - BATCHES_WIDTH - 1, BATCHES_WIDTH, STYLE_PLAIN, batches);
}

static void paint_about(const struct learned_screen *screen, const struct canvas *canvas)
{
    const struct lesson_line *lesson = chosen(screen);
    char text[512] = "";

    text_add(text, sizeof text, "%s: %s, %s%sfrom %d batch%s.", lesson->name, lesson->value, lesson->spread,
             lesson->spread[0] ? ", " : "", lesson->batches, lesson->batches == 1 ? "" : "es");
    if (lesson->used)
        text_add(text, sizeof text, " Recipes and bench use it. Before: %s.", lesson->before);
    else
        text_add(text, sizeof text, " Too few yet, %d are wanted; until then: %s.", LEARNED_LEAST, lesson->before);
    canvas_wrap(canvas, 0, ABOUT_ROWS, STYLE_PLAIN, text);
}

static void paint(void *state, const struct canvas *body)
{
    struct learned_screen *screen = state;
    struct canvas about = canvas_part(body, body->rows - ABOUT_ROWS, 1, ABOUT_ROWS, body->cols - 2);
    struct canvas rows = canvas_part(body, 1, 0, body->rows - ABOUT_ROWS - 2, body->cols);

    if (screen->list.count == 0) {
        struct canvas text = canvas_part(body, 1, 1, 5, body->cols - 2);

        canvas_wrap(&text, 0, 4, STYLE_PLAIN,
                    "Nothing is learned yet. Stages stamped on the bench, pieces counted, what is left in bag and jug, "
                    "and bars "
                    "weighed while they cure teach the next plan; until then it goes by common practice.");
        return;
    }
    canvas_text(body, 0, 1, STYLE_TITLE, "what was learned");
    canvas_span_right(body, 0, body->cols - BATCHES_WIDTH - 1, BATCHES_WIDTH, STYLE_PLAIN, "batches");
    list_paint(&screen->list, &rows, paint_row, screen);
    paint_about(screen, &about);
}

static void where(void *state, char *out, size_t size)
{
    (void)state;
    text_copy(out, size, "Batches > learned");
}

/* ---- keys */

static bool take_key(void *state, const struct key *key)
{
    struct learned_screen *screen = state;

    if (key->code == KEY_CLICK) {
        int index = list_at(&screen->list, key->row - 2);

        if (index >= 0)
            screen->list.selected = index;
        return index >= 0;
    }
    return list_key(&screen->list, key) || top_key(&screen->top, key);
}

static const char *nothing_chosen(void *state)
{
    return chosen(state) ? NULL : "Nothing is learned yet.";
}

/* Words that find the batches which a figure is of; those that only carry such pieces are among them. */
static void filter_of(const struct lesson_line *lesson, char out[FILTER_BYTES])
{
    text_copy(out, FILTER_BYTES, "counts:yes");
    if (lesson->filter[0])
        book_filter_add(out, FILTER_BYTES, BOOK_ANYWHERE, lesson->filter);
}

/* By the figure where the book has that order, which leaves out batches without it. */
static enum book_order order_of(enum book_figure figure)
{
    return figure == BOOK_EACH      ? BOOK_BY_EACH
           : figure == BOOK_REJECTS ? BOOK_BY_REJECTS
           : figure == BOOK_WINDOW  ? BOOK_BY_WINDOW
                                    : BOOK_NEWEST;
}

static void show_batches(void *state, const struct key *key)
{
    struct learned_screen *screen = state;
    struct top top = screen->top; /* the list takes the place of this screen */
    char filter[FILTER_BYTES];

    (void)key;
    filter_of(chosen(screen), filter);
    book_open_with(&top, filter, order_of(chosen(screen)->figure));
}

static void plot(void *state, const struct key *key)
{
    struct learned_screen *screen = state;
    char filter[FILTER_BYTES];

    (void)key;
    filter_of(chosen(screen), filter);
    plot_open(&screen->top, filter, BOOK_FIGURE_COUNT, (int)chosen(screen)->figure);
}

static void leave(void *state, const struct key *key)
{
    (void)key;
    desk_pop(((struct learned_screen *)state)->top.desk);
}

static const struct action *actions_of(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"Enter", "its batches", "Finds the batches that count and have those words and the figure.", show_batches,
         nothing_chosen},
        {"p", "plot", "Draws the figure, as it was, of the batches found by the day they were made.", plot,
         nothing_chosen},
        {"Up", NULL, "Moves through the lines; Down likewise.", NULL, NULL},
        {"1 2 3 4 S", NULL, "Today, Recipes, Bench, Batches, Settings.", NULL, NULL},
        {"Esc", "back", "Goes back.", leave, NULL},
    };

    (void)state;
    *count = sizeof actions / sizeof *actions;
    return actions;
}

void learned_open(const struct top *top)
{
    static const struct view_ops ops = {.title = "What was learned",
                                        .where = where,
                                        .paint = paint,
                                        .key = take_key,
                                        .actions = actions_of,
                                        .shown = read_lines,
                                        .news = read_lines,
                                        .closed = free};
    struct learned_screen *screen = calloc(1, sizeof *screen);

    if (!screen) {
        desk_say(top->desk, STYLE_STOP, "There is no memory left for the list.");
        return;
    }
    screen->top = *top;
    read_lines(screen);
    desk_push(top->desk, &ops, screen);
}
