/* steps.c - what Enter alone means at each kind of step, and what a typed number does. */
#include <math.h>

#include "base/day.h"
#include "base/mass.h"
#include "base/text.h"
#include "ui/screens/bench/state.h"
#include "work/words.h"

enum { PIECES_AT_ONCE = 2000, QUESTION_BYTES = 128 };

static enum step_kind kind_of_step(const struct bench_screen *screen)
{
    return run_batch(screen->run)->step[screen->at].step.kind;
}

static void done(struct bench_screen *screen)
{
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    if (bench_done(screen, run_done(screen->run, &now, &error), &error))
        screen->echo[0] = '\0';
}

bool bench_nothing_counted(const struct bench_screen *screen)
{
    int kind = run_kind(screen->run);

    return kind >= 0 && run_batch(screen->run)->pieces[kind].good + run_batch(screen->run)->pieces[kind].rejects == 0;
}

static void nothing_counted_told(void *context, int index)
{
    enum { COUNT_ON, COUNTED_LATER, NONE_PIPED };
    struct bench_screen *screen = context;
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    if (index == COUNTED_LATER)
        done(screen);
    else if (index == NONE_PIPED)
        bench_done(screen, run_skip(screen->run, &now, &error), &error);
}

static void too_few_told(void *context, int index)
{
    enum { COUNT_ON, NO_MORE };

    if (index == NO_MORE)
        done(context);
}

/* Of a batter that is setting none: there is no time to be asked. */
static int still_to_go(const struct bench_screen *screen)
{
    struct lw_now now = bench_now(screen);
    struct piping piping;

    if (run_kind(screen->run) < 0 || run_batch(screen->run)->going)
        return 0;
    run_piping(screen->run, &now, &piping);
    return piping.to_go;
}

/* Enter may have been meant for a step before; and without a count there is nothing to learn from. */
static void piped(struct bench_screen *screen)
{
    struct numbered lines = {0};
    char question[QUESTION_BYTES] = "";
    int to_go = still_to_go(screen);

    numbered_add(&lines, "no, back to counting");
    if (bench_nothing_counted(screen)) {
        numbered_add(&lines, "yes: they are counted after lifting");
        numbered_add(&lines, "yes: none were piped");
        numbered_open(screen->top.desk, "Nothing was counted", "Go on all the same?", &lines, nothing_counted_told,
                      screen);
    } else if (to_go > 0) {
        numbered_add(&lines, "yes: no more of them are piped");
        text_add(question, sizeof question, "%d %s still to go. Go on all the same?", to_go, to_go == 1 ? "is" : "are");
        numbered_open(screen->top.desk, "Fewer than wanted", question, &lines, too_few_told, screen);
    } else
        done(screen);
}

static void as_shown(struct bench_screen *screen)
{
    bench_weigh(screen, screen->ask.reading_ug);
}

static void combine(struct bench_screen *screen)
{
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};
    double lye_c = screen->kept > 0 ? screen->number[0] : NAN, oil_c = screen->kept > 1 ? screen->number[1] : NAN;

    if (bench_done(screen, run_combine(screen->run, &now, lye_c, oil_c, &error), &error))
        desk_say(screen->top.desk, STYLE_GOOD, "Combined: the clock runs from now.");
}

static void cut(struct bench_screen *screen)
{
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    bench_done(screen, run_cut(screen->run, &now, (int)screen->number[0], screen->number[1], &error), &error);
    screen->kept = 0;
}

static void recount(struct bench_screen *screen)
{
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    bench_done(screen, run_recount(screen->run, &now, (int)screen->number[0], (int)screen->number[1], &error), &error);
    screen->kept = 0;
}

static void more_than_piped_told(void *context, int index)
{
    enum { TYPE_AGAIN, SO };
    struct bench_screen *screen = context;

    if (index == SO) {
        recount(screen);
        return;
    }
    screen->kept = 0;
    if (index == TYPE_AGAIN)
        bench_type(screen, TYPING_STEP, "");
}

/* What was not typed stands as it was counted before. Of pieces that nobody counted while piping, any number can lie there. */
static void lifted(struct bench_screen *screen)
{
    const struct batch *batch = run_batch(screen->run);
    int kind = run_kind(screen->run);
    struct batch_pieces pieces = kind >= 0 ? batch->pieces[kind] : (struct batch_pieces){0};
    struct numbered lines = {0};
    char question[QUESTION_BYTES] = "";

    if (screen->kept < 1)
        screen->number[0] = pieces.good;
    if (screen->kept < 2)
        screen->number[1] = pieces.rejects - pieces.scraped;
    if (pieces.piped == 0 || screen->number[0] + screen->number[1] <= pieces.piped) {
        recount(screen);
        return;
    }
    text_add(question, sizeof question, "%d good and %d reject%s are more than the %d that were piped.",
             (int)screen->number[0], (int)screen->number[1], screen->number[1] == 1 ? "" : "s", pieces.piped);
    numbered_add(&lines, "typed wrong: type again");
    numbered_add(&lines, "it is so");
    numbered_open(screen->top.desk, "This is not what was expected", question, &lines, more_than_piped_told, screen);
}

static void recount_or_cut(struct bench_screen *screen)
{
    if (kind_of_step(screen) == STEP_CUT)
        cut(screen);
    else
        lifted(screen);
}

static void placed(void *context, int index)
{
    struct bench_screen *screen = context;
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};
    int pieces = (int)screen->number[0];

    if (index >= 0 && bench_done(screen, run_place(screen->run, &now, pieces, &screen->source[index], &error), &error))
        desk_say(screen->top.desk, STYLE_GOOD, "%d placed, %s of %s. More, or Enter when all are.", pieces,
                 screen->source[index].kind, screen->source[index].number);
}

struct sources {
    struct bench_screen *screen;
    struct numbered lines;
};

static bool add_source(void *context, const struct pieces_line *line)
{
    struct sources *sources = context;
    struct bench_screen *screen = sources->screen;
    long long days = (bench_now(screen).utc_s - line->made_s) / DAY_S;

    screen->source[sources->lines.count] = *line;
    numbered_add(&sources->lines, "%d of %s   batch %s, %lld days old", line->on_shelf, line->kind, line->number, days);
    return sources->lines.count < NUMBERED_LINES;
}

/* Which pieces on the shelf they are, the oldest first. */
static void ask_source(struct bench_screen *screen)
{
    struct sources sources = {.screen = screen};
    struct lw_error error = {""};

    if (batches_pieces(workshop_store(screen->top.workshop), add_source, &sources, &error) != LW_OK)
        desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
    else if (sources.lines.count == 0)
        desk_say(screen->top.desk, STYLE_PLAIN, "No pieces are on the shelf; Enter goes on without any.");
    else
        numbered_open(screen->top.desk, "Pieces placed", "Which ones?", &sources.lines, placed, screen);
}

void bench_enter(void *state, const struct key *key)
{
    static void (*const by_kind[])(struct bench_screen * screen) = {
        [ASK_ENTER] = done,   [ASK_READING] = as_shown,          [ASK_TEMPERATURES] = combine, [ASK_STAGE] = done,
        [ASK_PIECES] = piped, [ASK_TWO_COUNTS] = recount_or_cut, [ASK_COUNT] = done,
    };
    struct bench_screen *screen = state;

    (void)key;
    if (screen->at < 0)
        bench_close(screen);
    else
        by_kind[screen->ask.kind](screen);
}

void bench_stamp(struct bench_screen *screen, int stage)
{
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    if (stage >= STAGES)
        desk_say(screen->top.desk, STYLE_PLAIN, "Trace goes from 0, unmixed, to 7, set up.");
    else if (bench_done(screen, run_stage(screen->run, &now, stage, &error), &error))
        desk_say(screen->top.desk, STYLE_GOOD, "Stamped: %d, %s.", stage, run_stage_name(stage));
}

void bench_count(struct bench_screen *screen, enum event_kind what, int how_many)
{
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};
    struct piping before = {0};
    bool spends = what != EVENT_SCRAPED && run_kind(screen->run) >= 0;

    if (spends)
        run_piping(screen->run, &now, &before);
    if (!bench_done(screen, run_count(screen->run, &now, what, how_many, &error), &error) || !spends)
        return;
    if (how_many <= before.more)
        screen->spent_said = false;
    else if (!screen->spent_said) {
        screen->spent_said = true;
        desk_say(screen->top.desk, STYLE_CAUTION, "More than the batter %s; weigh what is left (w).",
                 run_batch(screen->run)->pieces[run_kind(screen->run)].left_weighed ? "weighed should give"
                                                                                    : "should give by the plan");
    }
}

static void many_taken(void *context, int index)
{
    static const enum event_kind kinds[] = {EVENT_PIECES, EVENT_REJECTS, EVENT_SCRAPED};
    struct bench_screen *screen = context;

    if (index >= 0 && index < 3)
        bench_count(screen, kinds[index], (int)screen->number[0]);
}

static void ask_many(struct bench_screen *screen)
{
    struct numbered lines = {0};
    int count = (int)screen->number[0];

    numbered_add(&lines, "%d more good ones", count);
    numbered_add(&lines, "%d rejects", count);
    numbered_add(&lines, "%d rejects scraped back into the bag", count);
    numbered_add(&lines, "nothing, it was typed by mistake");
    numbered_open(screen->top.desk, "So many at once?", "", &lines, many_taken, screen);
}

static bool is_count(struct bench_screen *screen, double number)
{
    if (number >= 0 && number <= PIECES_AT_ONCE && number == floor(number))
        return true;
    desk_say(screen->top.desk, STYLE_PLAIN, "That is not a count: type a whole number up to %d.", PIECES_AT_ONCE);
    return false;
}

static void take_left(struct bench_screen *screen, double g)
{
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    if (bench_done(screen, run_left(screen->run, &now, mass_ug(g), true, &error), &error))
        screen->spent_said = false;
}

static double celsius(const struct bench_screen *screen, double typed)
{
    return run_settings(screen->run)->fahrenheit ? (typed - 32) / 1.8 : typed;
}

/* Numbers of a step that asks for two are kept until both are there; the lightest bar is the only one that is no count. */
static void keep_number(struct bench_screen *screen, double number)
{
    bool temperature = screen->ask.kind == ASK_TEMPERATURES;
    bool mass = kind_of_step(screen) == STEP_CUT && screen->kept == 1;

    if (!temperature && !mass && !is_count(screen, number))
        return;
    if (screen->kept == 2)
        screen->kept = 0;
    screen->number[screen->kept++] = temperature ? celsius(screen, number) : number;
    screen->typing = TYPING_NOTHING;
    if (screen->kept == 2 && !temperature)
        recount_or_cut(screen);
    else if (screen->kept == 1 && !temperature)
        desk_say(screen->top.desk, STYLE_GOOD,
                 kind_of_step(screen) == STEP_CUT ? "%d bars; now type what the lightest weighs."
                                                  : "%d good; now type how many rejects lie beside them.",
                 (int)number);
}

static void take_count(struct bench_screen *screen, double number)
{
    if (!is_count(screen, number))
        return;
    screen->number[0] = number;
    screen->typing = TYPING_NOTHING;
    if (screen->ask.kind == ASK_PIECES)
        ask_many(screen);
    else
        ask_source(screen);
}

void bench_take_number(struct bench_screen *screen, double number)
{
    if (screen->typing == TYPING_LEFT) {
        screen->typing = TYPING_NOTHING;
        take_left(screen, number);
    } else if (screen->ask.kind == ASK_READING) {
        screen->typing = TYPING_NOTHING;
        bench_weigh(screen, mass_ug(number));
    } else if (screen->ask.kind == ASK_TEMPERATURES || screen->ask.kind == ASK_TWO_COUNTS)
        keep_number(screen, number);
    else
        take_count(screen, number);
}
