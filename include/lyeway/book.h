/* book.h - what a batch comes to: one row of figures and words that lists, plots and learning read in place of its record.
 *
 * A row is found from the record alone and can be found again at any time (work/figures.h).
 */
#ifndef LYEWAY_BOOK_H
#define LYEWAY_BOOK_H

#include <stdbool.h>
#include <stdint.h>

#include "lyeway/batch.h"

/* code, its word in filters, files and columns, what people read, unit. Shares are stored as shares and shown in percent. */
#define BOOK_FIGURES(X)                                                                            \
    X(OILS, "oils", "oils", "g")                       /* as planned */                            \
    X(BATTER, "batter", "batter", "g")                 /* as weighed */                            \
    X(SUPERFAT, "superfat", "superfat as weighed", "%") \
    X(STRENGTH, "strength", "lye strength", "%") \
    X(TEMP, "temperature", "temperature combined", "C") \
    X(SATURATED, "saturated", "saturated acids", "%") \
    X(SCENT, "scent", "speed of the fragrance", "")    /* 0 none or slows, 1 some, 2 strong acceleration */ \
    X(FROM, "from", "workable from", "min") \
    X(UNTIL, "until", "workable until", "min")         /* at least, where struct book_row.until_least */ \
    X(WINDOW, "window", "window", "min") \
    X(PIECES, "pieces", "pieces made", "") \
    X(GOOD, "good", "good pieces", "") \
    X(REJECTS, "rejects", "rejects", "%")              /* of all */ \
    X(EACH, "each", "mass a piece", "g")               /* of the first kind, the part that was weighed */ \
    X(SECONDS, "seconds", "seconds a piece", "s") \
    X(JUG_RESIDUE, "jug", "left in the jug", "g") \
    X(BAG_RESIDUE, "bag", "left in a bag", "g") \
    X(DENSITY, "density", "density of the batter", "g/mL") \
    X(AIR, "air", "air in the batter", "%") \
    X(BARS, "bars", "bars", "") \
    X(LIGHTEST, "lightest", "lightest bar at the cut", "g") \
    X(CURE_LOSS, "loss", "lost in the cure, in the end", "%") /* as fitted */ \
    X(CURE_RATE, "rate", "cure, share of the rest a day", "%") \
    X(CURED_DAYS, "cured", "days until cured", "d")

enum book_figure {
#define X(code, word, title, unit) BOOK_##code,
    BOOK_FIGURES(X)
#undef X
        BOOK_FIGURE_COUNT
};

enum book_outcome { BOOK_RUNNING, BOOK_MADE, BOOK_RELEASED, BOOK_ON_HOLD, BOOK_REJECTED, BOOK_SET_ASIDE, BOOK_OUTCOMES };

/* What a batch that cures wants next: its marker bars weighed, a test, a word on its outcome. */
enum cure_want { WANT_NOTHING, WANT_WEIGHING, WANT_TEST, WANT_OUTCOME, WANTS };

/* One part of one kind of piece in a batch. */
struct book_pieces {
    char kind[LW_NAME_BYTES]; /* of the piece; that of a portion without one is "" */
    char part[LW_NAME_BYTES]; /* the portion's name */
    enum piece_class class;
    bool first_time;
    bool counted; /* good and rejects are of the whole piece, so the same for each part */
    int good, rejects;
    int made;      /* pieces that each_g is the mean of; 0: it could not be told */
    double each_g; /* NAN */
    double within_squares; /* sum of m (mean of m pieces - each_g)^2 over the stretches between weighings, g^2 */
    int within_degrees;    /* stretches less one; 0: no spread within */
};

struct book_row {
    int64_t batch_id;
    int64_t last_event; /* of the record that it was found from */
    enum book_outcome outcome;
    bool left_out;    /* teaches nothing */
    bool until_least; /* it was still workable when it was used up */
    enum technique technique; /* of the portion that waits for the thickest batter: from and until are for it */
    enum cure_want want;
    int64_t want_s; /* when; 0: it wants nothing */
    double figure[BOOK_FIGURE_COUNT]; /* NAN: not taken */
    int kinds;
    struct book_pieces pieces[BATCH_KINDS];
};

/* What the row is found by, each a few words parted by blanks. */
struct book_words {
    const char *recipe, *colourants, *fragrances;
    const char *said; /* notes, problems, reasons, answers, oils */
};

/* One line of the book. */
struct book_line {
    int64_t id;
    char number[BATCH_NUMBER_BYTES];
    char name[LW_NAME_BYTES];
    int64_t recipe_id;
    int revision;
    int64_t started_s;
    int32_t offset_s;
    int64_t finished_s; /* 0: not yet */
    enum book_outcome outcome;
    bool left_out;
    bool teaches; /* it is learned from: finished, neither set aside nor left out */
    bool until_least;
    enum technique technique;
    enum cure_want want;
    int64_t want_s;
    double figure[BOOK_FIGURE_COUNT];
};

#endif
