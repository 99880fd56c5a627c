/* record.c - one batch: its page, and what is said of it after it is made. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/mass.h"
#include "base/text.h"
#include "ui/kit/ask.h"
#include "ui/screens/batches/page.h"
#include "work/quantity.h"

enum { TEXT_BYTES = 256 };

struct record_screen {
    struct top top; /* first, for top_key */
    struct run *run;
    struct curing curing;
    struct page page;
    struct page_source source;
    int scrolled, rows; /* rows: in view when last painted */
    struct left_out left_out;
    int marker;           /* that is asked for */
    enum batch_test test; /* that is asked for */
    double value;         /* its result */
    enum batch_outcome outcome;
    enum residue_place place;
    int64_t mass_ug;
};

static struct lw_now now_of(const struct record_screen *screen)
{
    return workshop_now(screen->top.workshop);
}

/* ---- keeping up with the record */

static void reckon(struct record_screen *screen)
{
    struct lw_now now = now_of(screen);

    curing_of(screen->run, workshop_lessons(screen->top.workshop), &now, &screen->curing);
    screen->page.surface.cols = 0; /* drawn anew at the next paint */
}

/* After something was said: saved, then the line in the book found anew. */
static void settle(struct record_screen *screen, enum lw_status status, struct lw_error *error, const char *said)
{
    if (status == LW_OK)
        status = run_save(screen->run, error);
    if (status == LW_OK)
        status = workshop_learn(screen->top.workshop, error);
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
    settle(screen, LW_OK, &error, "");
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

    screen->rows = body->rows;
    if (screen->page.surface.cols != body->cols && !page_draw(&screen->page, &screen->source, body->cols)) {
        canvas_text(body, 0, 1, STYLE_STOP, "There is no memory left to draw the page.");
        return;
    }
    keep_inside(screen);
    canvas_show(body, &screen->page.surface, screen->scrolled);
    if (screen->scrolled + body->rows < screen->page.rows)
        canvas_text(body, body->rows - 1, body->cols - 8, STYLE_FAINT, " more v ");
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

/* ---- cure weighings, one marker after the other */

static void ask_marker(struct record_screen *screen);

static bool good_mass(void *context, const char *text, char *note, size_t size)
{
    struct lw_error error = {""};
    double g;

    (void)context;
    note[0] = '\0';
    if (!text[0]) {
        text_copy(note, size, "Enter ends.");
        return true;
    }
    if (quantity_mass(text, "g", &g, &error) == LW_OK)
        return true;
    text_copy(note, size, error.text);
    return false;
}

static void marker_taken(void *context, const char *text)
{
    struct record_screen *screen = context;
    struct lw_now now = now_of(screen);
    struct lw_error error = {""};
    enum lw_status status;
    char said[96] = "";
    double g = 0;

    if (!text[0])
        return;
    status = quantity_mass(text, "g", &g, &error);
    if (status == LW_OK)
        status = run_cure_weigh(screen->run, &now, screen->marker, mass_ug(g), &error);
    snprintf(said, sizeof said, "Marker bar %d is weighed.", screen->marker);
    settle(screen, status, &error, said);
    if (status == LW_OK && screen->marker < BATCH_MARKERS) {
        screen->marker++;
        ask_marker(screen);
    }
}

/* "Marker bar 2 of 2: 103.4 g last time." */
static void ask_marker(struct record_screen *screen)
{
    const struct batch *batch = run_batch(screen->run);
    char question[TEXT_BYTES] = "";

    text_add(question, sizeof question, "What does marker bar %d weigh, in grams?", screen->marker);
    for (int i = batch->cure_weighings - 1; i >= 0; i--)
        if (batch->cure[i].marker == screen->marker) {
            char last[48];

            run_event_words(screen->run, run_event_at(screen->run, (int)batch->cure[i].event - 1), last, sizeof last);
            text_add(question, sizeof question, " Last time: %s.", last);
            break;
        }
    ask_line(screen->top.desk, "Cure weighing", question, "", 32, good_mass, marker_taken, screen);
}

static const char *not_cut(void *state)
{
    return run_batch(((struct record_screen *)state)->run)->cut_s ? NULL
                                                                  : "It was not cut into bars, so none can be weighed.";
}

static void weigh(void *state, const struct key *key)
{
    struct record_screen *screen = state;

    (void)key;
    screen->marker = 1;
    ask_marker(screen);
}

/* ---- tests */

static void test_text_taken(void *context, const char *text)
{
    struct record_screen *screen = context;
    struct lw_now now = now_of(screen);
    struct lw_error error = {""};

    settle(screen, run_tested(screen->run, &now, screen->test, screen->value, text, &error), &error,
           "The test is recorded.");
}

static void ask_test_text(struct record_screen *screen)
{
    ask_line(screen->top.desk, "Test", "What was seen? May stay empty.", "", TEXT_BYTES - 1, NULL, test_text_taken,
             screen);
}

static bool good_ph(void *context, const char *text, char *note, size_t size)
{
    struct lw_error error = {""};
    double ph;

    (void)context;
    note[0] = '\0';
    if (text[0] && quantity_number(text, &ph, &error) == LW_OK && ph >= 0 && ph <= 14)
        return true;
    text_copy(note, size, error.text[0] ? error.text : "A pH goes from 0 to 14.");
    return false;
}

static void ph_taken(void *context, const char *text)
{
    struct record_screen *screen = context;
    struct lw_error error = {""};

    if (quantity_number(text, &screen->value, &error) == LW_OK)
        ask_test_text(screen);
}

static void test_taken(void *context, int index)
{
    static const struct {
        enum batch_test test;
        double value;
    } of[] = {{TEST_TONGUE, 1}, {TEST_TONGUE, 0}, {TEST_PH, 0}, {TEST_LOOK, 1}, {TEST_LOOK, 0}};
    struct record_screen *screen = context;

    if (index < 0)
        return;
    screen->test = of[index].test;
    screen->value = of[index].value;
    if (screen->test == TEST_PH)
        ask_line(screen->top.desk, "Test", "What is the pH?", "", 16, good_ph, ph_taken, screen);
    else
        ask_test_text(screen);
}

static void test(void *state, const struct key *key)
{
    static const struct choice choices[] = {{"1", "tongue test: nothing to feel"},
                                            {"2", "tongue test: it bites"},
                                            {"3", "a pH"},
                                            {"4", "the look: as it should be"},
                                            {"5", "the look: not as it should be"}};
    struct record_screen *screen = state;

    (void)key;
    ask_choice(screen->top.desk, "Test",
               "Which? A test shows what it shows: it does not say that a product may be used or sold.", choices,
               sizeof choices / sizeof *choices, test_taken, screen);
}

/* ---- the outcome */

static void outcome_said(void *context, const char *why)
{
    static const char *const said[] = {"", "Released.", "On hold.", "Rejected."};
    struct record_screen *screen = context;
    struct lw_now now = now_of(screen);
    struct lw_error error = {""};

    settle(screen, run_outcome(screen->run, &now, screen->outcome, why, &error), &error, said[screen->outcome]);
}

static bool some_reason(void *context, const char *text, char *note, size_t size)
{
    (void)context;
    text_copy(note, size, text[0] ? "" : "A reason is wanted; it stays with the batch.");
    return text[0] != '\0';
}

/* Without anything against it a release needs no reason. */
static void outcome_taken(void *context, int index)
{
    struct record_screen *screen = context;
    struct lw_now now = now_of(screen);
    char doubt[160] = "", question[TEXT_BYTES] = "";

    if (index < 0)
        return;
    screen->outcome = (enum batch_outcome)(OUTCOME_RELEASED + index);
    if (screen->outcome == OUTCOME_RELEASED && !run_release_doubt(screen->run, &now, doubt, sizeof doubt)) {
        outcome_said(screen, "");
        return;
    }
    text_add(question, sizeof question, "%s%sWhy%s?", doubt, doubt[0] ? " " : "",
             doubt[0] ? " is it released all the same" : "");
    ask_line(screen->top.desk, "Outcome", question, "", TEXT_BYTES - 1, some_reason, outcome_said, screen);
}

static const char *not_finished(void *state)
{
    return run_batch(((struct record_screen *)state)->run)->finished_s
               ? NULL
               : "The batch is not finished yet; 3 goes to the bench.";
}

static void decide(void *state, const struct key *key)
{
    static const struct choice choices[] = {{"r", "released"}, {"h", "on hold"}, {"x", "rejected"}};
    struct record_screen *screen = state;

    (void)key;
    ask_choice(screen->top.desk, "Outcome", "What becomes of it? Nothing is labelled before it is released.", choices,
               sizeof choices / sizeof *choices, outcome_taken, screen);
}

/* ---- measured afterwards */

static bool good_count(void *context, const char *text, char *note, size_t size)
{
    struct lw_error error = {""};
    double n;

    (void)context;
    note[0] = '\0';
    if (text[0] && quantity_number(text, &n, &error) == LW_OK && n > 0)
        return true;
    text_copy(note, size, error.text[0] ? error.text : "A number above 0.");
    return false;
}

static void second_taken(void *context, const char *text)
{
    struct record_screen *screen = context;
    struct lw_now now = now_of(screen);
    struct lw_error error = {""};
    double n = 0;
    enum lw_status status = quantity_number(text, &n, &error);

    if (status == LW_OK && screen->place == RESIDUES)
        status = run_density(screen->run, &now, screen->mass_ug, n, &error);
    else if (status == LW_OK)
        status = run_residue(screen->run, &now, screen->place, screen->mass_ug, (int)n, &error);
    settle(screen, status, &error, "Recorded; it counts for what is learned.");
}

static bool some_mass(void *context, const char *text, char *note, size_t size)
{
    if (text[0])
        return good_mass(context, text, note, size);
    text_copy(note, size, "Grams, or a mass with its unit.");
    return false;
}

static void mass_taken(void *context, const char *text)
{
    struct record_screen *screen = context;
    struct lw_error error = {""};
    double g = 0;

    if (quantity_mass(text, "g", &g, &error) != LW_OK) {
        desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
        return;
    }
    screen->mass_ug = mass_ug(g);
    if (screen->place == RESIDUE_JUG)
        second_taken(screen, "1");
    else
        ask_line(screen->top.desk, "Measured",
                 screen->place == RESIDUES ? "In how many mL?" : "In how many of them together?",
                 screen->place == RESIDUES ? "100" : "1", 16, good_count, second_taken, screen);
}

static void measure_taken(void *context, int index)
{
    static const char *const question[] = {
        "How much was left in the jug, in grams?", "How much was left in the bags, in grams?",
        "How much was left in the colour cups, in grams?", "What does the batter weigh, without its cup, in grams?"};
    struct record_screen *screen = context;

    if (index < 0)
        return;
    screen->place = (enum residue_place)index; /* RESIDUES: a density */
    ask_line(screen->top.desk, "Measured", question[index], "", 32, some_mass, mass_taken, screen);
}

static const char *not_combined(void *state)
{
    return run_batch(((struct record_screen *)state)->run)->combined_s
               ? NULL
               : "Lye and oils were not combined: there was no batter.";
}

static void measure(void *state, const struct key *key)
{
    static const struct choice choices[] = {{"1", "what was left in the jug"},
                                            {"2", "what was left in the bags"},
                                            {"3", "what was left in the colour cups"},
                                            {"4", "the density: so many mL of batter on the scale"}};
    struct record_screen *screen = state;

    (void)key;
    ask_choice(screen->top.desk, "Measured", "What was measured?", choices, sizeof choices / sizeof *choices,
               measure_taken, screen);
}

/* ---- the rest */

static void note_taken(void *context, const char *text)
{
    struct record_screen *screen = context;
    struct lw_now now = now_of(screen);
    struct lw_error error = {""};

    settle(screen, run_note(screen->run, &now, text, &error), &error, "Noted.");
}

static void note(void *state, const struct key *key)
{
    struct record_screen *screen = state;

    (void)key;
    ask_line(screen->top.desk, "A note", "What is to be remembered of this batch?", "", TEXT_BYTES - 1, some_reason,
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

/* The batch of the same recipe before this one. */
struct before {
    const struct book_line *line;
    int64_t id;
};

static bool take_before(void *context, const struct book_line *line)
{
    struct before *before = context;

    if (line->recipe_id != before->line->recipe_id || line->id == before->line->id)
        return true;
    before->id = line->id;
    return false;
}

static void why(void *state, const struct key *key)
{
    struct record_screen *screen = state;
    struct book_filter all = {.terms = 0};
    struct before before = {&screen->source.line, 0};
    struct lw_error error = {""};

    (void)key;
    if (book_page(workshop_store(screen->top.workshop), &all, BOOK_NEWEST, &screen->source.line, false, BOOK_PAGE,
                  take_before, &before, &error) != LW_OK)
        desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
    else if (before.id == 0)
        desk_say(screen->top.desk, STYLE_PLAIN, "There is no earlier batch of this recipe to compare it with.");
    else
        compare_open(&screen->top, (int64_t[]){screen->source.line.id, before.id}, 2);
}

static void leave(void *state, const struct key *key)
{
    (void)key;
    desk_pop(((struct record_screen *)state)->top.desk);
}

static const struct action *actions_of(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"Tab", "next part", "Goes on to the next part; arrows and PgDn scroll.", next_section, NULL},
        {"y", "why", "Says why it differs from the batch of the recipe before it.", why, NULL},
        {"w", "weigh bars", "Puts the marker bars on the scale, one after the other.", weigh, not_cut},
        {"t", "test", "Records a tongue test, a pH or a look.", test, not_combined},
        {"o", "outcome", "Released, on hold or rejected, with the reason.", decide, not_finished},
        {"m", "measured", "What was left in jug, bags or cups; the density of the batter.", measure, not_combined},
        {"n", "new", "Starts a new batch from this one.", again, NULL},
        {"i", NULL, "Adds a note.", note, NULL},
        {"l", NULL, "Leaves it out of what is learned, or counts it again.", leave_out, not_finished},
        {"Esc", "back", "Goes back.", leave, NULL},
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
        status = workshop_learn(screen->top.workshop, error);
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
