/* batches.h - the screens of the book, as they open one another. */
#ifndef SCREENS_BATCHES_H
#define SCREENS_BATCHES_H

#include "ui/screens/top.h"
#include "work/book.h"

enum { FILTER_BYTES = 256 };

/* The list, with that filter in its field and in that order. */
void book_open_with(const struct top *top, const char *filter, enum book_order order);

/* Batches side by side, two to four; about: the figure whose difference is explained. */
void compare_open(const struct top *top, const int64_t id[], int n);

/* A batch beside the one of its recipe before it that counts; a sentence where there is none. */
void compare_with_before(const struct top *top, const struct book_line *line);

/* One figure against another over what the filter finds; BOOK_FIGURE_COUNT is the day. */
void plot_open(const struct top *top, const char *filter, int across, int up);

/* What the batches have taught. */
void learned_open(const struct top *top);

/* Asks for a figure; `day` offers the day made (BOOK_FIGURE_COUNT) too. */
void figure_ask(const struct top *top, const char *title, bool day, void (*taken)(void *context, int figure),
                void *context);
/* Its name, the day's among them. */
const char *figure_name(int figure);

/* Asks for a recipe, colourant, fragrance or outcome, and hands on the filter with it added to `text`. */
void filter_ask(const struct top *top, const char *text, void (*taken)(void *context, const char *text), void *context);

/* Asks whether a new batch is made of the revision of that one or of the recipe as it is now, and goes on to start it. */
void again_ask(const struct top *top, int64_t batch);

/* Leaves a batch out of what is learned, with a reason that is asked for, or counts it again. `done` is called when that is saved. The
 * question is a part of the screen that asks it. */
struct left_out {
    struct top top;
    int64_t batch;
    void (*done)(void *context);
    void *context;
};
void left_out_ask(struct left_out *question);

#endif
