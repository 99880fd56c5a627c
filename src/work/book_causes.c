/* book_causes.c - times by the model of pace, superfat by what was weighed; of other figures it says that no model reaches them. */
#include "work/book_causes.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/mass.h"
#include "base/text.h"
#include "calc/charged.h"
#include "calc/differ.h"
#include "lyeway/names.h"
#include "work/run_inside.h"
#include "work/words_speech.h"

enum { CAUSES = sizeof((struct compare *)0)->cause / sizeof((struct compare *)0)->cause[0] };

/* Weighings that move the superfat by less are not worth a line: share. */
static const double WORTH_SAYING = 0.0005;

/* Inputs that move a time by a smaller share are counted, not listed: the figures beside them would read alike. */
static const double MOVES_LEAST = 0.03;

struct asking {
    struct workshop *workshop;
    const struct run *const *run;
    enum book_figure about;
    struct compare *compare;
    int one, other; /* what is explained is the one by the other; -1: fewer than two have different figures */
};

#define SAY(...) text_add(asking->compare->summary, sizeof asking->compare->summary, __VA_ARGS__)

static char *next_cause(struct asking *asking)
{
    struct compare *compare = asking->compare;

    return compare->causes < CAUSES ? compare->cause[compare->causes++].text : NULL;
}

/* Two as they stand; of more those that differ most, the higher by the lower. */
static void find_two(struct asking *asking)
{
    const struct compare *compare = asking->compare;
    int high = -1, low = -1;

    for (int i = 0; i < compare->batches; i++) {
        double value = compare->line[i].figure[asking->about];

        if (!isfinite(value))
            continue;
        if (high < 0 || value > compare->line[high].figure[asking->about])
            high = i;
        if (low < 0 || value < compare->line[low].figure[asking->about])
            low = i;
    }
    asking->one = high == low ? -1 : compare->batches == 2 ? 0 : high;
    asking->other = high == low ? -1 : compare->batches == 2 ? 1 : low;
}

static void figure_text(const struct asking *asking, int batch, enum book_figure figure, char *out, size_t size)
{
    book_figure_text(&asking->compare->line[batch], figure, workshop_settings(asking->workshop), true, out, size);
}

static void say_two(struct asking *asking)
{
    char one[48], other[48];

    figure_text(asking, asking->one, asking->about, one, sizeof one);
    figure_text(asking, asking->other, asking->about, other, sizeof other);
    SAY("%s: %s %s, %s %s.", book_figure_name(asking->about), asking->compare->line[asking->one].number, one,
        asking->compare->line[asking->other].number, other);
}

/* ---- pace */

static const struct pace_cause {
    const char *name;
    int figure; /* that shows it; -1: the technique */
} pace_causes[PACE_TERMS] = {
    [PACE_POUR] = {"technique", -1},          [PACE_LAYER] = {"technique", -1},
    [PACE_PIPE] = {"technique", -1},          [PACE_STRENGTH] = {"lye strength", BOOK_STRENGTH},
    [PACE_TEMP] = {"combined at", BOOK_TEMP}, [PACE_SATURATED] = {"saturated acids", BOOK_SATURATED},
    [PACE_SOME] = {"fragrance", BOOK_SCENT},  [PACE_STRONG] = {"fragrance", BOOK_SCENT},
    [PACE_LONG_BLEND] = {"blending", -1},     [PACE_HALF_MASS] = {"oils", BOOK_OILS},
};

static void input_text(const struct asking *asking, int batch, int figure, char *out, size_t size)
{
    static const char *const scent[] = {"none that hurries it", "some acceleration", "strong acceleration"};
    const struct book_line *line = &asking->compare->line[batch];
    int rank = isfinite(line->figure[BOOK_SCENT]) ? (int)line->figure[BOOK_SCENT] : 0;

    if (figure < 0)
        text_copy(out, size, name_of_technique(line->technique));
    else if (figure == BOOK_SCENT)
        text_copy(out, size, scent[rank < 0 || rank > 2 ? 0 : rank]);
    else
        figure_text(asking, batch, (enum book_figure)figure, out, size);
}

static void say_pace_cause(struct asking *asking, const struct differ_cause *cause)
{
    const struct pace_cause *known = &pace_causes[cause->term];
    char one[48], other[48], *text = next_cause(asking);

    if (!text)
        return;
    input_text(asking, asking->one, known->figure, one, sizeof one);
    input_text(asking, asking->other, known->figure, other, sizeof other);
    text[0] = '\0';
    text_add(text, sizeof asking->compare->cause[0].text, "%s %s against %s: times %s (8 in 10 between %s and %s)",
             known->name, one, other, speech_number(cause->moves, 2).text, speech_number(cause->low, 2).text,
             speech_number(cause->high, 2).text);
}

static void say_who_speaks(struct asking *asking, int batches, const struct pace_belief *belief)
{
    if (batches == 0)
        SAY(" No batch of yours speaks yet: this is common practice.");
    else if (batches < LEARNED_LEAST)
        SAY(" Only %d of your batches speak%s yet: mostly common practice.", batches, batches == 1 ? "s" : "");
    else
        SAY(" %d of your batches speak; batches made alike differ by times %s.", batches,
            speech_number(exp(sqrt(belief->from.scale / belief->from.shape)), 2).text);
}

/* How the two compare as they went; where one was used up while it could still be worked, as far as that can be known. */
static void say_ratio(struct asking *asking)
{
    const struct book_line *one = &asking->compare->line[asking->one], *other = &asking->compare->line[asking->other];
    bool one_bound = book_at_least(one, asking->about), other_bound = book_at_least(other, asking->about);

    if (one_bound && other_bound)
        SAY(" Both were used up before they were too stiff, so their ratio is not known;");
    else
        SAY(" That is %stimes %s;",
            one_bound     ? "at least "
            : other_bound ? "at most "
                          : "",
            speech_number(one->figure[asking->about] / other->figure[asking->about], 2).text);
}

static void say_small_causes(struct asking *asking, int small)
{
    char *text = small > 0 ? next_cause(asking) : NULL;

    if (!text)
        return;
    text[0] = '\0';
    text_add(text, sizeof asking->compare->cause[0].text, "%d %sdiffer%s and move%s it by less than %s in 100%s", small,
             asking->compare->causes > 1 ? "more " : "", small == 1 ? "s" : "", small == 1 ? "s" : "",
             speech_number(100 * MOVES_LEAST, 0).text, small == 1 ? "" : " each");
}

static void find_pace(struct asking *asking, enum differ_figure figure)
{
    const struct lessons *lessons = workshop_lessons(asking->workshop);
    const struct book_line *one = &asking->compare->line[asking->one], *other = &asking->compare->line[asking->other];
    struct pace_belief belief = lessons->pace;
    struct differ_cause causes[PACE_TERMS];
    double a[PACE_TERMS], b[PACE_TERMS], expected = 1;
    int n, small = 0;

    if (lessons->pace_batches == 0)
        pace_prior(facts_reference()->practice, &belief);
    lessons_terms(one, a);
    lessons_terms(other, b);
    n = differ_pace(&belief, a, b, figure, causes, &expected);
    for (int i = 0; i < n; i++) {
        bool is_small = fabs(log(causes[i].moves)) < log1p(MOVES_LEAST);

        small += is_small;
        if (!is_small)
            say_pace_cause(asking, &causes[i]);
    }
    say_small_causes(asking, small);
    say_ratio(asking);
    if (asking->compare->causes > 0)
        SAY(" by what differs between them times %s is expected.", speech_number(expected, 2).text);
    else
        SAY(" nothing that the model knows differs between them.");
    say_who_speaks(asking, lessons->pace_batches, &belief);
}

/* ---- superfat */

struct slip_cause {
    int batch;
    struct part_ref what;
    double points; /* share by which the weighing moved the superfat */
};

static int by_size(const void *a, const void *b)
{
    const struct slip_cause *one = a, *two = b;

    if (fabs(one->points) != fabs(two->points))
        return fabs(one->points) > fabs(two->points) ? -1 : 1;
    return one->batch - two->batch;
}

/* By how much that weighing moved the superfat: against the batch with it as planned. */
static double moved_by(const struct run *run, struct part_ref what, struct plan *room)
{
    struct charges charges = run->batch.charges;
    struct charge *charge = run_charge_in(&charges, what);

    if (!charge || !charge->has)
        return 0;
    charge->has = false;
    charged_plan(run_input(run), run_plan(run), &charges, room);
    return run->charged.margin.nominal - room->margin.nominal;
}

static int find_slips(const struct run *run, int batch, struct slip_cause slip[], struct plan *room)
{
    const struct recipe *recipe = run_input(run)->recipe;
    const struct {
        enum part part;
        int count;
    } part[] = {{PART_OIL, recipe->oils},
                {PART_ALKALI, ALKALIS},
                {PART_LIQUID, recipe->water.liquids},
                {PART_ADDITIVE, recipe->additives}};
    int n = 0;

    for (size_t k = 0; k < sizeof part / sizeof *part; k++)
        for (int i = 0; i < part[k].count; i++) {
            struct part_ref what = {part[k].part, (int16_t)i, 0};
            double points = moved_by(run, what, room);

            if (fabs(points) >= WORTH_SAYING)
                slip[n++] = (struct slip_cause){batch, what, points};
        }
    return n;
}

static void say_slip(struct asking *asking, const struct slip_cause *slip)
{
    const struct run *run = asking->run[slip->batch];
    const struct charge *charge = run_charge(&run->batch, slip->what);
    const struct weighing *planned = charged_weighing(run_input(run), run_plan(run), slip->what);
    char *text = next_cause(asking);

    if (!text || !charge || !planned)
        return;
    text[0] = '\0';
    text_add(text, sizeof asking->compare->cause[0].text, "%s: %s %s, planned %s: %s%s points", run->batch.head.number,
             document_name(run_input(run), slip->what), run_mass(run, charge->mass_ug, planned->division_ug).text,
             run_mass(run, planned->rounded_ug, planned->division_ug).text, slip->points > 0 ? "+" : "",
             speech_number(100 * slip->points, 2).text);
}

static void find_superfat(struct asking *asking)
{
    struct slip_cause slip[2 * (RECIPE_OILS + ALKALIS + RECIPE_LIQUIDS + RECIPE_ADDITIVES)];
    struct plan *room = malloc(sizeof *room);
    int both[] = {asking->one, asking->other}, n = 0;

    if (!room) {
        SAY(" There is no memory left to find out why.");
        return;
    }
    for (int i = 0; i < 2; i++)
        n += find_slips(asking->run[both[i]], both[i], slip + n, room);
    free(room);
    qsort(slip, (size_t)n, sizeof *slip, by_size);
    for (int i = 0; i < n; i++)
        say_slip(asking, &slip[i]);
    SAY(" Asked were %s and %s.", speech_percent(run_input(asking->run[asking->one])->recipe->superfat).text,
        speech_percent(run_input(asking->run[asking->other])->recipe->superfat).text);
    SAY(n > 0 ? " The weighings moved it as below." : " No weighing moved it by more than 0.05 points.");
}

/* ---- the rest */

/* How far apart batches lie that are made alike, where that is learned of their pieces. */
static void say_usual_spread(struct asking *asking)
{
    const struct lessons *lessons = workshop_lessons(asking->workshop);
    const struct plan_input *input = run_input(asking->run[asking->one]);

    for (int i = 0; i < lessons->pieces && asking->about == BOOK_EACH; i++) {
        const struct learned_pieces *learned = &lessons->piece[i].learned;

        if (learned->weighed < LEARNED_LEAST ||
            !text_same(lessons->piece[i].kind, input->recipe->portion[0].pieces.kind))
            continue;
        SAY(" %d of your batches have %s g, %s g from batch to batch (%s).", learned->weighed,
            speech_number(learned->mass_g, 2).text, speech_number(learned->between_g, 2).text, lessons->piece[i].part);
    }
}

static void no_model(struct asking *asking)
{
    say_usual_spread(asking);
    SAY(" Nothing in the model says what moves it; below is what differs.");
}

void book_find_causes(struct workshop *workshop, const struct run *const run[], enum book_figure about,
                      struct compare *compare)
{
    struct asking question = {workshop, run, about, compare, -1, -1}, *asking = &question;

    compare->causes = 0;
    compare->summary[0] = '\0';
    find_two(asking);
    if (asking->one < 0) {
        SAY("%s: these batches have no two different values of it on record, so there is nothing to explain.",
            book_figure_name(about));
        return;
    }
    say_two(asking);
    if (about == BOOK_FROM || about == BOOK_UNTIL || about == BOOK_WINDOW)
        find_pace(asking, about == BOOK_FROM ? DIFFER_FROM : about == BOOK_UNTIL ? DIFFER_UNTIL : DIFFER_WINDOW);
    else if (about == BOOK_SUPERFAT)
        find_superfat(asking);
    else
        no_model(asking);
}
