/* book_list.c - lines of the book in memory: two pages of what may be very long, or what a filter found, sorted. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "work/book.h"

enum { ROOM = sizeof((struct book_list *)0)->line / sizeof((struct book_list *)0)->line[0] };

/* What was found is put in order here: there is no index for an order among the finds of words. */
static bool sorted_here(const struct book_list *list)
{
    return (list->filter.terms > 0 || list->filter.counted_only) && list->order != BOOK_NEWEST;
}

static enum book_order order_read(const struct book_list *list)
{
    return sorted_here(list) ? BOOK_NEWEST : list->order;
}

/* ---- reading */

struct page {
    struct book_line *line;
    int n, most;
    bool more;
};

static bool take_line(void *context, const struct book_line *line)
{
    struct page *page = context;

    if (page->n == page->most) {
        page->more = true;
        return false;
    }
    page->line[page->n++] = *line;
    return true;
}

/* Up to `most` lines beyond one; backwards they come nearest first. One line more is asked for, to know whether there are any. */
static enum lw_status read_page(struct workshop *workshop, const struct book_list *list, const struct book_line *beyond,
                                bool backwards, struct page *page, struct lw_error *error)
{
    return book_page(workshop_store(workshop), &list->filter, order_read(list), beyond, backwards, page->most + 1,
                     take_line, page, error);
}

static void turn_round(struct book_line line[], int n)
{
    for (int i = 0; i < n / 2; i++) {
        struct book_line kept = line[i];

        line[i] = line[n - 1 - i];
        line[n - 1 - i] = kept;
    }
}

/* ---- an order among what was found */

static int by_number(double a, double b)
{
    return a < b ? -1 : a > b;
}

static int newest_first(const struct book_line *a, const struct book_line *b)
{
    if (a->started_s != b->started_s)
        return a->started_s > b->started_s ? -1 : 1;
    return a->id > b->id ? -1 : a->id < b->id;
}

static int by_figure(const struct book_line *a, const struct book_line *b, enum book_figure figure)
{
    int order = by_number(a->figure[figure], b->figure[figure]);

    return order ? order : newest_first(a, b);
}

static int by_recipe(const void *a, const void *b)
{
    const struct book_line *one = a, *two = b;
    int order = strcmp(one->name, two->name);

    return order ? order : newest_first(one, two);
}

static int by_superfat(const void *a, const void *b)
{
    return by_figure(a, b, BOOK_SUPERFAT);
}

static int by_rejects(const void *a, const void *b)
{
    return by_figure(a, b, BOOK_REJECTS);
}

static int by_each(const void *a, const void *b)
{
    return by_figure(a, b, BOOK_EACH);
}

static int by_window(const void *a, const void *b)
{
    return by_figure(a, b, BOOK_WINDOW);
}

static const struct ordering {
    int (*compare)(const void *a, const void *b);
    int figure; /* that a line needs; -1: none */
} orderings[BOOK_ORDERS] = {
    [BOOK_BY_RECIPE] = {by_recipe, -1},
    [BOOK_BY_SUPERFAT] = {by_superfat, BOOK_SUPERFAT},
    [BOOK_BY_REJECTS] = {by_rejects, BOOK_REJECTS},
    [BOOK_BY_EACH] = {by_each, BOOK_EACH},
    [BOOK_BY_WINDOW] = {by_window, BOOK_WINDOW},
};

/* As the store does for what it orders: lines without the figure are left out. */
static void sort_found(struct book_list *list)
{
    const struct ordering *ordering = &orderings[list->order];
    int kept = 0;

    for (int i = 0; i < list->count; i++)
        if (ordering->figure < 0 || isfinite(list->line[i].figure[ordering->figure]))
            list->line[kept++] = list->line[i];
    list->count = kept;
    qsort(list->line, (size_t)kept, sizeof list->line[0], ordering->compare);
}

/* ---- the list */

static enum lw_status read_whole(struct workshop *workshop, struct book_list *list, bool backwards,
                                 struct lw_error *error)
{
    struct page page = {list->line, 0, ROOM, false};
    enum lw_status status = read_page(workshop, list, NULL, backwards, &page, error);

    list->count = page.n;
    list->more_after = !backwards && page.more && !sorted_here(list);
    list->more_before = backwards && page.more && !sorted_here(list);
    if (backwards)
        turn_round(list->line, list->count);
    if (sorted_here(list))
        sort_found(list);
    return status;
}

enum lw_status book_list_first(struct workshop *workshop, struct book_list *list, struct lw_error *error)
{
    return read_whole(workshop, list, false, error);
}

enum lw_status book_list_last(struct workshop *workshop, struct book_list *list, struct lw_error *error)
{
    if (sorted_here(list))
        return LW_OK; /* all that there is is in memory */
    return read_whole(workshop, list, true, error);
}

enum lw_status book_list_again(struct workshop *workshop, struct book_list *list, struct lw_error *error)
{
    struct book_line first = list->line[0];
    struct page page = {list->line + 1, 0, ROOM - 1, false};
    enum lw_status status;

    if (list->count == 0 || !list->more_before)
        return book_list_first(workshop, list, error);
    status = read_page(workshop, list, &first, false, &page, error);
    if (status == LW_OK)
        status = book_line(workshop_store(workshop), first.id, &list->line[0], error);
    if (status != LW_OK)
        return book_list_first(workshop, list, error);
    list->count = page.n + 1;
    list->more_after = page.more;
    return LW_OK;
}

/* Drops from the far end what has no room beside a page more. */
static int make_room(struct book_list *list, bool backwards)
{
    int drop = list->count + BOOK_PAGE - ROOM;

    if (drop <= 0)
        return 0;
    if (!backwards)
        memmove(list->line, list->line + drop, (size_t)(list->count - drop) * sizeof list->line[0]);
    list->count -= drop;
    if (backwards)
        list->more_after = true;
    else
        list->more_before = true;
    return drop;
}

static void put_before(struct book_list *list, struct book_line found[], int n)
{
    turn_round(found, n);
    memmove(list->line + n, list->line, (size_t)list->count * sizeof list->line[0]);
    memcpy(list->line, found, (size_t)n * sizeof list->line[0]);
}

enum lw_status book_list_on(struct workshop *workshop, struct book_list *list, bool backwards, int *shift,
                            struct lw_error *error)
{
    struct page page = {calloc(BOOK_PAGE, sizeof *page.line), 0, BOOK_PAGE, false};
    enum lw_status status;
    int dropped;

    *shift = 0;
    if (!page.line)
        return lw_fail(error, LW_FULL, "There is no memory left to read on in the book.");
    status = list->count == 0
                 ? LW_OK
                 : read_page(workshop, list, &list->line[backwards ? 0 : list->count - 1], backwards, &page, error);
    if (status == LW_OK) {
        dropped = make_room(list, backwards);
        if (backwards) {
            put_before(list, page.line, page.n);
            list->more_before = page.more;
            *shift = -page.n;
        } else {
            memcpy(list->line + list->count, page.line, (size_t)page.n * sizeof list->line[0]);
            list->more_after = page.more;
            *shift = dropped;
        }
        list->count += page.n;
    }
    free(page.line);
    return status;
}
