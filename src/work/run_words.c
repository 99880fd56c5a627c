/* run_words.c - what an event of the record says, in words. */
#include <math.h>

#include "base/mass.h"
#include "base/number.h"
#include "base/text.h"
#include "lyeway/names.h"
#include "work/run_inside.h"
#include "work/words_speech.h"

/* Where the words go, and what they are about. */
struct telling {
    const struct run *run;
    const struct batch_event *event;
    char *out;
    size_t size;
};

typedef void teller(const struct telling *t);

static const struct step *step_of(const struct telling *t)
{
    for (int i = 0; i < t->run->batch.steps; i++)
        if (t->run->batch.step[i].step.id == t->event->step)
            return &t->run->batch.step[i].step;
    return NULL;
}

/* The title of its step, else `otherwise`. */
static void add_title(const struct telling *t, const char *otherwise)
{
    const struct step *step = step_of(t);
    char title[160];

    if (step)
        run_title(t->run, step, title, sizeof title);
    text_add(t->out, t->size, "%s", step ? title : otherwise);
}

static void add_text(const struct telling *t, const char *before)
{
    text_add(t->out, t->size, t->event->text[0] ? "%s: %s" : "%s", before, t->event->text);
}

/* As the scale showed it; a mass that was said and not weighed has no scale. */
static int64_t division_of(const struct telling *t)
{
    const struct plan *plan = run_plan(t->run);

    return t->event->scale >= 0 && t->event->scale < plan->scales ? plan->scale[t->event->scale].division_ug : 0;
}

static void tell_weighed(const struct telling *t)
{
    const struct batch_event *event = t->event;
    bool at_step = step_of(t) != NULL;

    if (at_step)
        add_title(t, "");
    else
        text_add(t->out, t->size, "%s, as it really is", document_name(run_input(t->run), event->what));
    text_add(t->out, t->size, ": %s", run_mass(t->run, event->mass_ug, division_of(t)).text);
    if (event->planned_ug != 0 && event->planned_ug != event->mass_ug)
        text_add(t->out, t->size, " (%s)", run_mass(t->run, event->planned_ug, division_of(t)).text);
}

static void tell_jug(const struct telling *t)
{
    text_add(t->out, t->size, "the full jug holds %s", run_mass(t->run, t->event->mass_ug, 0).text);
}

static void tell_lye_poured(const struct telling *t)
{
    text_add(t->out, t->size, "only %s of the lye goes in", speech_percent(t->event->number[0]).text);
}

static void tell_step(const struct telling *t)
{
    static const char *const verb[EVENT_KIND_COUNT] = {[EVENT_DONE] = "done",
                                                       [EVENT_SKIPPED] = "skipped",
                                                       [EVENT_REOPENED] = "to be done again",
                                                       [EVENT_MOVED] = "later"};

    add_title(t, "a step");
    text_add(t->out, t->size, ": %s", verb[t->event->kind]);
    text_add(t->out, t->size, t->event->text[0] ? ", %s" : "%s", t->event->text);
}

static void tell_combined(const struct telling *t)
{
    double lye = t->event->number[0], oil = t->event->number[1];

    text_add(t->out, t->size, "lye and oils combined");
    if (isfinite(lye))
        text_add(t->out, t->size, ", lye at %s", speech_temperature(lye).text);
    if (isfinite(oil))
        text_add(t->out, t->size, ", oils at %s", speech_temperature(oil).text);
}

static void tell_stage(const struct telling *t)
{
    text_add(t->out, t->size, "trace: %s", run_stage_name((int)t->event->number[0]));
}

static void tell_timer(const struct telling *t)
{
    text_add(t->out, t->size, "timer %s, %d min", t->event->text, (int)(t->event->number[0] / 60));
}

static void tell_count(const struct telling *t)
{
    static const char *const word[EVENT_KIND_COUNT] = {
        [EVENT_PIECES] = "good", [EVENT_REJECTS] = "rejects", [EVENT_SCRAPED] = "scraped back"};

    text_add(t->out, t->size, "%+d %s", (int)t->event->number[0], word[t->event->kind]);
}

static void tell_left(const struct telling *t)
{
    text_add(t->out, t->size, "%s left in the bag%s", run_mass(t->run, t->event->mass_ug, 0).text,
             t->event->number[0] > 0 ? "" : ", by eye");
}

static void tell_recounted(const struct telling *t)
{
    text_add(t->out, t->size, "after lifting %d good, %d rejects", (int)t->event->number[0], (int)t->event->number[1]);
    if (t->event->text[0])
        text_add(t->out, t->size, " (%s)", t->event->text);
}

static void tell_placed(const struct telling *t)
{
    text_add(t->out, t->size, "%d pieces placed, batch %s", (int)t->event->number[0], t->event->text);
}

static void tell_leftover(const struct telling *t)
{
    text_add(t->out, t->size, "%s of %s kept", run_mass(t->run, t->event->mass_ug, 0).text,
             document_name(run_input(t->run), t->event->what));
}

static void tell_cut(const struct telling *t)
{
    text_add(t->out, t->size, "cut into %d bars", (int)t->event->number[0]);
    if (t->event->number[1] > 0)
        text_add(t->out, t->size, ", the lightest %s", run_mass(t->run, mass_ug(t->event->number[1]), 0).text);
}

static void tell_said(const struct telling *t)
{
    static const char *const before[EVENT_KIND_COUNT] = {[EVENT_REASON] = "reason",
                                                         [EVENT_NOTE] = "note",
                                                         [EVENT_PROBLEM] = "trouble",
                                                         [EVENT_SET_ASIDE] = "set aside",
                                                         [EVENT_FINISHED] = "finished",
                                                         [EVENT_GOING] = "it is going",
                                                         [EVENT_SPLASH] = "a splash of alkali",
                                                         [EVENT_ACKNOWLEDGED] = "safety notes read",
                                                         [EVENT_TIMER_OFF] = "a timer ended by hand",
                                                         [EVENT_LEFT_OUT] = "left out of what is learned",
                                                         [EVENT_TAKEN_BACK] = "taken back"};

    add_text(t, before[t->event->kind]);
}

static void tell_answer(const struct telling *t)
{
    int question = (int)t->event->number[0];

    if (question >= 0 && question < QUESTIONS)
        text_add(t->out, t->size, "%s %s", run_questions()[question].text, t->event->text);
}

static void tell_cure_weighed(const struct telling *t)
{
    text_add(t->out, t->size, "marker bar %d: %s", (int)t->event->number[0],
             run_mass(t->run, t->event->mass_ug, 0).text);
}

static void tell_tested(const struct telling *t)
{
    int test = (int)t->event->number[0];
    char number[NUMBER_BYTES];

    number_write_short(number, t->event->number[1], 1);
    if (test == TEST_PH)
        text_add(t->out, t->size, "pH %s", number);
    else
        text_add(t->out, t->size, "%s: %s", test == TEST_TONGUE ? "tongue test" : "look",
                 t->event->number[1] != 0 ? "as it should be" : "not as it should be");
    text_add(t->out, t->size, t->event->text[0] ? ", %s" : "%s", t->event->text);
}

static void tell_outcome(const struct telling *t)
{
    static const char *const word[] = {"no outcome", "released", "on hold", "rejected"};

    add_text(t, word[(int)t->event->number[0] & 3]);
}

static void tell_residue(const struct telling *t)
{
    static const char *const place[] = {"jug", "bag", "cup"};
    int vessels = (int)t->event->number[1];

    text_add(t->out, t->size, "%s left in ", run_mass(t->run, t->event->mass_ug, 0).text);
    if (vessels == 1)
        text_add(t->out, t->size, "the %s", place[(int)t->event->number[0] % RESIDUES]);
    else
        text_add(t->out, t->size, "%d %ss", vessels, place[(int)t->event->number[0] % RESIDUES]);
}

static void tell_density(const struct telling *t)
{
    text_add(t->out, t->size, "%s of batter in %s mL", run_mass(t->run, t->event->mass_ug, 0).text,
             speech_number(t->event->number[0], 1).text);
}

void run_event_words(const struct run *run, const struct batch_event *event, char *out, size_t size)
{
    static teller *const tellers[EVENT_KIND_COUNT] = {
        [EVENT_WEIGHED] = tell_weighed,   [EVENT_LYE_POURED] = tell_lye_poured,
        [EVENT_JUG] = tell_jug,           [EVENT_DONE] = tell_step,
        [EVENT_SKIPPED] = tell_step,      [EVENT_REOPENED] = tell_step,
        [EVENT_MOVED] = tell_step,        [EVENT_COMBINED] = tell_combined,
        [EVENT_STAGE] = tell_stage,       [EVENT_TIMER] = tell_timer,
        [EVENT_TIMER_OFF] = tell_said,    [EVENT_PIECES] = tell_count,
        [EVENT_REJECTS] = tell_count,     [EVENT_SCRAPED] = tell_count,
        [EVENT_LEFT] = tell_left,         [EVENT_RECOUNTED] = tell_recounted,
        [EVENT_PLACED] = tell_placed,     [EVENT_LEFTOVER] = tell_leftover,
        [EVENT_GOING] = tell_said,        [EVENT_SPLASH] = tell_said,
        [EVENT_ACKNOWLEDGED] = tell_said, [EVENT_REASON] = tell_said,
        [EVENT_NOTE] = tell_said,         [EVENT_PROBLEM] = tell_said,
        [EVENT_ANSWER] = tell_answer,     [EVENT_CUT] = tell_cut,
        [EVENT_TAKEN_BACK] = tell_said,   [EVENT_SET_ASIDE] = tell_said,
        [EVENT_FINISHED] = tell_said,     [EVENT_CURE_WEIGHED] = tell_cure_weighed,
        [EVENT_TESTED] = tell_tested,     [EVENT_OUTCOME] = tell_outcome,
        [EVENT_LEFT_OUT] = tell_said,     [EVENT_RESIDUE] = tell_residue,
        [EVENT_DENSITY] = tell_density,
    };
    struct telling telling = {run, event, out, size};

    out[0] = '\0';
    tellers[event->kind](&telling);
}
