/* record.c - one batch: its page, and where it leads to. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "ui/kit/ask.h"
#include "ui/screens/batches/record.h"

struct lw_now record_now(const struct record_screen *screen)
{
    return workshop_now(screen->top.workshop);
}

/* ---- keeping up with the record */

static void reckon(struct record_screen *screen)
{
    struct lw_now now = record_now(screen);

    curing_of(screen->run, workshop_lessons(screen->top.workshop), &now, &screen->curing);
    screen->page.surface.cols = 0; /* drawn anew at the next paint */
}

/* The book brought up to date; that another batch's record cannot be read is said elsewhere. */
static enum lw_status learn(const struct record_screen *screen, struct lw_error *error)
{
    enum lw_status status = workshop_learn(screen->top.workshop, error);

    return status == LW_CORRUPT ? LW_OK : status;
}

void record_settle(struct record_screen *screen, enum lw_status status, struct lw_error *error, const char *said)
{
    if (status == LW_OK)
        status = run_save(screen->run, error);
    if (status == LW_OK)
        status = learn(screen, error);
    if (status == LW_OK)
        status = book_line(workshop_store(screen->top.workshop), run_batch(screen->run)->head.id, &screen->source.line,
                           error);
    reckon(screen);
    if (status != LW_OK)
        desk_say(screen->top.desk, STYLE_STOP, "%s", error->text);
    else if (said[0])
        desk_say(screen->top.desk, STYLE_PLAIN, "%s", said);
}

static void read_news(void *state)
{
    struct record_screen *screen = state;
    struct lw_error error = {""};

    run_refresh(screen->run, &error);
    error.text[0] = '\0';
    record_settle(screen, LW_OK, &error, "");
}

/* ---- painting */

static void where(void *state, char *out, size_t size)
{
    const struct batch *batch = run_batch(((struct record_screen *)state)->run);

    snprintf(out, size, "Batches > %s %s", batch->head.number, batch->head.name);
}

static void keep_inside(struct record_screen *screen)
{
    if (screen->scrolled > screen->page.rows - screen->rows)
        screen->scrolled = screen->page.rows - screen->rows;
    if (screen->scrolled < 0)
        screen->scrolled = 0;
}

static void paint(void *state, const struct canvas *body)
{
    struct record_screen *screen = state;
    struct canvas rows;
    int below;

    if (screen->page.surface.cols != body->cols && !page_draw(&screen->page, &screen->source, body->cols)) {
        canvas_text(body, 0, 1, STYLE_STOP, "There is no memory left to draw the page.");
        return;
    }
    screen->rows = screen->page.rows > body->rows ? body->rows - 1
                                                  : body->rows; /* a row is kept to say what is below */
    keep_inside(screen);
    rows = canvas_part(body, 0, 0, screen->rows, body->cols);
    canvas_show(&rows, &screen->page.surface, screen->scrolled);
    below = screen->page.rows - screen->scrolled - screen->rows;
    if (below > 0)
        canvas_print(body, screen->rows, 1, STYLE_FAINT, "v %d more line%s", below, below == 1 ? "" : "s");
}

/* ---- moving */

static bool take_key(void *state, const struct key *key)
{
    struct record_screen *screen = state;
    int by = 0;

    if (key->code == KEY_ARROW_UP || key->code == KEY_WHEEL_UP)
        by = -1;
    else if (key->code == KEY_ARROW_DOWN || key->code == KEY_WHEEL_DOWN)
        by = 1;
    else if (key->code == KEY_PAGE_UP)
        by = -screen->rows + 1;
    else if (key->code == KEY_PAGE_DOWN || key_named(key, "Space"))
        by = screen->rows - 1;
    else if (key->code == KEY_TO_START)
        by = -screen->page.rows;
    else if (key->code == KEY_TO_END)
        by = screen->page.rows;
    else
        return top_key(&screen->top, key);
    screen->scrolled += by;
    keep_inside(screen);
    return true;
}

static void next_section(void *state, const struct key *key)
{
    struct record_screen *screen = state;

    (void)key;
    for (int i = 0; i < screen->page.sections; i++)
        if (screen->page.section[i] > screen->scrolled && screen->scrolled < screen->page.rows - screen->rows) {
            screen->scrolled = screen->page.section[i];
            keep_inside(screen);
            return;
        }
    screen->scrolled = 0;
}

/* ---- the rest */

static void note_taken(void *context, const char *text)
{
    struct record_screen *screen = context;
    struct lw_now now = record_now(screen);
    struct lw_error error = {""};

    record_settle(screen, run_note(screen->run, &now, text, &error), &error, "Noted.");
}

static bool some_words(void *context, const char *text, char *note, size_t size)
{
    (void)context;
    text_copy(note, size, text[0] ? "" : "A note wants a few words.");
    return text[0] != '\0';
}

static void note(void *state, const struct key *key)
{
    struct record_screen *screen = state;

    (void)key;
    ask_line(screen->top.desk, "A note", "What is to be remembered of this batch?", "", TEXT_BYTES - 1, some_words,
             note_taken, screen);
}

static void left_out_done(void *context)
{
    read_news(context);
}

static void leave_out(void *state, const struct key *key)
{
    struct record_screen *screen = state;

    (void)key;
    screen->left_out = (struct left_out){screen->top, run_batch(screen->run)->head.id, left_out_done, screen};
    left_out_ask(&screen->left_out);
}

static void again(void *state, const struct key *key)
{
    struct record_screen *screen = state;

    (void)key;
    again_ask(&screen->top, run_batch(screen->run)->head.id);
}

static void why(void *state, const struct key *key)
{
    struct record_screen *screen = state;

    (void)key;
    compare_with_before(&screen->top, &screen->source.line);
}

static void learned(void *state, const struct key *key)
{
    (void)key;
    learned_open(&((struct record_screen *)state)->top);
}

/* The bench takes the place of this screen. */
static void to_bench(void *state, const struct key *key)
{
    struct record_screen *screen = state;
    struct top top = screen->top;

    (void)key;
    bench_open(&top, run_batch(screen->run)->head.id);
}

static const char *is_finished(void *state)
{
    return run_batch(((struct record_screen *)state)->run)->finished_s ? "It is finished, and no longer on the bench."
                                                                       : NULL;
}

static void leave(void *state, const struct key *key)
{
    (void)key;
    desk_pop(((struct record_screen *)state)->top.desk);
}

static const struct action *actions_of(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"Tab", "part", "Goes on to the next part; arrows and PgDn scroll.", next_section, NULL},
        {"y", "why", "Says why it differs from the batch of the recipe before it.", why, NULL},
        {"L", NULL, "What the batches have taught, this one among them.", learned, NULL},
        {"w", "weigh", "Puts the marker bars on the scale, one after the other.", record_weigh, record_not_cut},
        {"t", "test", "Records a tongue test, a pH or a look.", record_test, record_not_combined},
        {"o", "outcome", "Released, on hold or rejected, with the reason.", record_decide, record_not_finished},
        {"i", "note", "Adds a note.", note, NULL},
        {"m", "measured", "What was left in jug, bags or cups; density of the batter.", record_measure,
         record_not_combined},
        {"n", "new", "Starts a new batch from this one.", again, NULL},
        {"u", "take back", "Takes back what was said last since it was finished.", record_unsay, record_nothing_said},
        {"b", "bench", "Goes to the batch on the bench.", to_bench, is_finished},
        {"l", "leave out", "Leaves it out of what is learned, or counts it again.", leave_out, record_not_finished},
        {"1 2 3 4 S", NULL, "Today, Recipes, Bench, Batches, Settings.", NULL, NULL},
        {"Esc", NULL, "Goes back.", leave, NULL},
    };

    (void)state;
    *count = sizeof actions / sizeof *actions;
    return actions;
}

static void closed(void *state)
{
    struct record_screen *screen = state;

    page_done(&screen->page);
    run_free(screen->run);
    free(screen);
}

static enum lw_status open_record(struct record_screen *screen, int64_t batch, struct lw_error *error)
{
    enum lw_status status = run_open(screen->top.workshop, batch, &screen->run, error);

    if (status == LW_OK)
        status = learn(screen, error);
    if (status == LW_OK)
        status = book_line(workshop_store(screen->top.workshop), batch, &screen->source.line, error);
    return status;
}

void batch_open(const struct top *top, int64_t batch)
{
    static const struct view_ops ops = {.title = "One batch",
                                        .where = where,
                                        .paint = paint,
                                        .key = take_key,
                                        .actions = actions_of,
                                        .shown = read_news,
                                        .news = read_news,
                                        .closed = closed};
    struct record_screen *screen = calloc(1, sizeof *screen);
    struct lw_error error = {""};

    if (!screen) {
        desk_say(top->desk, STYLE_STOP, "There is no memory left to open the batch.");
        return;
    }
    screen->top = *top;
    if (open_record(screen, batch, &error) != LW_OK) {
        desk_say(top->desk, STYLE_STOP, "%s", error.text);
        run_free(screen->run);
        free(screen);
        return;
    }
    screen->source.workshop = top->workshop;
    screen->source.run = screen->run;
    screen->source.curing = &screen->curing;
    reckon(screen);
    desk_push(top->desk, &ops, screen);
}
