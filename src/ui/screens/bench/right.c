/* right.c - a reading that is off: typed wrong, or so; and then what can still be done about it. */
#include <math.h>

#include "base/mass.h"
#include "base/text.h"
#include "ui/kit/ask.h"
#include "ui/screens/bench/state.h"
#include "work/quantity.h"
#include "work/words.h"

enum { QUESTION_BYTES = LW_NAME_BYTES + 64 };

static void remedy_taken(void *context, int index)
{
    struct bench_screen *screen = context;
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    if (index < 0)
        desk_say(screen->top.desk, STYLE_CAUTION, "Nothing is decided about it yet; r shows the list again.");
    else if (bench_done(
                 screen,
                 run_put_right(screen->run, &now, &screen->remedy[index], screen->remedy_words[index].what, &error),
                 &error))
        desk_say(screen->top.desk, STYLE_PLAIN, "%s", screen->remedy_words[index].what);
}

static const char *name_of(const struct bench_screen *screen, struct part_ref part)
{
    return document_name(run_planned(screen->run)->input, part);
}

/* False where nothing has to be done about the part. */
static bool open_remedies(struct bench_screen *screen, struct part_ref part)
{
    struct numbered lines = {0};
    char question[QUESTION_BYTES] = "";

    screen->off = part;
    screen->remedies = run_remedies(screen->run, part, screen->remedy, screen->remedy_words);
    if (screen->remedies == 0)
        return false;
    for (int i = 0; i < screen->remedies; i++)
        numbered_add(&lines, "%s%s%s", screen->remedy_words[i].what, screen->remedy_words[i].todo[0] ? "\n" : "",
                     screen->remedy_words[i].todo);
    text_add(question, sizeof question, "%s: what can be done now?", name_of(screen, part));
    numbered_open(screen->top.desk, "Put right", question, &lines, remedy_taken, screen);
    return true;
}

static bool record(struct bench_screen *screen, int64_t reading_ug)
{
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};
    char echo[ECHO_BYTES] = "";

    if (!bench_done(screen, run_weigh(screen->run, &now, reading_ug, echo, sizeof echo, &error), &error))
        return false;
    text_copy(screen->echo, sizeof screen->echo, echo);
    return true;
}

static void ask_really_in(struct bench_screen *screen, struct part_ref part);

/* The full jug tells that something else is off: that is what has to be said and put right. */
static void so_or_not(void *context, int index)
{
    struct bench_screen *screen = context;
    bool jug = screen->off.part == PART_BATTER;

    if (index != 1 && screen->at >= 0)
        bench_type(screen, TYPING_STEP, "");
    if (index != 1 || !record(screen, screen->reading_ug))
        return;
    if (!jug)
        open_remedies(screen, screen->off);
    else if (screen->slip.kind == SLIP_FORGOTTEN || screen->slip.kind == SLIP_EXTRA)
        ask_really_in(screen, screen->slip.what);
    else
        bench_correct(screen, NULL);
}

void bench_weigh(struct bench_screen *screen, int64_t reading_ug)
{
    struct judgement judgement = {0};
    struct lw_error error = {""};
    struct numbered lines = {0};

    if (run_judge(screen->run, reading_ug, &judgement, &error) != LW_OK) {
        desk_say(screen->top.desk, STYLE_CAUTION, "%s", error.text);
        return;
    }
    if (judgement.fine) {
        record(screen, reading_ug);
        return;
    }
    screen->off = run_batch(screen->run)->step[screen->at].step.what;
    screen->reading_ug = reading_ug;
    screen->slip = judgement.slip;
    numbered_add(&lines, "typed wrong: type again");
    numbered_add(&lines, "it is so");
    numbered_open(screen->top.desk, "This is not what was expected", judgement.what, &lines, so_or_not, screen);
}

/* Only what moves the margin can be put right. */
static bool can_be_bettered(struct bench_screen *screen, struct part_ref part)
{
    bool moves = part.part == PART_OIL || part.part == PART_ALKALI || part.part == PART_WATER ||
                 part.part == PART_LIQUID || part.part == PART_ADDITIVE;
    int n = moves ? run_remedies(screen->run, part, screen->remedy, NULL) : 0;

    return n > 1 || (n == 1 && screen->remedy[0].kind != REMEDY_LEAVE);
}

/* Parts that were weighed, each once, the last first; with `wrong`, only those about which something can be done. */
static int weighed_parts(struct bench_screen *screen, bool wrong, struct numbered *lines)
{
    const struct batch *batch = run_batch(screen->run);

    screen->parts = 0;
    for (int i = batch->steps - 1; i >= 0 && screen->parts < NUMBERED_LINES; i--) {
        const struct batch_step *step = &batch->step[i];
        bool weighed = step->state == STEP_DONE && step->step.kind == STEP_WEIGH;

        for (int j = 0; j < screen->parts && weighed; j++)
            weighed = screen->part[j].part != step->step.what.part || screen->part[j].index != step->step.what.index ||
                      screen->part[j].sub != step->step.what.sub;
        if (!weighed || (wrong && !can_be_bettered(screen, step->step.what)))
            continue;
        screen->part[screen->parts++] = step->step.what;
        numbered_add(lines, "%s", name_of(screen, step->step.what));
    }
    return screen->parts;
}

static void part_taken(void *context, int index)
{
    struct bench_screen *screen = context;

    if (index >= 0)
        open_remedies(screen, screen->part[index]);
}

void bench_put_right(void *state, const struct key *key)
{
    struct bench_screen *screen = state;
    struct numbered lines = {0};
    int parts = weighed_parts(screen, true, &lines);

    (void)key;
    if (parts == 0)
        desk_say(screen->top.desk, STYLE_PLAIN,
                 "Nothing that was weighed has to be put right; c says what is really in.");
    else if (parts == 1)
        open_remedies(screen, screen->part[0]);
    else
        numbered_open(screen->top.desk, "Put right", "Which weighing?", &lines, part_taken, screen);
}

enum lw_status bench_read_mass(const struct bench_screen *screen, const char *text, double *g, struct lw_error *error)
{
    static const char *const units[] = {[MASS_G] = "g", [MASS_OZ] = "oz", [MASS_LB] = "lb"};

    return quantity_mass(text, units[run_settings(screen->run)->mass_unit], g, error);
}

static bool good_mass(void *context, const char *text, char *note, size_t size)
{
    struct lw_error error = {""};
    double g = 0;

    if (!text[0])
        text_copy(note, size, "0 where it was forgotten.");
    else if (bench_read_mass(context, text, &g, &error) != LW_OK)
        text_copy(note, size, error.text);
    else
        text_copy(note, size,
                  g >= 0 ? "Enter puts it in the place of what was weighed." : "It cannot be less than nothing.");
    return text[0] && !error.text[0] && g >= 0;
}

static void corrected(void *context, const char *text)
{
    struct bench_screen *screen = context;
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};
    double g = 0;

    if (bench_read_mass(screen, text, &g, &error) == LW_OK &&
        bench_done(screen, run_correct(screen->run, &now, screen->off, mass_ug(g), &error), &error))
        open_remedies(screen, screen->off);
}

static void ask_really_in(struct bench_screen *screen, struct part_ref part)
{
    char question[QUESTION_BYTES] = "";

    screen->off = part;
    text_add(question, sizeof question, "How much of %s is really in?", name_of(screen, screen->off));
    ask_line(screen->top.desk, "What is really in", question, "", FIELD_BYTES - 1, good_mass, corrected, screen);
}

static void to_correct(void *context, int index)
{
    struct bench_screen *screen = context;

    if (index >= 0)
        ask_really_in(screen, screen->part[index]);
}

void bench_correct(void *state, const struct key *key)
{
    struct bench_screen *screen = state;
    struct numbered lines = {0};

    (void)key;
    if (weighed_parts(screen, false, &lines) == 0)
        desk_say(screen->top.desk, STYLE_PLAIN, "Nothing is weighed yet.");
    else
        numbered_open(screen->top.desk, "What is really in", "Of what?", &lines, to_correct, screen);
}
