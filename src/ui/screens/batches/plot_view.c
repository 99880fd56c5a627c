/* plot_view.c - one figure of the batches found against another, as points with a line, or as a table of the same. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/day.h"
#include "base/text.h"
#include "ui/kit/list.h"
#include "ui/kit/plot.h"
#include "ui/screens/batches/batches.h"
#include "ui/screens/dates.h"
#include "ui/screens/show.h"

enum {
    WORDS_ROWS = 4,
    LINE_BYTES = 320,
    NAME_BYTES = 64,
    PAGE_POINTS = 10,
    DAYS_A_SLOPE = 100, /* a line against the day is said for so many */
    NUMBER_WIDTH = 8,
    DAY_WIDTH = 10,
    VALUE_WIDTH = 16,
    DECIMALS_MOST = 6
};

struct plot_screen {
    struct top top; /* first, for top_key */
    char filter[FILTER_BYTES];
    int across, up; /* figures; BOOK_FIGURE_COUNT: the day */
    struct points points;
    char *sign; /* of each point */
    int at;     /* the point that the cursor is on; -1: there is none */
    bool table;
    struct list list;
    struct canvas drawn; /* where plot or table was drawn last; no rows: nowhere */
};

static void read_points(void *state)
{
    struct plot_screen *screen = state;
    struct book_filter filter;
    struct lw_error error = {""};
    int64_t id = screen->at >= 0 && screen->at < screen->points.n ? screen->points.id[screen->at] : 0;

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
    for (int i = 0; i < screen->points.n; i++)
        if (screen->points.id[i] == id)
            screen->at = i;
    list_count(&screen->list, screen->points.n);
    screen->list.selected = screen->at < 0 ? 0 : screen->at;
}

/* ---- painting */

static const char *unit_of(const struct plot_screen *screen, int figure)
{
    return figure == BOOK_FIGURE_COUNT
               ? ""
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
    const struct line *line = &((const struct plot_screen *)context)->points.line;

    return line->known ? line->at_0 + line->slope * x : NAN;
}

/* The day that is so many days from now. */
static void day_text(const struct plot_screen *screen, double days, char out[DATE_BYTES])
{
    struct lw_now now = workshop_now(screen->top.workshop);

    date_of(out, now.utc_s + (int64_t)(days * DAY_S), now.offset_s);
}

static void label_day(const void *context, double value, double step, char *out, size_t size)
{
    char day[DATE_BYTES];

    (void)step;
    day_text(context, value, day);
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
    char across[NAME_BYTES], up[NAME_BYTES];
    struct plot plot;

    axis_name(screen, screen->across, across);
    axis_name(screen, screen->up, up);
    plot = plot_of(screen, across, up);
    plot_paint(&plot, canvas);
    screen->drawn = *canvas;
}

/* Three digits that count, two of what is under 1. */
static void value_text(char out[SHOW_BYTES], double value)
{
    double size = fabs(value);
    int decimals = size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 || size == 0 ? 2 : 1 - (int)floor(log10(size));

    show_number(out, value, decimals < DECIMALS_MOST ? decimals : DECIMALS_MOST);
}

static void figure_text(const struct plot_screen *screen, int figure, double value, char out[SHOW_BYTES])
{
    if (figure == BOOK_FIGURE_COUNT)
        day_text(screen, value, out);
    else
        value_text(out, value);
}

/* ---- in words: how many points, the line with its spread, the middle of what goes up; a row each */

static void say_count(const struct plot_screen *screen, char *text, size_t size)
{
    const struct points *points = &screen->points;
    int counting = points->n - points->left_out;

    text_add(text, size, "%d point%s", counting, counting == 1 ? "" : "s");
    if (points->left_out > 0)
        text_add(text, size, ", %d do not count (x)", points->left_out);
    if (points->without > 0)
        text_add(text, size, ", %d lack a figure", points->without);
    if (points->more)
        text_add(text, size, "; only the newest %d looked at", BOOK_POINTS);
    text_add(text, size, ".");
}

static void say_slope(const struct plot_screen *screen, char *text, size_t size)
{
    const struct line *line = &screen->points.line;
    double by = screen->across == BOOK_FIGURE_COUNT ? DAYS_A_SLOPE : 1;
    char slope[SHOW_BYTES], error[SHOW_BYTES], sd[SHOW_BYTES];

    if (!line->known) {
        text_add(text, size, "A line wants three points that lie apart.");
        return;
    }
    value_text(slope, by * line->slope);
    value_text(error, by * 2 * line->sd_slope);
    value_text(sd, line->sd);
    text_add(text, size, "Line: %s up for %s across, %s either way; points lie about %s from it.", slope,
             by > 1 ? "100 days" : "1", error, sd);
}

static void say_middle(const struct plot_screen *screen, char *text, size_t size)
{
    const struct points *points = &screen->points;
    char median[SHOW_BYTES], lo[SHOW_BYTES], hi[SHOW_BYTES];

    if (points->n == points->left_out)
        return;
    value_text(median, points->median_y);
    value_text(lo, points->quarter_y);
    value_text(hi, points->three_quarters_y);
    text_add(text, size, "%s: half between %s and %s, the middle %s.", figure_name(screen->up), lo, hi, median);
}

static void paint_words(const struct plot_screen *screen, const struct canvas *words)
{
    static void (*const say[])(const struct plot_screen *, char *, size_t) = {say_count, say_slope, say_middle};

    for (int i = 0; i < WORDS_ROWS - 1; i++) {
        char text[LINE_BYTES] = "";

        say[i](screen, text, sizeof text);
        canvas_span(words, i + 1, 0, words->cols, STYLE_PLAIN, text);
    }
}

/* "at least " where the batter was used up before it was too stiff. */
static const char *least(const struct book_line *line, int figure)
{
    return line->until_least && (figure == BOOK_UNTIL || figure == BOOK_WINDOW) ? "at least " : "";
}

/* *day: when it was made; false, with the sentence in name, where it cannot be read. */
static bool point_line(const struct plot_screen *screen, int index, struct book_line *line, char day[DATE_BYTES])
{
    struct lw_error error = {""};

    if (book_line(workshop_store(screen->top.workshop), screen->points.id[index], line, &error) != LW_OK) {
        *line = (struct book_line){.started_s = 0};
        text_copy(line->name, sizeof line->name, error.text);
        day[0] = '\0';
        return false;
    }
    date_of(day, line->started_s, line->offset_s);
    return true;
}

static void say_point(const struct plot_screen *screen, int index, char *text, size_t size)
{
    const struct points *points = &screen->points;
    struct book_line line;
    char x[SHOW_BYTES], y[SHOW_BYTES], day[DATE_BYTES];

    if (!point_line(screen, index, &line, day)) {
        text_copy(text, size, line.name);
        return;
    }
    figure_text(screen, screen->across, points->x[index], x);
    figure_text(screen, screen->up, points->y[index], y);
    text_add(text, size, "%s  %s", line.number, line.name);
    if (screen->across != BOOK_FIGURE_COUNT)
        text_add(text, size, "  made %s", day);
    text_add(text, size, ": %s %s%s, %s %s%s%s", figure_name(screen->across), least(&line, screen->across), x,
             figure_name(screen->up), least(&line, screen->up), y,
             !points->out[index] ? ""
             : line.left_out     ? ", left out"
                                 : ", still on the bench");
}

/* ---- the same as a table */

static int name_width(int cols)
{
    return cols - NUMBER_WIDTH - DAY_WIDTH - 2 * VALUE_WIDTH - 5;
}

static void paint_cells(const struct canvas *line, uint16_t style, const char *const cell[5])
{
    int name = name_width(line->cols);
    int col = NUMBER_WIDTH + DAY_WIDTH + name + 3;

    canvas_span(line, 0, 0, NUMBER_WIDTH, style, cell[0]);
    canvas_text(line, 0, NUMBER_WIDTH + 1, STYLE_PLAIN, cell[1]);
    canvas_span(line, 0, NUMBER_WIDTH + DAY_WIDTH + 2, name, STYLE_PLAIN, cell[2]);
    canvas_span_right(line, 0, col, VALUE_WIDTH, STYLE_PLAIN, cell[3]);
    canvas_span_right(line, 0, col + VALUE_WIDTH + 1, VALUE_WIDTH, STYLE_PLAIN, cell[4]);
}

static void paint_row(void *context, int index, bool selected, const struct canvas *line)
{
    const struct plot_screen *screen = context;
    const int figure[2] = {screen->across, screen->up};
    const double value[2] = {screen->points.x[index], screen->points.y[index]};
    struct book_line batch;
    char day[DATE_BYTES], number[NUMBER_WIDTH + 3 + BATCH_NUMBER_BYTES] = "", shown[2][SHOW_BYTES + 16] = {"", ""};

    point_line(screen, index, &batch, day);
    text_add(number, sizeof number, "%s%s", batch.number, screen->points.out[index] ? " x" : "");
    for (int i = 0; i < 2; i++) {
        char text[SHOW_BYTES];

        figure_text(screen, figure[i], value[i], text);
        text_add(shown[i], sizeof shown[i], "%s%s", least(&batch, figure[i]), text);
    }
    paint_cells(line, selected ? STYLE_CURSOR : STYLE_PLAIN,
                (const char *const[5]){number, day, batch.name, shown[0], shown[1]});
}

static void paint_table(struct plot_screen *screen, const struct canvas *canvas)
{
    struct canvas head = canvas_part(canvas, 0, 1, 1, canvas->cols - 1);
    char across[NAME_BYTES], up[NAME_BYTES];

    axis_name(screen, screen->across, across);
    axis_name(screen, screen->up, up);
    paint_cells(&head, STYLE_TITLE, (const char *const[5]){"number", "made", "recipe", across, up});
    screen->drawn = canvas_part(canvas, 1, 0, canvas->rows - 1, canvas->cols);
    list_paint(&screen->list, &screen->drawn, paint_row, screen);
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
        paint_table(screen, &rest);
    else
        paint_plot(screen, &rest);
    if (!screen->table) {
        say_point(screen, screen->at, text, sizeof text);
        canvas_span(&words, 0, 0, words.cols, STYLE_STRONG, text);
    }
    paint_words(screen, &words);
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
        {"Left Right", "next point", "Goes from point to point, by the figure across; PgUp and PgDn by ten.", NULL,
         NULL},
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
