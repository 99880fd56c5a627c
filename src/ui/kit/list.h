/* list.h - which row of a list is selected and which rows are in view. Rows stay with their owner. */
#ifndef KIT_LIST_H
#define KIT_LIST_H

#include <stdbool.h>

#include "ui/kit/key.h"
#include "ui/kit/surface.h"

struct list {
    int count, selected, top;
    int rows; /* in view when last painted: a page */
};

/* Rows are now `count`: the selection stays inside. */
void list_count(struct list *list, int count);

/* Up, Down, PgUp, PgDn, Home, End, wheel. False if it is not such a key. */
bool list_key(struct list *list, const struct key *key);

/* Calls `row` for each row in view with a canvas of one line; a sign in the gutter marks the selected one. */
void list_paint(struct list *list, const struct canvas *canvas,
                void (*row)(void *context, int index, bool selected, const struct canvas *line), void *context);

/* Index of the row drawn at that row of the canvas last painted, -1 for none: for a click. */
int list_at(const struct list *list, int row);

#endif
