/* page.h - the record of one batch on a page that is as long as it takes. */
#ifndef SCREENS_BATCH_PAGE_H
#define SCREENS_BATCH_PAGE_H

#include "ui/screens/batches/batches.h"
#include "work/curing.h"
#include "work/run.h"

enum { PAGE_SECTIONS = 10 };

struct page {
    struct surface surface; /* the whole page */
    int rows;               /* of it that are used */
    int sections;
    int section[PAGE_SECTIONS]; /* rows that begin one */
};

/* What a page is of. */
struct page_source {
    struct workshop *workshop;
    const struct run *run;
    const struct curing *curing;
    struct book_line line; /* its line in the book */
};

/* Draws the page anew for that width; false without memory. */
bool page_draw(struct page *page, const struct page_source *source, int cols);
void page_done(struct page *page);

/* page_cure.c: bars, curve, day, label, tests, from row `row` on; returns the row after. */
int page_cure(const struct page_source *source, const struct canvas *canvas, int row);

#endif
