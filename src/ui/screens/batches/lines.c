/* lines.c - the columns of the book: the most important ones at 80, more where there is room. */
#include "ui/screens/batches/lines.h"

#include <string.h>

#include "base/text.h"
#include "lyeway/names.h"
#include "ui/screens/dates.h"

enum {
    WIDE_COLS = 110,
    DAY_WIDTH = 10,
    NUMBER_WIDTH = 6, /* of the usual pattern; more in a wide window */
    NUMBER_WIDTH_WIDE = 10,
    OUTCOME_WIDTH = 10,
    OUTCOME_WIDTH_WIDE = 19, /* with the words for what is left out */
    NAME_LEAST = 12
};

/* A column beside date, number and recipe: what it shows, how wide, and from which width of the window on. */
struct column {
    const char *head;
    int width;
    enum book_figure figure;
    int from_cols;
};

/* clang-format off */
static const struct column columns[] = {
    {"oils",     6, BOOK_OILS,       94},
    {"superfat", 8, BOOK_SUPERFAT,    0},
    {"lye",      6, BOOK_STRENGTH,  118},
    {"at",       5, BOOK_TEMP,      118},
    {"good/all", 8, BOOK_GOOD,        0},
    {"each",     6, BOOK_EACH,       86},
    {"window",   6, BOOK_WINDOW,      0},
    {"loss",     6, BOOK_CURE_LOSS, 118},
};
/* clang-format on */
enum { COLUMNS = sizeof columns / sizeof *columns };

static bool shown(const struct column *column, int cols)
{
    return cols >= column->from_cols;
}

static int number_width(int cols)
{
    return cols >= WIDE_COLS ? NUMBER_WIDTH_WIDE : NUMBER_WIDTH;
}

/* Columns of the name of the recipe. */
static int name_width(int cols)
{
    int left = cols - 2 - DAY_WIDTH - 1 - number_width(cols) - 1 - 2;

    left -= cols >= WIDE_COLS ? OUTCOME_WIDTH_WIDE : OUTCOME_WIDTH;
    for (int i = 0; i < COLUMNS; i++)
        if (shown(&columns[i], cols))
            left -= columns[i].width + 1;
    return left > NAME_LEAST ? left : NAME_LEAST;
}

static void cell_text(const struct book_line *line, const struct column *column, const struct settings *settings,
                      char *out, size_t size)
{
    char good[32], all[32];

    if (column->figure != BOOK_GOOD) {
        book_figure_cell(line, column->figure, settings, false, out, size);
        return;
    }
    book_figure_cell(line, BOOK_GOOD, settings, false, good, sizeof good);
    book_figure_cell(line, BOOK_PIECES, settings, false, all, sizeof all);
    out[0] = '\0';
    text_add(out, size, good[0] == '-' ? "-" : "%s/%s", good, all);
}

/* Of the words that are found by, those that are too long for the column in a shorter form. */
static const char *outcome_short(enum book_outcome outcome)
{
    return outcome == BOOK_RUNNING ? "on bench" : outcome == BOOK_SET_ASIDE ? "aside" : name_of_outcome(outcome);
}

void lines_paint(const struct canvas *line, const struct book_line *batch, const struct settings *settings,
                 bool selected, bool marked)
{
    bool wide = line->cols + 1 >= WIDE_COLS;
    int col = 1, name = name_width(line->cols + 1);
    char text[48], day[DATE_BYTES];

    canvas_text(line, 0, 0, STYLE_STRONG, marked ? "*" : " ");
    date_of(day, batch->started_s, batch->offset_s);
    canvas_text(line, 0, col, STYLE_PLAIN, day);
    col += DAY_WIDTH + 1;
    canvas_span(line, 0, col, number_width(line->cols + 1), selected ? STYLE_CURSOR : STYLE_PLAIN, batch->number);
    col += number_width(line->cols + 1) + 1;
    canvas_span(line, 0, col, name, STYLE_PLAIN, batch->name);
    col += name + 1;
    for (int i = 0; i < COLUMNS; i++) {
        if (!shown(&columns[i], line->cols + 1))
            continue;
        cell_text(batch, &columns[i], settings, text, sizeof text);
        canvas_span_right(line, 0, col, columns[i].width, STYLE_PLAIN, text);
        col += columns[i].width + 1;
    }
    canvas_print(line, 0, col + 1, STYLE_PLAIN, "%s%s",
                 wide ? name_of_outcome(batch->outcome) : outcome_short(batch->outcome),
                 !batch->left_out ? ""
                 : wide           ? ", left out"
                                  : " x");
}

void lines_heading(const struct canvas *canvas, const struct settings *settings)
{
    int col = 2, name = name_width(canvas->cols);

    canvas_text(canvas, 0, col, STYLE_PLAIN, "made");
    col += DAY_WIDTH + 1;
    canvas_text(canvas, 0, col, STYLE_TITLE, "number");
    col += number_width(canvas->cols) + 1;
    canvas_text(canvas, 0, col, STYLE_PLAIN, "recipe");
    col += name + 1;
    for (int i = 0; i < COLUMNS; i++) {
        const char *unit = book_figure_unit(columns[i].figure, settings);
        bool fits = unit[0] && strlen(columns[i].head) + 1 + strlen(unit) <= (size_t)columns[i].width;
        char head[32] = "";

        if (!shown(&columns[i], canvas->cols))
            continue;
        text_add(head, sizeof head, fits ? "%s %s" : "%s", columns[i].head, unit);
        canvas_span_right(canvas, 0, col, columns[i].width, STYLE_PLAIN, head);
        col += columns[i].width + 1;
    }
    canvas_text(canvas, 0, col + 1, STYLE_PLAIN, "outcome");
}

void lines_about(const struct canvas *canvas, const struct book_line *line, const struct settings *settings)
{
    static const enum book_figure figures[] = {BOOK_OILS, BOOK_STRENGTH, BOOK_TEMP, BOOK_EACH, BOOK_REJECTS, BOOK_FROM};
    char text[400] = "", value[48];

    text_add(text, sizeof text, "%s, revision %d%s:", line->name, line->revision,
             line->left_out ? ", left out of learning (x)" : "");
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++) {
        book_figure_text(line, figures[i], settings, true, value, sizeof value);
        if (value[0] != '-')
            text_add(text, sizeof text, " %s %s,", book_figure_name(figures[i]), value);
    }
    text[strlen(text) - 1] = '.';
    canvas_wrap(canvas, 0, LINES_ABOUT_ROWS, STYLE_PLAIN, text);
}
