/* lessons_words.c - what was learned, for people: value, spread, how many batches, and what stood before. */
#include <math.h>
#include <string.h>

#include "base/number.h"
#include "base/text.h"
#include "calc/distribution.h"
#include "calc/pace.h"
#include "calc/pieces.h"
#include "work/lessons.h"
#include "work/words_speech.h"

static const double EIGHT_IN_TEN = 0.9;

struct lines {
    struct lesson_line *line;
    int n, most;
};

/* The next line, empty; NULL where there is no room. */
static struct lesson_line *next_line(struct lines *lines, enum book_figure figure, const char *filter, int batches,
                                     bool used)
{
    struct lesson_line *line = lines->n < lines->most ? &lines->line[lines->n++] : NULL;

    if (!line)
        return NULL;
    *line = (struct lesson_line){.figure = figure, .batches = batches, .used = used};
    text_copy(line->filter, sizeof line->filter, filter);
    return line;
}

#define ADD(field, ...) text_add(line->field, sizeof line->field, __VA_ARGS__)

/* ---- pieces */

/* A portion of "rosettes" for a rosette has the kind's own name, in the plural or not. */
static bool names_the_kind(const char *part, const char *kind)
{
    static const struct {
        const char *one, *many;
    } endings[] = {{"", ""}, {"", "s"}, {"", "es"}, {"y", "ies"}, {"f", "ves"}, {"fe", "ves"}};
    size_t length = strlen(kind);

    for (size_t i = 0; i < sizeof endings / sizeof *endings; i++) {
        size_t one = strlen(endings[i].one);
        char many[2 * LW_NAME_BYTES] = "";

        if (length < one || strcmp(kind + length - one, endings[i].one) != 0)
            continue;
        text_add(many, sizeof many, "%.*s%s", (int)(length - one), kind, endings[i].many);
        if (text_same(part, many))
            return true;
    }
    return false;
}

static void add_mass(struct lines *lines, const struct practice *practice, const struct lesson_pieces *lesson)
{
    const struct learned_pieces *learned = &lesson->learned;
    const char *kind = lesson->kind[0] ? lesson->kind : "pieces";
    struct lesson_line *line;

    if (learned->weighed == 0)
        return;
    line = next_line(lines, BOOK_EACH, lesson->kind, learned->weighed, learned->weighed >= LEARNED_LEAST);
    if (!line)
        return;
    if (names_the_kind(lesson->part, kind))
        ADD(name, "%s: mass a piece", kind);
    else
        ADD(name, "%s, %s: mass a piece", kind, lesson->part);
    ADD(value, "%s g", speech_number(learned->mass_g, 2).text);
    if (isfinite(learned->between_g))
        ADD(spread, "%s g from batch to batch", speech_number(learned->between_g, 2).text);
    if (learned->within_degrees > 0)
        ADD(spread, "%s%s g within one", line->spread[0] ? ", " : "", speech_number(learned->within_g, 2).text);
    ADD(before, "as the recipe says, %s within a batch and %s between (memory)",
        speech_percent(practice->piece_within_share).text, speech_percent(practice->piece_between_share).text);
}

static void add_rejects(struct lines *lines, const struct practice *practice, const struct lesson_pieces *lesson)
{
    const struct learned_pieces *learned = &lesson->learned;
    struct pieces pieces = {.class = lesson->class, .first_time = lesson->first_time};
    struct reject_prior prior = pieces_prior(practice, &pieces);
    struct lesson_line *line;

    if (learned->counted == 0)
        return;
    line = next_line(lines, BOOK_REJECTS, lesson->kind, learned->counted, true);
    if (!line)
        return;
    ADD(name, "%s: rejects", lesson->kind[0] ? lesson->kind : lesson->part);
    ADD(value, "%s", speech_percent(learned->reject_a / (learned->reject_a + learned->reject_b)).text);
    ADD(spread, "%d of %d, with %s of %s by practice", learned->rejects, learned->rejects + learned->good,
        speech_number(prior.a, 1).text, speech_number(prior.a + prior.b, 1).text);
    ADD(before, "%s, common practice", speech_percent(prior.a / (prior.a + prior.b)).text);
}

/* The rejects of a kind are those of all its parts. */
static bool first_of_kind(const struct lessons *lessons, int at)
{
    for (int i = 0; i < at; i++)
        if (lessons->piece[at].kind[0] && text_same(lessons->piece[i].kind, lessons->piece[at].kind))
            return false;
    return true;
}

/* ---- single values */

static void add_value(struct lines *lines, const struct learned_value *value, enum book_figure figure, const char *name,
                      bool share, const char *unit, const char *before)
{
    struct lesson_line *line;

    if (value->batches == 0)
        return;
    line = next_line(lines, figure, "", value->batches, value->batches >= LEARNED_LEAST);
    if (!line)
        return;
    ADD(name, "%s", name);
    ADD(value, "%s%s", share ? speech_percent(value->mean).text : speech_number(value->mean, 1).text, unit);
    if (isfinite(value->spread))
        ADD(spread, "%s%s from batch to batch",
            share ? speech_percent(value->spread).text : speech_number(value->spread, 1).text, unit);
    ADD(before, "%s", before);
}

static void add_values(struct lines *lines, const struct practice *practice, const struct lessons *lessons)
{
    char jug[96] = "", bag[96] = "", rate[96] = "";

    text_add(jug, sizeof jug, "%s g, at most %s of the batter, common practice",
             speech_number(practice->jug_residue_g, 1).text, speech_percent(practice->jug_residue_most_share).text);
    text_add(bag, sizeof bag, "%s g, common practice", speech_number(practice->bag_residue_g, 1).text);
    text_add(rate, sizeof rate, "%s, from memory", speech_percent(practice->cure_rate).text);
    add_value(lines, &lessons->jug_residue_g, BOOK_JUG_RESIDUE, "left in the jug", false, " g", jug);
    add_value(lines, &lessons->bag_residue_g, BOOK_BAG_RESIDUE, "left in a bag", false, " g", bag);
    add_value(lines, &lessons->air, BOOK_AIR, "air in the batter", true, "", "none");
    add_value(lines, &lessons->cure_loss, BOOK_CURE_LOSS, "lost in the cure", true, "",
              "the water down to a tenth of the bar, from memory");
    add_value(lines, &lessons->cure_rate, BOOK_CURE_RATE, "dries a day, of what is still to dry", true, "", rate);
}

/* ---- pace */

/* Median and interval of both times at the conditions that practice is stated for. */
static void predict(const struct practice *practice, const struct pace_belief *belief, enum technique technique,
                    struct quantiles *from, struct quantiles *until)
{
    struct pace_terms terms = {.technique = technique,
                               .strength = practice->pace_ref_strength,
                               .temp_c = practice->pace_ref_temp_c,
                               .saturated = practice->pace_ref_saturated,
                               .oils_g = practice->pace_ref_oils_g,
                               .acceleration = ACCELERATION_NONE};

    pace_predict(practice, belief, &terms, from, until);
}

static void add_time(struct lines *lines, const struct lessons *lessons, const char *name, enum book_figure figure,
                     const struct quantiles *now, const struct quantiles *prior)
{
    struct lesson_line *line = next_line(lines, figure, "", lessons->pace_batches, true);

    if (!line)
        return;
    ADD(name, "%s", name);
    ADD(value, "%s min", speech_number(now->median, 0).text);
    ADD(spread, "8 in 10 between %s and %s min", speech_number(now->low, 0).text, speech_number(now->high, 0).text);
    ADD(before, "%s min (%s to %s), common practice", speech_number(prior->median, 0).text,
        speech_number(prior->low, 0).text, speech_number(prior->high, 0).text);
}

static void add_times(struct lines *lines, const struct practice *practice, const struct lessons *lessons,
                      const struct pace_belief *prior)
{
    static const struct {
        enum technique technique;
        const char *from, *until;
    } row[] = {{TECHNIQUE_POUR, "pouring and swirls: workable from", "pouring and swirls: workable until"},
               {TECHNIQUE_LAYER, "layers: workable from", "layers: workable until"},
               {TECHNIQUE_PIPE, "piping: workable from", "piping: workable until"}};

    for (size_t i = 0; i < sizeof row / sizeof *row; i++) {
        struct quantiles from, until, prior_from, prior_until;

        predict(practice, &lessons->pace, row[i].technique, &from, &until);
        predict(practice, prior, row[i].technique, &prior_from, &prior_until);
        add_time(lines, lessons, row[i].from, BOOK_FROM, &from, &prior_from);
        add_time(lines, lessons, row[i].until, BOOK_UNTIL, &until, &prior_until);
    }
}

/* Standard deviation of a coefficient under its belief: Student's, so its own variance times scale over shape. */
static double deviation(const struct belief *belief, int term)
{
    return sqrt(fmax(belief->covariance[term][term], 0) * belief->scale / belief->shape);
}

static void add_factors(struct lines *lines, const struct lessons *lessons, const struct pace_belief *prior)
{
    static const struct {
        const char *name;
        int term; /* enum pace_term */
        enum book_figure figure;
    } row[] = {{"5 points more lye strength", PACE_STRENGTH, BOOK_STRENGTH},
               {"10 C warmer when combined", PACE_TEMP, BOOK_TEMP},
               {"10 points more saturated acids", PACE_SATURATED, BOOK_SATURATED},
               {"a fragrance of some acceleration", PACE_SOME, BOOK_SCENT},
               {"a fragrance of strong acceleration", PACE_STRONG, BOOK_SCENT},
               {"half the oils", PACE_HALF_MASS, BOOK_OILS}};
    const struct belief *now = &lessons->pace.from;
    double t = student_quantile(EIGHT_IN_TEN, 2 * now->shape);

    for (size_t i = 0; i < sizeof row / sizeof *row; i++) {
        struct lesson_line *line = next_line(lines, row[i].figure, "", lessons->pace_batches, true);
        double middle = now->mean[row[i].term], half = t * deviation(now, row[i].term);

        if (!line)
            return;
        ADD(name, "%s: times from combining", row[i].name);
        ADD(value, "times %s", speech_number(exp(middle), 2).text);
        ADD(spread, "8 in 10 between %s and %s", speech_number(exp(middle - half), 2).text,
            speech_number(exp(middle + half), 2).text);
        ADD(before, "times %s, common practice or memory", speech_number(exp(prior->from.mean[row[i].term]), 2).text);
    }
}

int lessons_lines(const struct lessons *lessons, struct lesson_line lines[], int most)
{
    const struct practice *practice = facts_reference()->practice;
    struct lines written = {lines, 0, most};

    for (int i = 0; i < lessons->pieces; i++) {
        add_mass(&written, practice, &lessons->piece[i]);
        if (first_of_kind(lessons, i))
            add_rejects(&written, practice, &lessons->piece[i]);
    }
    add_values(&written, practice, lessons);
    if (lessons->pace_batches > 0) {
        struct pace_belief prior;

        pace_prior(practice, &prior);
        add_times(&written, practice, lessons, &prior);
        add_factors(&written, lessons, &prior);
    }
    return written.n;
}
