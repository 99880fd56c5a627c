/* ask.c - draws the step at hand: what to do, large, and what belongs to it. */
#include <stdio.h>
#include <string.h>

#include "base/safety.h"
#include "base/text.h"
#include "base/utf8.h"
#include "ui/kit/digits.h"
#include "ui/screens/bench/state.h"
#include "ui/screens/show.h"

enum {
    SIDE_COLS = 110, /* from here on there is a pane beside */
    MAIN_WIDTH = 78,
    BESIDE_COL = 36, /* where the words beside the digits begin at the earliest */
    LIST_ROWS = 4,
    SCALE_WIDTH = 30,
    NOTES_BYTES = 2048,
    WIDE_BYTES = 2 * LW_NAME_BYTES
};

/* Capitals with a blank after each, as large as a line of text can be; ASCII letters only, others stay as they are. */
static void widen(char *out, size_t size, const char *name, bool spaced)
{
    size_t left = strlen(name);

    out[0] = '\0';
    while (left > 0) {
        uint32_t point;
        size_t bytes = utf8_next(name, left, &point);
        char letter[5] = "";

        memcpy(letter, name, bytes);
        if (bytes == 1 && letter[0] >= 'a' && letter[0] <= 'z')
            letter[0] = (char)(letter[0] - 'a' + 'A');
        text_add(out, size, "%s%s", letter, spaced && left > bytes ? " " : "");
        name += bytes;
        left -= bytes;
    }
}

/* The other batch that `n` leads to, where there is just one. */
static void next_batch(const struct bench_screen *screen, char *out, size_t size)
{
    const struct board *board = &screen->top.running->board;
    int64_t here = run_batch(screen->run)->head.id;

    out[0] = '\0';
    for (int i = 0; i < board->batches; i++)
        if (board->line[i].id != here && board->batches == 2)
            text_add(out, size, "next: %s (n)", board->line[i].name);
    if (board->batches > 2)
        text_add(out, size, "%d others (n)", board->batches - 1);
}

static void paint_name(const struct bench_screen *screen, const struct canvas *body)
{
    const char *name = run_batch(screen->run)->head.name;
    char wide[WIDE_BYTES], next[LW_NAME_BYTES + 16];
    int room;

    next_batch(screen, next, sizeof next);
    room = body->cols - 4 - (int)utf8_columns(next);
    widen(wide, sizeof wide, name, 2 * (int)utf8_columns(name) <= room);
    canvas_span(body, 0, 1, room, STYLE_TITLE, wide);
    canvas_span_right(body, 0, body->cols - 1 - (int)utf8_columns(next), (int)utf8_columns(next), STYLE_PLAIN, next);
}

int bench_paint_head(const struct bench_screen *screen, const struct canvas *body)
{
    const struct plan *plan = run_planned(screen->run)->plan;
    const struct ask *ask = &screen->ask;
    const char *scale = ask->kind == ASK_READING && ask->scale < plan->scales ? plan->scale[ask->scale].name : "";
    char line[LW_NAME_BYTES * 3], on[LW_NAME_BYTES + 8] = "";
    int done, all, right;

    if (scale[0])
        text_add(on, sizeof on, "scale: %s", scale);
    right = (int)utf8_columns(on);

    paint_name(screen, body);
    run_progress(screen->run, &done, &all);
    snprintf(line, sizeof line, "step %d of %d   %s", done + 1 < all ? done + 1 : all, all, ask->title);
    right = right < SCALE_WIDTH ? right : SCALE_WIDTH;
    canvas_span(body, 1, 1, body->cols - 3 - right, STYLE_STRONG, line);
    canvas_span_right(body, 1, body->cols - 1 - right, right, STYLE_STRONG, on);
    return 2;
}

/* What the scale should read, in the words that the digits stand for. */
static void paint_beside(const struct bench_screen *screen, const struct canvas *text)
{
    const struct ask *ask = &screen->ask;
    int row = 0;

    if (ask->kind == ASK_READING)
        canvas_print(text, row++, 0, STYLE_STRONG, "the scale should read %s %s", ask->large, ask->unit);
    row += canvas_wrap(text, row, 3, STYLE_PLAIN, ask->explain);
    if (ask->typed)
        canvas_text(text, row, 0, STYLE_STRONG, "Type what it reads, then Enter.");
}

/* *beside: what is right of the digits, or the whole width where there are none; returns the row after. */
static int paint_large(const struct bench_screen *screen, const struct canvas *canvas, int row, struct canvas *beside)
{
    const struct ask *ask = &screen->ask;
    int col;

    if (!ask->large[0]) {
        *beside = canvas_part(canvas, row, 1, 3, canvas->cols - 2);
        return row + canvas_wrap(beside, 0, 3, STYLE_PLAIN, ask->explain);
    }
    col = digits_paint(canvas, row, 2, STYLE_STRONG, ask->large);
    col = canvas_print(canvas, row + DIGITS_ROWS - 1, col, STYLE_STRONG, " %s", ask->unit) + 2;
    col = col < BESIDE_COL ? BESIDE_COL : col;
    *beside = canvas_part(canvas, row, col, DIGITS_ROWS, canvas->cols - col - 1);
    paint_beside(screen, beside);
    return row + DIGITS_ROWS;
}

/* What was typed already of a step that asks for two numbers; returns the column after. */
static int paint_kept(const struct bench_screen *screen, const struct canvas *line)
{
    static const char *const what[] = {"lye", "oils"};
    char shown[SHOW_BYTES] = "";
    int col = 0;

    for (int i = 0; screen->ask.kind == ASK_TEMPERATURES && i < screen->kept && i < 2; i++) {
        show_temperature(shown, screen->number[i], run_settings(screen->run));
        col = canvas_print(line, 0, col, STYLE_STRONG, "%s %s", what[i], shown) + 3;
    }
    return col;
}

/* The field, or what was weighed last, in one line. */
static void paint_answer(const struct bench_screen *screen, const struct canvas *line)
{
    int col = paint_kept(screen, line);
    struct canvas rest = canvas_part(line, 0, col, 1, line->cols - col);

    if (screen->typing != TYPING_NOTHING)
        bench_paint_typing(screen, &rest);
    else
        canvas_text(&rest, 0, 0, STYLE_GOOD, screen->echo);
}

static int paint_stages(const struct bench_screen *screen, const struct canvas *canvas, int row)
{
    int stage = run_batch(screen->run)->stage, width = (canvas->cols - 2) / 4;

    if (screen->ask.kind != ASK_STAGE)
        return row;
    for (int i = 0; i < STAGES; i++)
        canvas_print(canvas, row + i / 4, 1 + i % 4 * width, i == stage ? STYLE_STRONG : STYLE_PLAIN, "%s%d %s",
                     i == stage ? ">" : " ", i, run_stage_name(i));
    return row + 3;
}

static int paint_lines(const struct bench_screen *screen, const struct canvas *canvas, int row, int rows)
{
    const struct ask *ask = &screen->ask;
    int end = row + rows;

    for (int i = 0; i < ask->lines && row < end; i++) {
        struct canvas text = canvas_part(canvas, row, 1, end - row, canvas->cols - 2);

        row += canvas_wrap(&text, 0, text.rows, STYLE_PLAIN, ask->line[i]);
    }
    if (ask->shift.what[0] && row < end) {
        struct canvas text = canvas_part(canvas, row, 1, end - row, canvas->cols - 2);
        int used = canvas_wrap(&text, 0, text.rows, STYLE_CAUTION, ask->shift.what);

        row += used + canvas_wrap(&text, used, text.rows - used, STYLE_PLAIN, ask->shift.todo);
    }
    return row;
}

/* All notes in one run. */
static void run_together(char *out, size_t size, const char *const notes[])
{
    out[0] = '\0';
    for (int i = 0; notes[i]; i++)
        text_add(out, size, "%s* %s", i ? " " : "", notes[i]);
}

static int rows_of_notes(const struct canvas *canvas, const char *const notes[])
{
    struct canvas text = canvas_part(canvas, 0, 2, canvas->rows, canvas->cols - 2);
    struct canvas tall = text;
    int rows = 0;

    tall.rows = NOTES_BYTES;
    for (int i = 0; notes[i]; i++)
        rows += canvas_wrapped(&tall, notes[i]);
    return rows;
}

int bench_paint_notes(const struct canvas *canvas, int row, const char *const notes[])
{
    char together[NOTES_BYTES];
    struct canvas text = canvas_part(canvas, row, 0, canvas->rows - row, canvas->cols);

    if (rows_of_notes(canvas, notes) > canvas->rows - row) {
        run_together(together, sizeof together, notes);
        return row + canvas_wrap(&text, 0, text.rows, STYLE_CAUTION, together);
    }
    for (int i = 0; notes[i]; i++) {
        text = canvas_part(canvas, row, 2, canvas->rows - row, canvas->cols - 2);
        canvas_text(canvas, row, 0, STYLE_CAUTION, "*");
        row += canvas_wrap(&text, 0, text.rows, STYLE_CAUTION, notes[i]);
    }
    return row;
}

static int rows_together(const struct canvas *canvas, const char *const notes[])
{
    char together[NOTES_BYTES];

    run_together(together, sizeof together, notes);
    return canvas_wrapped(canvas, together);
}

/* On a lye step the notes come before everything but what to weigh; the answer stands beside the digits. */
static void paint_safe_step(const struct bench_screen *screen, const struct canvas *canvas, int row)
{
    struct canvas inside = canvas_part(canvas, 0, 1, canvas->rows, canvas->cols - 2), line;
    int notes = rows_together(&inside, safety_notes()), rest;

    row = paint_large(screen, canvas, row, &line);
    if (screen->ask.large[0])
        line = canvas_part(&line, DIGITS_ROWS - 1, 0, 1, line.cols);
    else
        line = canvas_part(&inside, row++, 0, 1, inside.cols);
    paint_answer(screen, &line);
    row = paint_lines(screen, canvas, row, canvas->rows - row - notes);
    row = bench_paint_notes(&inside, row, safety_notes());
    rest = canvas->rows - row;
    if (rest > 0)
        bench_paint_lists(screen, canvas, row, rest);
}

static void paint_step(const struct bench_screen *screen, const struct canvas *canvas, int row)
{
    struct canvas line;

    row = paint_large(screen, canvas, row + 1, &line);
    line = canvas_part(canvas, row + 1, 1, 1, canvas->cols - 2);
    paint_answer(screen, &line);
    row = paint_stages(screen, canvas, row + 2);
    row = paint_lines(screen, canvas, row, canvas->rows - LIST_ROWS - row) + 1;
    row = row < canvas->rows - LIST_ROWS ? row : canvas->rows - LIST_ROWS;
    bench_paint_lists(screen, canvas, row, canvas->rows - row);
}

static void paint_end(const struct bench_screen *screen, const struct canvas *canvas)
{
    const struct batch *batch = run_batch(screen->run);
    struct canvas text = canvas_part(canvas, 3, 1, canvas->rows - 3, canvas->cols - 2);

    paint_name(screen, canvas);
    canvas_text(&text, 0, 0, STYLE_STRONG, batch->set_aside ? "SET ASIDE: not to be used." : "Every step is done.");
    canvas_wrap(&text, 2, 2, STYLE_PLAIN, "Enter asks five questions, a key each, and then the record is closed.");
    bench_paint_lists(screen, canvas, canvas->rows - LIST_ROWS, LIST_ROWS);
}

void bench_paint_acknowledge(const struct canvas *body)
{
    struct canvas notes = canvas_part(body, 2, 1, body->rows - 2, body->cols - 2);

    canvas_text(body, 0, 1, STYLE_STOP, "BEFORE THE FIRST LYE OF THE DAY");
    bench_paint_notes(&notes, 0, safety_notes());
}

void bench_paint_ask(const struct bench_screen *screen, const struct canvas *body)
{
    bool side = body->cols >= SIDE_COLS;
    struct canvas main = canvas_part(body, 0, 0, body->rows, side ? MAIN_WIDTH : body->cols);
    struct canvas pane = canvas_part(body, 0, MAIN_WIDTH + 1, body->rows, body->cols - MAIN_WIDTH - 1);
    int row;

    if (side)
        bench_paint_side(screen, &pane);
    if (screen->at < 0) {
        paint_end(screen, &main);
        return;
    }
    row = bench_paint_head(screen, &main);
    if (screen->ask.kind == ASK_PIECES)
        bench_paint_piping(screen, &main, row);
    else if (screen->ask.safety)
        paint_safe_step(screen, &main, row);
    else
        paint_step(screen, &main, row);
}
