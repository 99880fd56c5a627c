/* book.h - the book of batches as a maker uses it: found by what is typed, compared, plotted, explained. */
#ifndef WORK_BOOK_H
#define WORK_BOOK_H

#include "calc/spread.h"
#include "lyeway/book.h"
#include "store/book.h"
#include "work/lessons.h"
#include "work/workshop.h"

/* Finds anew the rows of batches whose record has grown. *progress* (may be NULL) is told after each how many of all are done. A batch whose record cannot be read is skipped, and the sentence of the last such is in *error with LW_CORRUPT, when all others
 * are done. */
enum lw_status book_catch_up(struct workshop *workshop, void (*progress)(void *context, int done, int all),
                             void *context, struct lw_error *error);

/* What is typed: words, each the beginning of one that the batch has; "in quotes" one after the other and whole; recipe:, colourant:,
 * fragrance:, outcome: before a word or a quoted text; 2026, 2026-03 or 2026-03-14 a date; from:2026-03 and to:2026-05 a stretch of
 * days, both ends in it; counts:yes those that are learned from. offset_s: of the maker's clock from UTC. LW_INVALID for another word
 * before a colon, for what is no day after from: or to:, for more words than a filter takes; the filter then finds nothing. */
enum lw_status book_filter_read(const char *text, int32_t offset_s, struct book_filter *filter, struct lw_error *error);

/* Text with one more term, to be read so: `name` in quotes where it has blanks. */
void book_filter_add(char *text, size_t size, enum book_in in, const char *name);

/* A figure as people read it, with its unit where `unit`: "5.3 %", "31 min"; "-" where it was not taken, "at least 31 min". */
void book_figure_text(const struct book_line *line, enum book_figure figure, const struct settings *settings, bool unit,
                      char *out, size_t size);
/* The same for the cell of a table, where words have no room: ">= 31 min", without its unit ">=31". */
void book_figure_cell(const struct book_line *line, enum book_figure figure, const struct settings *settings, bool unit,
                      char *out, size_t size);
const char *book_figure_name(enum book_figure figure); /* "mass a piece" */
/* The figure is a bound: the batter was used up while it still could be worked, so the true one lies higher. */
bool book_at_least(const struct book_line *line, enum book_figure figure);
/* A value of the figure as plotted (shares in percent, masses and temperatures in the maker's units) and its unit. */
double book_figure_value(double value, enum book_figure figure, const struct settings *settings);
const char *book_figure_unit(enum book_figure figure, const struct settings *settings);

/* ---- lines in an order: a page at a time of what can be 100,000 long */

struct book_list {
    struct book_filter filter;
    enum book_order order;
    int count; /* lines in memory, of which the first is line `first` of all where that is known, else -1 */
    bool more_before, more_after;
    struct book_line line[2 * BOOK_PAGE];
};

/* Reads from the beginning; or the last ones. With terms in the filter other orders than newest first sort what was found, up to
 * 2 * BOOK_PAGE batches, the newest. */
enum lw_status book_list_first(struct workshop *workshop, struct book_list *list, struct lw_error *error);
enum lw_status book_list_last(struct workshop *workshop, struct book_list *list, struct lw_error *error);
/* Reads the lines in memory again, from the same first one on, after records have grown; from the beginning where that cannot be. */
enum lw_status book_list_again(struct workshop *workshop, struct book_list *list, struct lw_error *error);
/* Moves on by a page; *shift: by how many lines those in memory have moved towards the beginning (below 0: towards the end). */
enum lw_status book_list_on(struct workshop *workshop, struct book_list *list, bool backwards, int *shift,
                            struct lw_error *error);

/* Every batch that the words find, newest first, as a table for people or as JSON ({"lyeway": 1, "book": [...]}), handed to `print` a
 * page at a time, so that memory does not grow with the book. What print returns ends it unless it is LW_OK. */
enum lw_status book_print(struct workshop *workshop, const char *words, bool json,
                          enum lw_status (*print)(const char *text, struct lw_error *error), struct lw_error *error);

/* ---- two to four side by side */

enum { BOOK_COMPARED = 4, COMPARE_ROWS = 160 };

struct compare {
    int batches, rows;
    struct book_line line[BOOK_COMPARED];
    struct compare_row {
        char name[64];
        char value[BOOK_COMPARED][32];
        bool differs;
    } row[COMPARE_ROWS];
    int causes; /* why the figure of the first differs from that of the second; of more, between the two that differ most */
    struct {
        char text[200]; /* "less strength, 33.0 % against 36.0 %: about 1.5 times as long" */
    } cause[12];
    char summary
        [300]; /* which two, what the model makes of it, and how many batches speak; or why nothing can be said */
};

/* LW_INVALID for fewer than two or more than four. */
enum lw_status book_compare(struct workshop *workshop, const int64_t id[], int n, enum book_figure about,
                            struct compare *compare, struct lw_error *error);

/* ---- one figure against another */

enum { BOOK_POINTS = 4000 };

struct points {
    int n;         /* with both figures */
    int without;   /* that the filter finds and that lack one of them */
    int left_out;  /* that have both and do not teach: left out, set aside, or still on the bench */
    bool more;     /* only the newest BOOK_POINTS were looked at */
    int64_t *id;   /* rising in x, then y */
    double *x, *y; /* as book_figure_value */
    bool *out;     /* does not teach: drawn apart, not in the line */
    bool *least;   /* one of its two figures is a bound; it counts as it stands */
    int least_of;  /* of those that count */
    bool one_x;    /* two or more count, and all lie at one x, so that there is no line */
    struct line line;
    double low_x, high_x, low_y, high_y;
    double median_y, quarter_y, three_quarters_y; /* of those that count */
};

/* BOOK_FIGURE_COUNT stands for the day made, in days before now (below 0). To be freed by points_free. */
enum lw_status book_points(struct workshop *workshop, const struct book_filter *filter, int across, int up,
                           struct points *points, struct lw_error *error);
void points_free(struct points *points);

#endif
