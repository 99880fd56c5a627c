/* run_ask.c - what the step at hand asks for, with all that stands beside it. */
#include <math.h>
#include <string.h>

#include "base/mass.h"
#include "base/number.h"
#include "base/text.h"
#include "calc/charged.h"
#include "calc/pace_stamped.h"
#include "work/run_inside.h"
#include "work/step_fact.h"
#include "work/words.h"
#include "work/words_speech.h"

/* Lye, or dry alkali, is open on the bench. */
static bool is_lye_step(const struct step *step)
{
    return step->use == VESSEL_ALKALI_CUP || step->what.part == PART_ALKALI || step->kind == STEP_DISSOLVE ||
           step->kind == STEP_COMBINE;
}

static void add_line(struct ask *ask, const char *text)
{
    if (ask->lines < ASK_LINES && text[0])
        text_copy(ask->line[ask->lines++], sizeof ask->line[0], text);
}

/* The scale's number alone, in the maker's unit: what is drawn large. */
static void write_large(const struct run *run, int64_t ug, int64_t division_ug, struct ask *ask)
{
    char *unit;

    text_copy(ask->large, sizeof ask->large, run_mass(run, ug, division_ug).text);
    unit = strrchr(ask->large, ' ');
    if (!unit)
        return;
    text_copy(ask->unit, sizeof ask->unit, unit + 1);
    *unit = '\0';
}

static void explain_reading(const struct run *run, const struct step *step, const struct on_scale *on, struct ask *ask)
{
    char *out = ask->explain;
    size_t size = sizeof ask->explain;
    int64_t inside = on->before_ug - on->empty_ug;

    if (step->vessel < 0 && inside == 0) {
        text_add(out, size, "vessel on, tared to 0");
        return;
    }
    if (step->vessel >= 0)
        text_add(out, size, "%s %s", run->batch.head.vessel[step->vessel].name,
                 run_mass(run, on->empty_ug, on->division_ug).text);
    if (inside != 0)
        text_add(out, size, "%s%s in it as weighed", out[0] ? ", " : "", run_mass(run, inside, on->division_ug).text);
    text_add(out, size, on->target_ug < 0 ? ", and %s out" : ", and now %s",
             run_mass(run, on->target_ug < 0 ? -on->target_ug : on->target_ug, on->division_ug).text);
}

static void ask_reading(const struct run *run, const struct step *step, struct ask *ask)
{
    struct on_scale on = run_on_scale(run, step);
    char line[160] = "";

    ask->target_ug = on.target_ug;
    ask->reading_ug = on.reading_ug;
    ask->before_ug = on.before_ug;
    ask->division_ug = on.division_ug;
    ask->tolerance_ug = on.tolerance_ug;
    ask->scale = on.scale;
    write_large(run, on.reading_ug, on.division_ug, ask);
    explain_reading(run, step, &on, ask);
    text_add(line, sizeof line, "Within %s is fine.", run_mass(run, on.tolerance_ug, on.division_ug).text);
    add_line(ask, line);
}

static void ask_jug(const struct run *run, const struct step *step, struct ask *ask)
{
    struct on_scale on = run_on_scale(run, step);
    int64_t expected_ug, tolerance_ug;

    charged_jug(run_input(run), run_plan(run), &run->batch, false, &expected_ug, &tolerance_ug);
    ask->scale = on.scale;
    ask->division_ug = on.division_ug;
    ask->tolerance_ug = tolerance_ug > on.tolerance_ug ? tolerance_ug : on.tolerance_ug;
    ask->before_ug = on.empty_ug;
    ask->target_ug = expected_ug;
    ask->reading_ug = mass_nearest(expected_ug + on.empty_ug, on.division_ug);
    write_large(run, ask->reading_ug, on.division_ug, ask);
    if (step->vessel >= 0)
        text_add(ask->explain, sizeof ask->explain, "%s %s and %s by its weighings",
                 run->batch.head.vessel[step->vessel].name, run_mass(run, on.empty_ug, on.division_ug).text,
                 run_mass(run, expected_ug, on.division_ug).text);
    else
        text_add(ask->explain, sizeof ask->explain, "%s by its weighings, the vessel tared away",
                 run_mass(run, expected_ug, on.division_ug).text);
}

static void ask_count(const struct run *run, const struct step *step, struct ask *ask)
{
    for (int i = 0; i < run->batch.kinds; i++)
        if (run->batch.pieces[i].portion == step->what.index) {
            text_add(ask->large, sizeof ask->large, "%d", run->batch.pieces[i].good);
            text_add(ask->unit, sizeof ask->unit, "good");
        }
}

/* Colours of the portion that are other on the bench than they will be. */
static void tell_shift(const struct run *run, int portion, struct ask *ask)
{
    const struct plan_document *document = run_planned(run);

    for (int i = 0; i < document->plan->findings; i++) {
        const struct finding *finding = &document->plan->finding[i];

        if (finding->code == FINDING_COLOUR_SHIFTS && finding->about.part == PART_COLOURANT &&
            finding->about.index == portion)
            ask->shift = document->words[i];
    }
}

static void name_doses(const struct run *run, int portion, struct ask *ask)
{
    const struct recipe *recipe = run_input(run)->recipe;

    for (int c = 0; portion < recipe->portions && c < recipe->portion[portion].colourants; c++) {
        const struct plan_colourant *colourant = &run_plan(run)->portion[portion].colourant[c];
        char line[160] = "";

        text_add(line, sizeof line, "%s, %s",
                 document_name(run_input(run), (struct part_ref){PART_COLOURANT, (int16_t)portion, (int16_t)c}),
                 run_mass(run, colourant->colourant.rounded_ug, colourant->colourant.division_ug).text);
        if (colourant->carrier.rounded_ug > 0)
            text_add(line, sizeof line, " in %s of oil",
                     run_mass(run, colourant->carrier.rounded_ug, colourant->carrier.division_ug).text);
        add_line(ask, line);
    }
}

/* What was weighed of each fragrance for the portion; for the whole batter with sub 0. */
static void name_scents(const struct run *run, int sub, struct ask *ask)
{
    const struct plan *plan = run_plan(run);

    for (int f = 0; f < run_input(run)->recipe->fragrances; f++) {
        const struct weighing *weighing = sub == 0 ? &plan->batter_fragrance[f] : &plan->portion[sub - 1].fragrance[f];
        const struct charge *charge = &run->batch.fragrance[sub][f];
        char line[160] = "";

        if (weighing->rounded_ug == 0)
            continue;
        text_add(line, sizeof line, "%s, %s",
                 document_name(run_input(run), (struct part_ref){PART_FRAGRANCE, (int16_t)f, 0}),
                 run_mass(run, charge->has ? charge->mass_ug : weighing->rounded_ug, weighing->division_ug).text);
        add_line(ask, line);
    }
}

/* Where lye was put right by leaving some of it out. */
static void tell_share(const struct run *run, struct ask *ask)
{
    const struct step lye = {.use = VESSEL_LYE, .vessel = -1};
    double share = run->batch.charges.lye_used;
    char line[160] = "";

    if (share >= 1)
        return;
    text_add(line, sizeof line, "Pour only %s of the lye; the rest of it stays out.",
             run_mass(run, (int64_t)(share * (double)run_content(run, &lye)), UG_PER_G / 100).text);
    add_line(ask, line);
}

static void tell_temperature(const struct run *run, struct ask *ask)
{
    const struct plan_heat *heat = &run_plan(run)->heat;
    bool fahrenheit = run->settings.fahrenheit;
    char number[NUMBER_BYTES], line[160] = "";

    if (!heat->has)
        return;
    number_write(number, fahrenheit ? heat->up_to_c * 1.8 + 32 : heat->up_to_c, 0);
    text_add(line, sizeof line, "It takes itself up to about %s %s.", number, fahrenheit ? "F" : "C");
    add_line(ask, line);
}

/* Whose word a forecast is, as the batch was started. */
static void tell_who_says(int batches, struct ask *ask)
{
    char line[160] = "";

    if (batches > 0)
        text_add(line, sizeof line, "Told by %d of your own batches.", batches);
    else
        text_add(line, sizeof line, "Told by common practice: no batch of yours spoke when this one was started.");
    add_line(ask, line);
}

/* Of the first portion whose technique waits. */
static void tell_forecast(const struct run *run, const struct lw_now *now, struct ask *ask)
{
    const struct plan *plan = &run->charged;
    char line[160] = "";

    for (int p = 0; p < plan->portions; p++) {
        const struct plan_portion *portion = &plan->portion[p];
        struct quantiles from, until;
        double gone = pace_elapsed_min(&run->batch, now->utc_s);

        if (portion->batter_ug == 0 || portion->technique == TECHNIQUE_POUR || portion->technique == TECHNIQUE_SWIRL)
            continue;
        pace_stamped(run_input(run), plan, portion, &run->batch, now->utc_s, &from, &until);
        text_add(line, sizeof line, "Stiff enough in about %d min (%d to %d), too stiff in about %d (%d to %d).",
                 (int)fmax(0, from.median - gone), (int)fmax(0, from.low - gone), (int)fmax(0, from.high - gone),
                 (int)fmax(0, until.median - gone), (int)fmax(0, until.low - gone), (int)fmax(0, until.high - gone));
        add_line(ask, line);
        tell_who_says(portion->pace.batches, ask);
        return;
    }
}

/* Whose word the number of pieces and their mass were planned by. */
static void tell_pieces_learned(const struct run *run, int portion, struct ask *ask)
{
    const struct plan_pieces *pieces = &run_plan(run)->portion[portion].pieces;
    char line[160] = "";

    if (pieces->mass_batches > 0)
        text_add(line, sizeof line, "%s g a piece by %d of your batches. ", speech_number(pieces->mass_g, 2).text,
                 pieces->mass_batches);
    if (pieces->reject_batches > 0)
        text_add(line, sizeof line, "Rejects reckoned by %d of your batches.", pieces->reject_batches);
    if (line[0])
        add_line(ask, line);
}

static void tell_colours(const struct run *run, struct part_ref what, struct ask *ask)
{
    for (int p = 0; p < run_input(run)->recipe->portions; p++)
        if (what.part == PART_BATTER || what.index == p) {
            name_doses(run, p, ask);
            tell_shift(run, p, ask);
        }
}

static void add_details(const struct run *run, const struct step *step, const struct lw_now *now, struct ask *ask)
{
    if (step->kind == STEP_DISSOLVE)
        tell_temperature(run, ask);
    else if (step->kind == STEP_STAND)
        tell_forecast(run, now, ask);
    else if (step->kind == STEP_COMBINE)
        tell_share(run, ask);
    else if (step->kind == STEP_FILL_BAGS)
        for (int p = 0; p < run_input(run)->recipe->portions; p++)
            tell_pieces_learned(run, p, ask);
    else if (step->kind == STEP_SCENT)
        name_scents(run, step->what.part == PART_PORTION ? step->what.index + 1 : 0, ask);
    else if (step->kind == STEP_COLOUR)
        tell_colours(run, step->what, ask);
}

void run_ask(const struct run *run, int step, const struct lw_now *now, struct ask *ask)
{
    const struct step *at = &run->batch.step[step].step;
    const struct step_fact *fact = step_fact(at->kind);

    memset(ask, 0, sizeof *ask);
    ask->kind = at->target_ug != 0 ? ASK_READING : fact->ask;
    ask->step = step;
    ask->scale = -1;
    ask->typed = at->what.part == PART_ALKALI && ask->kind == ASK_READING;
    ask->safety = is_lye_step(at);
    run_title(run, at, ask->title, sizeof ask->title);
    for (int i = 0; i < STEP_LINES && fact->line[i]; i++)
        add_line(ask, fact->line[i]);
    if (at->kind == STEP_JUG_CHECK)
        ask_jug(run, at, ask);
    else if (ask->kind == ASK_READING)
        ask_reading(run, at, ask);
    else if (ask->kind == ASK_PIECES || at->kind == STEP_RECOUNT)
        ask_count(run, at, ask);
    add_details(run, at, now, ask);
}
