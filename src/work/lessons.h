/* lessons.h - what all batches that count have taught, and the part of it that a recipe uses.
 *
 * The newest LESSON_BATCHES speak. A batch keeps the lessons of its recipe as text, so that its plan can be found again.
 */
#ifndef WORK_LESSONS_H
#define WORK_LESSONS_H

#include "base/buffer.h"
#include "lyeway/book.h"
#include "lyeway/plan.h"
#include "work/workshop.h"

enum { LESSON_BATCHES = 1000, LESSON_PIECES = 64 };

struct lessons {
    int pace_batches;
    struct pace_belief pace;
    int pieces;
    struct lesson_pieces {
        char kind[LW_NAME_BYTES], part[LW_NAME_BYTES]; /* as in struct book_pieces */
        enum piece_class class;
        bool first_time;
        struct learned_pieces learned;
    } piece[LESSON_PIECES];
    struct learned_value jug_residue_g, bag_residue_g, air, cure_loss, cure_rate;
};

/* Reads them from the book as it is. */
enum lw_status lessons_read(struct workshop *workshop, struct lessons *lessons, struct lw_error *error);

/* Those of a recipe's portions and of every recipe. */
void lessons_for(const struct lessons *lessons, const struct recipe *recipe, struct learned *learned);

/* Lines of a name and values, for what that recipe uses; and back. A text without them reads as no lessons; LW_CORRUPT where one
 * cannot be read. */
void lessons_freeze(const struct lessons *lessons, const struct recipe *recipe, struct buffer *out);
enum lw_status lessons_thaw(const char *text, struct lessons *lessons, struct lw_error *error);

/* The terms of pace (calc/pace.h) of a line of the book; what was not taken is as practice refers to. */
void lessons_terms(const struct book_line *line, double x[BELIEF_TERMS]);

/* One learned figure for people: what it is, its value with spread, from how many batches, and what stood before. */
struct lesson_line {
    char name
        [120]; /* "quince blossom, petals: mass a piece"; "rosette: mass a piece" where the portion is named like it */
    char value[64];  /* "2.71 g" */
    char spread[96]; /* "0.12 g from batch to batch, 0.31 g within one" */
    int batches;
    bool used;                  /* false: too few yet, what stood before is used */
    char before[120];           /* "as the recipe says" / "8 g, common practice" */
    enum book_figure figure;    /* of the batches that it is from */
    char filter[LW_NAME_BYTES]; /* words that find them; "": all that have the figure */
};
int lessons_lines(const struct lessons *lessons, struct lesson_line lines[], int most);

#endif
