/* plot_view.c - one figure of the batches found against another, as points with a line, or as a table of the same. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "ui/kit/list.h"
#include "ui/kit/plot.h"
#include "ui/screens/batches/batches.h"
#include "ui/screens/dates.h"
#include "ui/screens/show.h"

enum { WORDS_ROWS = 4, LINE_BYTES = 320, NAME_BYTES = 64 };

struct plot_screen {
    struct top top; /* first, for top_key */
    char filter[FILTER_BYTES];
    int across, up; /* figures; BOOK_FIGURE_COUNT: the day */
    struct points points;
    char *sign; /* of each point */
    int at;     /* the point that the cursor is on; -1: there is none */
    bool table;
    struct list list;
    struct canvas drawn; /* where the plot was drawn last */
};

static void read_points(void *state)
{
    struct plot_screen *screen = state;
    struct book_filter filter;
    struct lw_error error = {""};

    points_free(&screen->points);
    free(screen->sign);
    screen->sign = NULL;
    book_filter_read(screen->filter, workshop_now(screen->top.workshop).offset_s, &filter);
    if (book_points(screen->top.workshop, &filter, screen->across, screen->up, &screen->points, &error) != LW_OK)
        desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
    screen->sign = calloc((size_t)screen->points.n + 1, 1);
    for (int i = 0; screen->sign && i < screen->points.n; i++)
        screen->sign[i] = screen->points.out[i] ? 'x' : 0;
    screen->at = screen->points.n > 0 ? screen->points.n - 1 : -1;
    list_count(&screen->list, screen->points.n);
    screen->list.selected = screen->at < 0 ? 0 : screen->at;
}

/* ---- painting */

static const char *unit_of(const struct plot_screen *screen, int figure)
{
    return figure == BOOK_FIGURE_COUNT
               ? "days from today"
               : book_figure_unit((enum book_figure)figure, workshop_settings(screen->top.workshop));
}

/* "mass a piece, g". */
static void axis_name(const struct plot_screen *screen, int figure, char out[NAME_BYTES])
{
    const char *unit = unit_of(screen, figure);

    out[0] = '\0';
    text_add(out, NAME_BYTES, unit[0] ? "%s, %s" : "%s", figure_name(figure), unit);
}

static double on_line(const void *context, double x)
{
    const struct line *line = context;

    return line->known ? line->at_0 + line->slope * x : NAN;
}

static void paint_plot(struct plot_screen *screen, const struct canvas *canvas)
{
    const struct points *points = &screen->points;
    char across[NAME_BYTES], up[NAME_BYTES];
    struct plot plot = {.n = points->n,
                        .x = points->x,
                        .y = points->y,
                        .sign = screen->sign,
                        .marked = screen->at,
                        .curve = on_line,
                        .curve_from = points->low_x,
                        .curve_to = points->high_x,
                        .mark_x = NAN,
                        .context = &points->line};

    axis_name(screen, screen->across, across);
    axis_name(screen, screen->up, up);
    plot.across.name = across;
    plot.up.name = up;
    plot_reach(&plot.across, points->low_x, points->high_x);
    plot_reach(&plot.up, points->low_y, points->high_y);
    plot_paint(&plot, canvas);
    screen->drawn = *canvas;
}

static void value_text(char out[SHOW_BYTES], double value)
{
    double size = fabs(value);

    show_number(out, value, size >= 100 ? 0 : size >= 10 ? 1 : 2);
}

/* The line with its spread, how many points, and the middle of what is drawn upwards. */
static void say_line(const struct plot_screen *screen, char *text, size_t size)
{
    const struct points *points = &screen->points;
    char slope[SHOW_BYTES], error[SHOW_BYTES], sd[SHOW_BYTES], median[SHOW_BYTES], lo[SHOW_BYTES], hi[SHOW_BYTES];

    text_add(text, size, "%d points", points->n - points->left_out);
    if (points->left_out > 0)
        text_add(text, size, ", and %d left out of learning, drawn x", points->left_out);
    text_add(text, size, "; %d without both figures", points->without);
    if (points->more)
        text_add(text, size, "; only the newest %d batches were looked at", BOOK_POINTS);
    if (points->line.known) {
        value_text(slope, points->line.slope);
        value_text(error, 2 * points->line.sd_slope);
        value_text(sd, points->line.sd);
        text_add(text, size, ". Line: %s up for 1 across, %s either way; points lie about %s from it", slope, error,
                 sd);
    } else {
        text_add(text, size, ". A line wants three points");
    }
    if (points->n > points->left_out) {
        value_text(median, points->median_y);
        value_text(lo, points->quarter_y);
        value_text(hi, points->three_quarters_y);
        text_add(text, size, ". Half of %s lies between %s and %s, the middle is %s", figure_name(screen->up), lo, hi,
                 median);
    }
    text_add(text, size, ".");
}

static void say_point(const struct plot_screen *screen, int index, char *text, size_t size)
{
    const struct points *points = &screen->points;
    struct book_line line;
    struct lw_error error = {""};
    char x[SHOW_BYTES], y[SHOW_BYTES], day[DATE_BYTES];

    if (book_line(workshop_store(screen->top.workshop), points->id[index], &line, &error) != LW_OK) {
        text_copy(text, size, error.text);
        return;
    }
    date_of(day, line.started_s, line.offset_s);
    value_text(x, points->x[index]);
    value_text(y, points->y[index]);
    text_add(text, size, "%s  %s  %s: %s %s, %s %s%s%s", line.number, day, line.name, figure_name(screen->across), x,
             figure_name(screen->up), line.until_least && screen->up != BOOK_FROM ? "at least " : "", y,
             points->out[index] ? ", left out" : "");
}

static void paint_row(void *context, int index, bool selected, const struct canvas *line)
{
    char text[LINE_BYTES] = "";

    say_point(context, index, text, sizeof text);
    canvas_span(line, 0, 0, line->cols, selected ? STYLE_CURSOR : STYLE_PLAIN, text);
}

static void paint(void *state, const struct canvas *body)
{
    struct plot_screen *screen = state;
    struct canvas words = canvas_part(body, body->rows - WORDS_ROWS, 1, WORDS_ROWS, body->cols - 2);
    struct canvas rest = canvas_part(body, 0, 0, body->rows - WORDS_ROWS, body->cols);
    char text[2 * LINE_BYTES] = "";

    screen->drawn = (struct canvas){0};
    if (screen->points.n == 0) {
        canvas_print(body, 1, 1, STYLE_PLAIN,
                     "None of these batches has both %s and %s on record; x and y choose others.",
                     figure_name(screen->across), figure_name(screen->up));
        return;
    }
    if (screen->table)
        list_paint(&screen->list, &rest, paint_row, screen);
    else
        paint_plot(screen, &rest);
    if (!screen->table) {
        say_point(screen, screen->at, text, sizeof text);
        canvas_span(&words, 0, 0, words.cols, STYLE_STRONG, text);
    }
    text[0] = '\0';
    say_line(screen, text, sizeof text);
    canvas_wrap(&words, 1, WORDS_ROWS - 1, STYLE_PLAIN, text);
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

static bool take_key(void *state, const struct key *key)
{
    struct plot_screen *screen = state;

    if (screen->table && list_key(&screen->list, key)) {
        go(screen, screen->list.selected);
        return true;
    }
    if (key->code == KEY_ARROW_LEFT || key->code == KEY_ARROW_DOWN)
        go(screen, screen->at - 1);
    else if (key->code == KEY_ARROW_RIGHT || key->code == KEY_ARROW_UP)
        go(screen, screen->at + 1);
    else if (key->code == KEY_TO_START)
        go(screen, 0);
    else if (key->code == KEY_TO_END)
        go(screen, screen->points.n - 1);
    else
        return top_key(&screen->top, key);
    return true;
}

static void across_taken(void *context, int figure)
{
    struct plot_screen *screen = context;

    screen->across = figure;
    read_points(screen);
}

static void up_taken(void *context, int figure)
{
    struct plot_screen *screen = context;

    screen->up = figure;
    read_points(screen);
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
        {"Left Right", "next point", "Goes from point to point.", NULL, NULL},
        {"x", "across", "Chooses the figure that goes across; the day is one.", pick_across, NULL},
        {"y", "up", "Chooses the figure that goes up.", pick_up, NULL},
        {"t", "as text", "Shows the points as a table, or drawn again.", as_table, NULL},
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
