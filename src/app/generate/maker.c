/* maker.c - a batch step by step. The figures of this hand are invented; that they lie near common practice, and not on it, gives the
 * program something to learn. */
#include "maker.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "after.h"
#include "base/mass.h"
#include "piper.h"

/* Batches made alike differ in pace by so much, in logs. */
static const double PACE_NOISE = 0.18, RATIO_NOISE = 0.12;

static const double OVER_G = 33;

static const double JUG_G = 11, JUG_SPREAD_G = 1.5, BAG_G = 9, BAG_SPREAD_G = 1;

/* Log of the factor on all times for 10 C more; near practice. */
static const double LOG_TEN_C = -0.4;

/* A slip is so large a part of what was wanted; to put it right takes so long. */
enum { SLIP_PART = 10, SPOON_S = 60 };

enum { STAGES = 8, STEPS_MOST = 400 };

void must(enum lw_status status, const struct lw_error *error)
{
    if (status == LW_OK)
        return;
    fprintf(stderr, "ready: %s\n", error->text);
    exit(1);
}

/* SplitMix64 (Steele, Lea and Flood 2014). */
double maker_chance(struct maker *maker)
{
    uint64_t z = maker->chance += 0x9e3779b97f4a7c15U;

    z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9U;
    z = (z ^ z >> 27) * 0x94d049bb133111ebU;
    return (double)((z ^ z >> 31) >> 11) / 9007199254740992.0;
}

/* The chances of a batch are its own, so that a row changed in the table changes no other batch. Hash: FNV-1a (Fowler, Noll, Vo). */
static void begin_chances(struct maker *maker, const char *recipe)
{
    uint64_t hash = 0xcbf29ce484222325U;

    for (; *recipe; recipe++)
        hash = (hash ^ (unsigned char)*recipe) * 0x100000001b3U;
    maker->chance = maker->seed ^ hash ^ (uint64_t)maker->now.utc_s;
}

/* Box and Muller 1958. */
double maker_normal(struct maker *maker)
{
    double u = 1 - maker_chance(maker), v = maker_chance(maker);

    return sqrt(-2 * log(u)) * cos(6.283185307179586 * v);
}

/* Of a row of chances beside the others: what stays in vessels moves nothing else. */
static void begin_residues(struct maker *maker)
{
    struct maker beside = *maker;

    beside.chance = ~beside.chance;
    maker->jug_g = JUG_G + JUG_SPREAD_G * maker_normal(&beside);
    maker->bag_g = BAG_G + BAG_SPREAD_G * maker_normal(&beside);
}

/* ---- how the batter will thicken */

struct thickening {
    double at_s[STAGES]; /* from combining */
    double lye_c, oil_c;
    int stamped; /* the last stage that was */
};

struct wanted {
    int from, until;
};

static struct wanted wanted_by(enum technique technique)
{
    return technique == TECHNIQUE_PIPE    ? (struct wanted){5, 6}
           : technique == TECHNIQUE_LAYER ? (struct wanted){3, 5}
                                          : (struct wanted){2, 4};
}

static int waits_for(enum technique technique)
{
    return technique == TECHNIQUE_PIPE ? 2 : technique == TECHNIQUE_LAYER ? 1 : 0;
}

static const struct plan_portion *leading(const struct plan *plan)
{
    const struct plan_portion *most = &plan->portion[0];

    for (int p = 1; p < plan->portions; p++)
        if (waits_for(plan->portion[p].technique) > waits_for(most->technique))
            most = &plan->portion[p];
    return most;
}

static struct thickening thicken(struct maker *maker, const struct plan *plan, enum story story)
{
    const struct plan_portion *portion = leading(plan);
    struct wanted wanted = wanted_by(portion->technique);
    double middle_c = story == STORY_WARM ? 45 : story == STORY_COOL ? 29 : fmax(33 + 3 * maker_normal(maker), 28);
    double by_inputs = story == STORY_WARM || story == STORY_COOL ? 0 : 1; /* nothing else tells those two apart */
    double noise = by_inputs * PACE_NOISE * maker_normal(maker);
    double own = maker->own_pace * exp(noise + LOG_TEN_C * (middle_c - 35) / 10);
    double from = 60 * portion->pace.from.median * own;
    double ratio = portion->pace.until.median / portion->pace.from.median *
                   exp(by_inputs * RATIO_NOISE * maker_normal(maker));
    struct thickening made = {.lye_c = middle_c + 1.5 * maker_normal(maker),
                              .oil_c = middle_c + 1.5 * maker_normal(maker)};

    if (story == STORY_EARLY)
        ratio *= 2.5;
    if (story == STORY_SEIZED)
        from *= 0.15;
    for (int k = 1; k < STAGES; k++) {
        double after = (double)(k - wanted.from) / (wanted.until - wanted.from);

        made.at_s[k] = k < wanted.from    ? from * pow(0.38, wanted.from - k)
                       : k < wanted.until ? from * pow(ratio, after)
                                          : from * ratio * pow(1.45, k - wanted.until);
    }
    return made;
}

/* ---- the hand */

struct making {
    struct maker *maker;
    struct run *run;
    struct thickening batter;
    enum story story;
    bool watches; /* what is left in the bowl, until it is too stiff */
};

static void pass(struct maker *maker, double seconds)
{
    int64_t s = (int64_t)(seconds < 1 ? 1 : seconds);

    maker->now.utc_s += s;
    maker->now.steady_ms += 1000 * s;
}

/* Time goes by, and what the batter does meanwhile is stamped. */
static void wait(struct making *making, double seconds)
{
    struct maker *maker = making->maker;
    const struct batch *batch = run_batch(making->run);
    double until_s = (double)maker->now.utc_s + seconds;
    struct lw_error error = {""};

    while (batch->combined_s && making->batter.stamped + 1 < STAGES) {
        int next = making->batter.stamped + 1;
        double at_s = (double)batch->combined_s + making->batter.at_s[next];

        if (at_s > until_s)
            break;
        if (at_s > (double)maker->now.utc_s)
            pass(maker, at_s - (double)maker->now.utc_s);
        must(run_stage(making->run, &maker->now, next, &error), &error);
        making->batter.stamped = next;
    }
    if (until_s > (double)maker->now.utc_s)
        pass(maker, until_s - (double)maker->now.utc_s);
}

static const struct step *at_hand(const struct making *making)
{
    return &run_batch(making->run)->step[run_at(making->run)].step;
}

static const struct remedy *taking_out(const struct remedy remedies[], int n)
{
    for (int i = 0; i < n; i++)
        if (remedies[i].kind == REMEDY_TAKE_OUT)
            return &remedies[i];
    fprintf(stderr, "ready: what is over cannot be taken out\n");
    exit(1);
}

/* What is too much in its cup is seen at once, and spooned back as the bench proposes. */
static void slip(struct making *making, const struct ask *ask)
{
    struct part_ref what = at_hand(making)->what;
    int64_t over_ug = ask->target_ug / SLIP_PART / ask->division_ug * ask->division_ug;
    struct maker *maker = making->maker;
    struct remedy remedies[REMEDIES];
    struct words words[REMEDIES];
    const struct remedy *remedy;
    struct ask spoon;
    struct lw_error error = {""};
    char echo[256];
    int n;

    must(run_weigh(making->run, &maker->now, ask->reading_ug + over_ug, echo, sizeof echo, &error), &error);
    n = run_remedies(making->run, what, remedies, words);
    remedy = taking_out(remedies, n);
    must(run_put_right(making->run, &maker->now, remedy, words[remedy - remedies].what, &error), &error);
    pass(maker, SPOON_S);
    run_ask(making->run, run_at(making->run), &maker->now, &spoon);
    must(run_weigh(making->run, &maker->now, spoon.reading_ug, echo, sizeof echo, &error), &error);
}

static void weigh(struct making *making, const struct ask *ask)
{
    const struct step *step = at_hand(making);
    struct maker *maker = making->maker;
    double dice = maker_chance(maker);
    int64_t off = dice < 0.6 ? 0 : dice < 0.85 ? ask->division_ug : -ask->division_ug;
    struct lw_error error = {""};
    char echo[256];

    if (step->what.part == PART_ALKALI && making->story == STORY_SLIP) {
        slip(making, ask);
        return;
    }
    if (ask->target_ug < 20 * ask->division_ug)
        off = 0;
    if (making->story == STORY_OVER && step->kind == STEP_POUR_OUT && ask->target_ug > mass_ug(OVER_G))
        off = ask->reading_ug < ask->before_ug ? -mass_ug(OVER_G)
                                               : mass_ug(OVER_G); /* the jug may be what is weighed */
    must(run_weigh(making->run, &maker->now, ask->reading_ug + off, echo, sizeof echo, &error), &error);
}

static double lasts_s(const struct making *making, enum step_kind kind)
{
    static const double usual[] = {
        [STEP_LAY_OUT] = 600,   [STEP_WEIGH] = 40,    [STEP_DISPERSE] = 90,   [STEP_DISSOLVE] = 240,
        [STEP_COOL] = 2400,     [STEP_MELT] = 900,    [STEP_KEEP_BACK] = 30,  [STEP_JUG_CHECK] = 30,
        [STEP_COMBINE] = 60,    [STEP_EMULSIFY] = 90, [STEP_POUR_OUT] = 50,   [STEP_STAYS] = 5,
        [STEP_COLOUR] = 90,     [STEP_SCENT] = 40,    [STEP_FILL_BAGS] = 120, [STEP_POUR] = 60,
        [STEP_CHILL] = 2700,    [STEP_RECOUNT] = 240, [STEP_PLACE] = 400,     [STEP_COVER] = 60,
        [STEP_UNMOULD] = 79200, [STEP_CUT] = 1500,    [STEP_CURE] = 60,       [STEP_OTHER] = 60,
        [STEP_PUT_RIGHT] = 60,
    };

    return usual[kind] * (0.8 + 0.4 * maker_chance(making->maker));
}

/* Until the trace that the technique wants. */
static void stand(struct making *making)
{
    const struct batch *batch = run_batch(making->run);
    struct wanted wanted = wanted_by(leading(run_planned(making->run)->plan)->technique);
    double left_s = (double)batch->combined_s + making->batter.at_s[wanted.from] - (double)making->maker->now.utc_s;

    if (left_s > 0)
        wait(making, left_s + 5);
}

/* Poured at the trace that blending gives. */
static bool pours(const struct making *making)
{
    return waits_for(leading(run_planned(making->run)->plan)->technique) == 0;
}

static void place(struct making *making)
{
    struct pieces_line lines[64];
    int n = after_shelf(making->maker, lines, 64);
    struct lw_error error = {""};

    for (int i = 0; i < n; i++) {
        int many = lines[i].on_shelf < 24 ? lines[i].on_shelf : 24;

        if (strcmp(lines[i].kind, "quince blossom") == 0 || strcmp(lines[i].kind, "leaf") == 0)
            must(run_place(making->run, &making->maker->now, many, &lines[i], &error), &error);
    }
    must(run_done(making->run, &making->maker->now, &error), &error);
}

static void cut(struct making *making)
{
    const struct batch *batch = run_batch(making->run);
    bool slab = strcmp(batch->head.name, "Quince Orchard base") == 0;
    double each_g = mass_g(run_charged(making->run)->batter_ug) / (slab ? 12 : 10);
    struct lw_error error = {""};

    must(run_cut(making->run, &making->maker->now, slab ? 12 : 10,
                 floor(each_g * (0.94 + 0.03 * maker_chance(making->maker))), &error),
         &error);
}

static void two_counts(struct making *making, const struct step *step)
{
    const struct batch_pieces *pieces = &run_batch(making->run)->pieces[0];
    struct lw_error error = {""};
    int lost;

    if (step->kind == STEP_CUT) {
        cut(making);
        return;
    }
    for (int k = 0; k < run_batch(making->run)->kinds; k++)
        if (run_batch(making->run)->pieces[k].portion == step->what.index)
            pieces = &run_batch(making->run)->pieces[k];
    lost = pieces->good > 0 && maker_chance(making->maker) < 0.4 ? 1 : 0;
    must(run_recount(making->run, &making->maker->now, pieces->good - lost, pieces->rejects - pieces->scraped + lost,
                     &error),
         &error);
}

static void do_step(struct making *making)
{
    struct maker *maker = making->maker;
    const struct step *step = at_hand(making);
    struct lw_error error = {""};
    struct ask ask;

    if (step->kind == STEP_STAND || (step->kind == STEP_EMULSIFY && pours(making)))
        stand(making);
    if (step->kind <= STEP_COVER && (step->kind < STEP_CHILL || making->watches))
        wait(making, lasts_s(making, step->kind));
    else
        pass(maker, lasts_s(making, step->kind));
    run_ask(making->run, run_at(making->run), &maker->now, &ask);
    switch (ask.kind) {
    case ASK_READING:
        weigh(making, &ask);
        break;
    case ASK_TEMPERATURES:
        must(run_combine(making->run, &maker->now, round(making->batter.lye_c), round(making->batter.oil_c), &error),
             &error);
        break;
    case ASK_TWO_COUNTS:
        two_counts(making, step);
        break;
    case ASK_PIECES:
        piper_pipe(maker, making->run, making->batter.at_s[6]);
        must(run_done(making->run, &maker->now, &error), &error);
        break;
    case ASK_COUNT:
        place(making);
        break;
    case ASK_ENTER:
    case ASK_STAGE:
        must(run_done(making->run, &maker->now, &error), &error);
        break;
    }
}

static struct making begin(struct maker *maker, const char *recipe, enum story story)
{
    struct making making = {.maker = maker, .story = story};
    struct run_choice choice;
    struct lw_error error = {""};
    int64_t recipe_id = 0, id = 0;

    begin_chances(maker, recipe);
    begin_residues(maker);
    must(recipes_find(workshop_store(maker->workshop), NULL, recipe, &recipe_id, &error), &error);
    must(run_choose(maker->workshop, recipe_id, &choice, &error), &error);
    must(run_start(maker->workshop, &choice, &id, &error), &error);
    must(run_open(maker->workshop, id, &making.run, &error), &error);
    making.watches = story != STORY_EARLY && (maker_chance(maker) < 0.8 || story == STORY_WARM || story == STORY_COOL);
    making.batter = thicken(maker, run_planned(making.run)->plan, story);
    return making;
}

/* What goes wrong on the bench; true where the batch ends with it. */
static bool ends_badly(struct making *making, const char *note)
{
    const struct batch *batch = run_batch(making->run);
    struct lw_error error = {""};

    if (making->story == STORY_SEIZED && batch->combined_s) {
        wait(making, making->batter.at_s[7] + 20);
        must(run_problem(making->run, &making->maker->now, "it seized", &error), &error);
    } else if (making->story != STORY_ASIDE || batch->phase != PHASE_SPLIT) {
        return false;
    }
    must(run_set_aside(making->run, &making->maker->now, note, &error), &error);
    must(run_finish(making->run, &making->maker->now, &error), &error);
    return true;
}

void maker_make(struct maker *maker, const char *recipe, enum story story, const char *note)
{
    struct making making = begin(maker, recipe, story);
    struct lw_error error = {""};
    bool ended = false;

    for (int i = 0; i < STEPS_MOST && run_at(making.run) >= 0 && !ended; i++) {
        do_step(&making);
        ended = ends_badly(&making, note);
    }
    if (!ended) {
        after_answers(maker, making.run, story);
        must(run_finish(making.run, &maker->now, &error), &error);
    }
    after_said(maker, making.run, story, note);
    must(run_save(making.run, &error), &error);
    run_free(making.run);
}

struct run *maker_begin(struct maker *maker, const char *recipe, enum story story, enum step_kind kind, enum part part)
{
    struct making making = begin(maker, recipe, story);

    for (int i = 0; i < STEPS_MOST && run_at(making.run) >= 0; i++) {
        const struct step *step = at_hand(&making);

        if (step->kind == kind && step->what.part == part)
            break;
        do_step(&making);
    }
    return making.run;
}
