/* record_after.c - what is said of a batch after it is made: bars weighed, tests, its outcome, what was measured. */
#include <stdio.h>

#include "base/mass.h"
#include "base/text.h"
#include "ui/kit/ask.h"
#include "ui/screens/batches/record.h"
#include "ui/screens/dates.h"
#include "ui/screens/show.h"
#include "work/quantity.h"

/* ---- cure weighings, one marker after the other */

static void ask_marker(struct record_screen *screen);

/* The mass, where it could be that of the bar which is asked for. */
static enum lw_status read_bar(const struct record_screen *screen, const char *text, int64_t *mass,
                               struct lw_error *error)
{
    struct lw_now now = record_now(screen);
    double g = 0;
    enum lw_status status = quantity_mass(text, "g", &g, error);

    *mass = status == LW_OK ? mass_ug(g) : 0;
    return status == LW_OK ? run_cure_may(screen->run, &now, screen->marker, *mass, error) : status;
}

static bool good_bar(void *context, const char *text, char *note, size_t size)
{
    struct record_screen *screen = context;
    struct lw_error error = {""};
    int64_t mass;

    note[0] = '\0';
    if (!text[0])
        text_copy(note, size, screen->next_marker ? "Enter alone goes on to the next one." : "Enter alone ends.");
    else if (read_bar(screen, text, &mass, &error) != LW_OK) {
        text_copy(note, size, error.text);
        return false;
    } else
        curing_doubt(screen->run, screen->marker, mass, note, size);
    return true;
}

/* When the bar was weighed last; below 0: never. */
static int last_weighing(const struct record_screen *screen, int marker)
{
    const struct batch *batch = run_batch(screen->run);
    int last = batch->cure_weighings - 1;

    while (last >= 0 && batch->cure[last].marker != marker)
        last--;
    return last;
}

/* The bar after this one: of the marker bars, or, on the first day, one that becomes one; 0: none. */
static int marker_after(const struct record_screen *screen, int marker)
{
    struct lw_now now = record_now(screen);

    while (++marker <= BATCH_MARKERS)
        if (run_cure_may(screen->run, &now, marker, 1, NULL) == LW_OK)
            return marker;
    return 0;
}

static void ask_next(struct record_screen *screen, int marker)
{
    screen->marker = marker;
    if (marker)
        ask_marker(screen);
}

static void weigh_bar(struct record_screen *screen)
{
    struct lw_now now = record_now(screen);
    struct lw_error error = {""};
    enum lw_status status = run_cure_weigh(screen->run, &now, screen->marker, screen->mass_ug, &error);
    int next = marker_after(screen, screen->marker);
    char said[96] = "";

    snprintf(said, sizeof said, "Marker bar %d is weighed.", screen->marker);
    record_settle(screen, status, &error, said);
    if (status == LW_OK)
        ask_next(screen, next);
}

static void doubt_taken(void *context, int index)
{
    struct record_screen *screen = context;

    if (index == 0)
        ask_marker(screen);
    else if (index == 1)
        weigh_bar(screen);
}

static void marker_taken(void *context, const char *text)
{
    static const struct choice choices[] = {{"n", "no, it is typed again"}, {"y", "yes, that is what the scale says"}};
    struct record_screen *screen = context;
    struct lw_error error = {""};
    char doubt[160], question[TEXT_BYTES] = "";

    if (!text[0])
        ask_next(screen, screen->next_marker);
    else if (read_bar(screen, text, &screen->mass_ug, &error) != LW_OK)
        desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
    else if (curing_doubt(screen->run, screen->marker, screen->mass_ug, doubt, sizeof doubt)) {
        text_add(question, sizeof question, "%s Is %s right?", doubt, text);
        ask_choice(screen->top.desk, "Cure weighing", question, choices, sizeof choices / sizeof *choices, doubt_taken,
                   screen);
    } else
        weigh_bar(screen);
}

/* "What does marker bar 2 weigh now, in grams? It was 103.4 g last time." A bar that has not been weighed may be one too many. */
static void ask_marker(struct record_screen *screen)
{
    int last = last_weighing(screen, screen->marker);
    char question[TEXT_BYTES] = "", mass[SHOW_BYTES];

    screen->next_marker = last < 0 ? 0 : marker_after(screen, screen->marker);
    text_add(question, sizeof question, "What does marker bar %d weigh%s, in grams?", screen->marker,
             last < 0 ? "" : " now");
    if (last >= 0) {
        show_number(mass, mass_g(run_batch(screen->run)->cure[last].mass_ug), 1);
        text_add(question, sizeof question, " It was %s g last time.", mass);
    }
    ask_line(screen->top.desk, "Cure weighing", question, "", 32, good_bar, marker_taken, screen);
}

const char *record_not_cut(void *state)
{
    return run_batch(((struct record_screen *)state)->run)->cut_s ? NULL
                                                                  : "It was not cut into bars, so none can be weighed.";
}

void record_weigh(void *state, const struct key *key)
{
    struct record_screen *screen = state;

    (void)key;
    ask_next(screen, marker_after(screen, 0));
}

/* ---- tests */

static void test_text_taken(void *context, const char *text)
{
    struct record_screen *screen = context;
    struct lw_now now = record_now(screen);
    struct lw_error error = {""};

    record_settle(screen, run_tested(screen->run, &now, screen->test, screen->value, text, &error), &error,
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

void record_test(void *state, const struct key *key)
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
    struct lw_now now = record_now(screen);
    struct lw_error error = {""};

    record_settle(screen, run_outcome(screen->run, &now, screen->outcome, why, &error), &error, said[screen->outcome]);
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
    struct lw_now now = record_now(screen);
    char doubt[RUN_DOUBT_BYTES] = "", question[RUN_DOUBT_BYTES + 64] = "";

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

const char *record_not_finished(void *state)
{
    return run_batch(((struct record_screen *)state)->run)->finished_s
               ? NULL
               : "The batch is not finished yet; 3 goes to the bench.";
}

void record_decide(void *state, const struct key *key)
{
    static const struct choice choices[] = {{"r", "released"}, {"h", "on hold"}, {"x", "rejected"}};
    struct record_screen *screen = state;

    (void)key;
    ask_choice(screen->top.desk, "Outcome", "What becomes of it? Nothing is labelled before it is released.", choices,
               sizeof choices / sizeof *choices, outcome_taken, screen);
}

/* ---- taken back */

static void unsay_taken(void *context, int index)
{
    struct record_screen *screen = context;
    struct lw_now now = record_now(screen);
    struct lw_error error = {""};

    if (index == 0)
        record_settle(screen, run_unsay(screen->run, &now, &error), &error, "Taken back; the record still shows it.");
}

const char *record_nothing_said(void *state)
{
    const char *not_finished = record_not_finished(state);

    if (not_finished)
        return not_finished;
    return run_last_said(((struct record_screen *)state)->run) ? NULL : "Nothing was said of it since it was finished.";
}

void record_unsay(void *state, const struct key *key)
{
    static const struct choice choices[] = {{"y", "yes, take it back"}, {"n", "no, leave it"}};
    struct record_screen *screen = state;
    const struct batch_event *last = run_last_said(screen->run);
    char words[TEXT_BYTES], day[DATE_BYTES], question[2 * TEXT_BYTES] = "";

    (void)key;
    run_event_words(screen->run, last, words, sizeof words);
    date_of(day, last->at_s, run_batch(screen->run)->head.offset_s);
    text_add(question, sizeof question, "Said last, on %s: %s", day, words);
    ask_choice(screen->top.desk, "Taking back", question, choices, sizeof choices / sizeof *choices, unsay_taken,
               screen);
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
    struct lw_now now = record_now(screen);
    struct lw_error error = {""};
    double n = 0;
    enum lw_status status = quantity_number(text, &n, &error);

    if (status == LW_OK && screen->place == RESIDUES)
        status = run_density(screen->run, &now, screen->mass_ug, n, &error);
    else if (status == LW_OK)
        status = run_residue(screen->run, &now, screen->place, screen->mass_ug, (int)n, &error);
    record_settle(screen, status, &error, "Recorded; it counts for what is learned.");
}

static bool some_mass(void *context, const char *text, char *note, size_t size)
{
    struct lw_error error = {"Grams, or a mass with its unit."};
    double g;

    (void)context;
    note[0] = '\0';
    if (text[0] && quantity_mass(text, "g", &g, &error) == LW_OK)
        return true;
    text_copy(note, size, error.text);
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
                 screen->place == RESIDUES ? "In how many mL?" : "In how many of them together?", "", 16, good_count,
                 second_taken, screen);
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

const char *record_not_combined(void *state)
{
    return run_batch(((struct record_screen *)state)->run)->combined_s
               ? NULL
               : "Lye and oils were not combined: there was no batter.";
}

void record_measure(void *state, const struct key *key)
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
