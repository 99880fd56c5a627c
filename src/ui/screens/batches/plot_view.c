/* plot_view.c - one figure of the batches found against another, as points with a line, or as a table of the same. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/day.h"
#include "base/text.h"
#include "ui/kit/plot.h"
#include "ui/screens/batches/plot_view.h"

enum { PAGE_POINTS = 10, WORDS_ROWS = PLOT_WORDS_ROWS + 1 /* under the plot, with the point */ };

static void read_points(void *state)
{
    struct plot_screen *screen = state;
    struct book_filter filter = {.terms = 0};
    struct lw_error error = {""};
    int64_t id = screen->at >= 0 && screen->at < screen->points.n ? screen->points.id[screen->at] : 0;

    points_free(&screen->points);
    free(screen->sign);
    screen->sign = NULL;
    if (book_filter_read(screen->filter, workshop_now(screen->top.workshop).offset_s, &filter, &error) != LW_OK ||
        book_points(screen->top.workshop, &filter, screen->across, screen->up, &screen->points, &error) != LW_OK)
        desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
    screen->sign = calloc((size_t)screen->points.n + 1, 1);
    for (int i = 0; screen->sign && i < screen->points.n; i++)
        screen->sign[i] = screen->points.out[i] ? 'x' : screen->points.least[i] ? '^' : 0;
    screen->at = screen->points.n > 0 ? screen->points.n - 1 : -1;
    for (int i = 0; i < screen->points.n; i++)
        if (screen->points.id[i] == id)
            screen->at = i;
    list_count(&screen->list, screen->points.n);
    screen->list.selected = screen->at < 0 ? 0 : screen->at;
}

/* ---- painting */

static double on_line(const void *context, double x)
{
    const struct line *line = &((const struct plot_screen *)context)->points.line;

    return line->known ? line->at_0 + line->slope * x : NAN;
}

static void label_day(const void *context, double value, double step, char *out, size_t size)
{
    char day[DATE_BYTES];

    (void)step;
    plot_day_text(context, value, day);
    text_copy(out, size, day);
}

static struct plot plot_of(const struct plot_screen *screen, const char *across, const char *up)
{
    const struct points *points = &screen->points;
    struct plot plot = {.across = {.name = across},
                        .up = {.name = up},
                        .n = points->n,
                        .x = points->x,
                        .y = points->y,
                        .sign = screen->sign,
                        .marked = screen->at,
                        .curve = on_line,
                        .curve_from = points->low_x,
                        .curve_to = points->high_x,
                        .mark_x = NAN,
                        .context = screen};

    if (screen->across == BOOK_FIGURE_COUNT)
        plot.across.label = label_day;
    plot_reach(&plot.across, points->low_x, points->high_x);
    plot_reach(&plot.up, points->low_y, points->high_y);
    return plot;
}

static void paint_plot(struct plot_screen *screen, const struct canvas *canvas)
{
    char across[AXIS_NAME_BYTES], up[AXIS_NAME_BYTES];
    struct plot plot;

    plot_axis_name(screen, screen->across, across);
    plot_axis_name(screen, screen->up, up);
    plot = plot_of(screen, across, up);
    plot_paint(&plot, canvas);
    screen->drawn = *canvas;
}

static void paint(void *state, const struct canvas *body)
{
    struct plot_screen *screen = state;
    struct canvas words = canvas_part(body, body->rows - WORDS_ROWS, 1, WORDS_ROWS, body->cols - 2);
    struct canvas rest = canvas_part(body, 0, 0, body->rows - WORDS_ROWS, body->cols);
    struct canvas none = canvas_part(body, 1, 1, 3, body->cols - 2);
    struct canvas below = canvas_part(&words, 1, 0, PLOT_WORDS_ROWS, words.cols);
    char text[POINT_BYTES] = "";

    screen->drawn = (struct canvas){0};
    if (screen->points.n == 0) {
        text_add(text, sizeof text, "None of these batches has both %s and %s on record; x and y choose others.",
                 figure_name(screen->across), figure_name(screen->up));
        canvas_wrap(&none, 0, none.rows, STYLE_PLAIN, text);
        return;
    }
    if (screen->table)
        plot_paint_table(screen, &rest);
    else
        paint_plot(screen, &rest);
    if (!screen->table) {
        plot_say_point(screen, screen->at, text, sizeof text);
        canvas_span(&words, 0, 0, words.cols, STYLE_STRONG, text);
    }
    plot_paint_words(screen, &below);
}

static void where(void *state, char *out, size_t size)
{
    const struct plot_screen *screen = state;

    text_copy(out, size, "Batches > plot");
    if (screen->filter[0])
        text_add(out, size, " / %s", screen->filter);
}

/* ---- keys */

static void go(struct plot_screen *screen, int to)
{
    if (screen->points.n == 0)
        return;
    screen->at = to < 0 ? 0 : to >= screen->points.n ? screen->points.n - 1 : to;
    screen->list.selected = screen->at;
}

/* Where a click falls, in the plot or in the table; -1: at no point. */
static int clicked(struct plot_screen *screen, const struct key *key)
{
    int row = key->row - screen->drawn.row, col = key->col - screen->drawn.col;
    struct plot plot;

    if (screen->drawn.rows == 0)
        return -1;
    if (screen->table)
        return list_at(&screen->list, row);
    plot = plot_of(screen, "-", "-"); /* names as long as any */
    return plot_at(&plot, &screen->drawn, row, col);
}

static bool take_key(void *state, const struct key *key)
{
    struct plot_screen *screen = state;
    int by = 0;

    if (key->code == KEY_CLICK) {
        int at = clicked(screen, key);

        if (at >= 0)
            go(screen, at);
        return at >= 0;
    }
    if (screen->table && list_key(&screen->list, key)) {
        go(screen, screen->list.selected);
        return true;
    }
    if (key->code == KEY_ARROW_LEFT || key->code == KEY_ARROW_DOWN)
        by = -1;
    else if (key->code == KEY_ARROW_RIGHT || key->code == KEY_ARROW_UP)
        by = 1;
    else if (key->code == KEY_PAGE_UP)
        by = -PAGE_POINTS;
    else if (key->code == KEY_PAGE_DOWN)
        by = PAGE_POINTS;
    else if (key->code == KEY_TO_START)
        by = -screen->points.n;
    else if (key->code == KEY_TO_END)
        by = screen->points.n;
    else
        return top_key(&screen->top, key);
    go(screen, screen->at + by);
    return true;
}

/* A figure against itself shows nothing: the plot stays as it was. */
static void take_figure(struct plot_screen *screen, int *axis, int figure)
{
    if (figure == (axis == &screen->across ? screen->up : screen->across)) {
        desk_say(screen->top.desk, STYLE_PLAIN, "The %s is on the other axis already; take another figure here.",
                 figure_name(figure));
        return;
    }
    *axis = figure;
    read_points(screen);
}

static void across_taken(void *context, int figure)
{
    take_figure(context, &((struct plot_screen *)context)->across, figure);
}

static void up_taken(void *context, int figure)
{
    take_figure(context, &((struct plot_screen *)context)->up, figure);
}

static void pick_across(void *state, const struct key *key)
{
    struct plot_screen *screen = state;

    (void)key;
    figure_ask(&screen->top, "What goes across?", true, across_taken, screen);
}

static void pick_up(void *state, const struct key *key)
{
    struct plot_screen *screen = state;

    (void)key;
    figure_ask(&screen->top, "What goes up?", false, up_taken, screen);
}

static const char *no_point(void *state)
{
    return ((struct plot_screen *)state)->at >= 0 ? NULL : "There is no point to open.";
}

static void open_point(void *state, const struct key *key)
{
    struct plot_screen *screen = state;

    (void)key;
    batch_open(&screen->top, screen->points.id[screen->at]);
}

static void as_table(void *state, const struct key *key)
{
    struct plot_screen *screen = state;

    (void)key;
    screen->table = !screen->table;
}

static void leave(void *state, const struct key *key)
{
    (void)key;
    desk_pop(((struct plot_screen *)state)->top.desk);
}

static const struct action *actions_of(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"Enter", "open", "Opens the batch of the point.", open_point, no_point},
        {"Left Right", "next point", "Goes from point to point; PgUp and PgDn by ten.", NULL, NULL},
        {"x", "across", "Chooses the figure that goes across; the day is one.", pick_across, NULL},
        {"y", "up", "Chooses the figure that goes up.", pick_up, NULL},
        {"t", "as text", "Shows the points as a table, or drawn again.", as_table, NULL},
        {"1 2 3 4 S", NULL, "Today, Recipes, Bench, Batches, Settings.", NULL, NULL},
        {"Esc", "back", "Goes back.", leave, NULL},
    };

    (void)state;
    *count = sizeof actions / sizeof *actions;
    return actions;
}

static void closed(void *state)
{
    struct plot_screen *screen = state;

    points_free(&screen->points);
    free(screen->sign);
    free(screen);
}

void plot_open(const struct top *top, const char *filter, int across, int up)
{
    static const struct view_ops ops = {.title = "One figure against another",
                                        .where = where,
                                        .paint = paint,
                                        .key = take_key,
                                        .actions = actions_of,
                                        .shown = read_points,
                                        .news = read_points,
                                        .closed = closed};
    struct plot_screen *screen = calloc(1, sizeof *screen);

    if (!screen) {
        desk_say(top->desk, STYLE_STOP, "There is no memory left to draw.");
        return;
    }
    screen->top = *top;
    screen->across = across;
    screen->up = up;
    text_copy(screen->filter, sizeof screen->filter, filter);
    read_points(screen);
    desk_push(top->desk, &ops, screen);
}
