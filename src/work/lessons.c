/* lessons.c - rows of the book to lessons. */
#include "work/lessons.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "calc/learn.h"
#include "store/book.h"
#include "work/book.h"

enum { PIECES_READ = 4 * LESSON_BATCHES };

/* What is read of the book before anything is learned. */
struct reading {
    struct book_line *line;
    int lines;
    struct book_pieces *pieces;
    int parts;
};

static bool take_line(void *context, const struct book_line *line)
{
    struct reading *reading = context;

    reading->line[reading->lines++] = *line;
    return reading->lines < LESSON_BATCHES;
}

static bool take_pieces(void *context, int64_t batch_id, const struct book_pieces *pieces)
{
    struct reading *reading = context;

    (void)batch_id;
    reading->pieces[reading->parts++] = *pieces;
    return reading->parts < PIECES_READ;
}

/* ---- pace */

static double known_or(double value, double otherwise)
{
    return isfinite(value) ? value : otherwise;
}

void lessons_terms(const struct book_line *line, double x[BELIEF_TERMS])
{
    const struct practice *practice = facts_reference()->practice;
    const double *figure = line->figure;
    int scent = (int)known_or(figure[BOOK_SCENT], 0);
    struct pace_terms terms = {
        .technique = line->technique,
        .strength = known_or(figure[BOOK_STRENGTH], practice->pace_ref_strength),
        .temp_c = known_or(figure[BOOK_TEMP], practice->pace_ref_temp_c),
        .saturated = known_or(figure[BOOK_SATURATED], practice->pace_ref_saturated),
        .oils_g = figure[BOOK_OILS],
        .acceleration = (enum acceleration)(ACCELERATION_NONE + scent),
    };

    pace_numbers(practice, &terms, x);
}

static enum lw_status learn_paces(const struct practice *practice, const struct reading *reading,
                                  struct lessons *lessons, struct lw_error *error)
{
    struct pace_seen *seen = calloc((size_t)reading->lines + 1, sizeof *seen);

    if (!seen)
        return lw_fail(error, LW_FULL, "There is no memory left to learn from the batches.");
    for (int i = 0; i < reading->lines; i++) {
        const struct book_line *line = &reading->line[i];

        lessons_terms(line, seen[i].x);
        seen[i].from_min = line->figure[BOOK_FROM];
        seen[i].until_min = line->figure[BOOK_UNTIL];
        seen[i].at_least = line->until_least;
    }
    lessons->pace_batches = learn_pace(practice, seen, reading->lines, &lessons->pace);
    free(seen);
    return LW_OK;
}

/* ---- pieces */

static bool same_part(const struct book_pieces *a, const char *kind, const char *part)
{
    return text_same(a->kind, kind) && text_same(a->part, part);
}

static bool seen_before(const struct reading *reading, int at)
{
    for (int i = 0; i < at; i++)
        if (same_part(&reading->pieces[i], reading->pieces[at].kind, reading->pieces[at].part))
            return true;
    return false;
}

static void learn_part(const struct practice *practice, const struct reading *reading, int at, struct piece_seen seen[],
                       struct lesson_pieces *lesson)
{
    const struct book_pieces *newest = &reading->pieces[at];
    struct pieces pieces = {.class = newest->class, .first_time = newest->first_time};
    int n = 0;

    text_copy(lesson->kind, sizeof lesson->kind, newest->kind);
    text_copy(lesson->part, sizeof lesson->part, newest->part);
    lesson->class = newest->class;
    lesson->first_time = newest->first_time;
    for (int i = at; i < reading->parts; i++) {
        const struct book_pieces *part = &reading->pieces[i];

        if (same_part(part, newest->kind, newest->part))
            seen[n++] = (struct piece_seen){.made = part->made,
                                            .each_g = part->each_g,
                                            .within_squares = part->within_squares,
                                            .within_degrees = part->within_degrees,
                                            .counted = part->counted,
                                            .good = part->good,
                                            .rejects = part->rejects};
    }
    learn_pieces(practice, pieces_prior(practice, &pieces), seen, n, &lesson->learned);
}

static enum lw_status learn_parts(const struct practice *practice, const struct reading *reading,
                                  struct lessons *lessons, struct lw_error *error)
{
    struct piece_seen *seen = calloc((size_t)reading->parts + 1, sizeof *seen);

    if (!seen)
        return lw_fail(error, LW_FULL, "There is no memory left to learn from the batches.");
    for (int i = 0; i < reading->parts && lessons->pieces < LESSON_PIECES; i++)
        if (!seen_before(reading, i))
            learn_part(practice, reading, i, seen, &lessons->piece[lessons->pieces++]);
    free(seen);
    return LW_OK;
}

/* ---- single values */

static struct learned_value value_of(const struct reading *reading, enum book_figure figure, double room[])
{
    for (int i = 0; i < reading->lines; i++)
        room[i] = reading->line[i].figure[figure];
    return learn_value(room, reading->lines);
}

static enum lw_status learn_values(const struct reading *reading, struct lessons *lessons, struct lw_error *error)
{
    double *room = calloc((size_t)reading->lines + 1, sizeof *room);

    if (!room)
        return lw_fail(error, LW_FULL, "There is no memory left to learn from the batches.");
    lessons->jug_residue_g = value_of(reading, BOOK_JUG_RESIDUE, room);
    lessons->bag_residue_g = value_of(reading, BOOK_BAG_RESIDUE, room);
    lessons->air = value_of(reading, BOOK_AIR, room);
    lessons->cure_loss = value_of(reading, BOOK_CURE_LOSS, room);
    lessons->cure_rate = value_of(reading, BOOK_CURE_RATE, room);
    free(room);
    return LW_OK;
}

static enum lw_status learn_all(const struct reading *reading, struct lessons *lessons, struct lw_error *error)
{
    const struct practice *practice = facts_reference()->practice;
    enum lw_status status = learn_paces(practice, reading, lessons, error);

    if (status == LW_OK)
        status = learn_parts(practice, reading, lessons, error);
    return status == LW_OK ? learn_values(reading, lessons, error) : status;
}

static enum lw_status read_book(struct store *store, struct reading *reading, struct lw_error *error)
{
    struct book_filter counted = {.counted_only = true};
    enum lw_status status = book_page(store, &counted, BOOK_NEWEST, NULL, false, LESSON_BATCHES, take_line, reading,
                                      error);

    return status == LW_OK ? book_pieces_each(store, PIECES_READ, take_pieces, reading, error) : status;
}

enum lw_status lessons_read(struct workshop *workshop, struct lessons *lessons, struct lw_error *error)
{
    struct reading reading = {.line = calloc(LESSON_BATCHES, sizeof *reading.line),
                              .pieces = calloc(PIECES_READ, sizeof *reading.pieces)};
    enum lw_status status = LW_OK;

    memset(lessons, 0, sizeof *lessons);
    if (!reading.line || !reading.pieces)
        status = lw_fail(error, LW_FULL, "There is no memory left to learn from the batches.");
    if (status == LW_OK)
        status = read_book(workshop_store(workshop), &reading, error);
    if (status == LW_OK)
        status = learn_all(&reading, lessons, error);
    free(reading.line);
    free(reading.pieces);
    return status;
}

/* ---- for a recipe */

static const struct lesson_pieces *lesson_of(const struct lessons *lessons, const struct recipe *recipe, int portion)
{
    const struct recipe_portion *asked = &recipe->portion[portion];

    for (int i = 0; i < lessons->pieces && asked->has_pieces; i++)
        if (text_same(lessons->piece[i].kind, asked->pieces.kind) && text_same(lessons->piece[i].part, asked->name))
            return &lessons->piece[i];
    return NULL;
}

void lessons_for(const struct lessons *lessons, const struct recipe *recipe, struct learned *learned)
{
    memset(learned, 0, sizeof *learned);
    learned->pace_batches = lessons->pace_batches;
    learned->pace = lessons->pace;
    for (int p = 0; p < recipe->portions; p++) {
        const struct lesson_pieces *lesson = lesson_of(lessons, recipe, p);

        if (lesson)
            learned->piece[p] = lesson->learned;
    }
    learned->jug_residue_g = lessons->jug_residue_g;
    learned->bag_residue_g = lessons->bag_residue_g;
    learned->air = lessons->air;
    learned->cure_loss = lessons->cure_loss;
}
