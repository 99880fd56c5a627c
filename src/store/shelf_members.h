/* shelf_members.h - which members of a facts row are kept under which name. */
#ifndef STORE_SHELF_MEMBERS_H
#define STORE_SHELF_MEMBERS_H

#include "lyeway/facts.h"

enum shelf_form { SHELF_REAL, SHELF_INT, SHELF_UNSIGNED, SHELF_BOOL, SHELF_TEXT };

struct shelf_member {
    const char *name;
    enum shelf_form form;
    size_t offset;
};

/* Where a row keeps its standing and source. */
struct shelf_trust {
    size_t standing, source;
};

struct shelf_row {
    const char *kind; /* as in the table ingredient */
    size_t bytes;
    const struct shelf_member *member;
    size_t members;
    struct shelf_trust trust;
};

/* By enum fact_kind. */
const struct shelf_row *shelf_row(enum fact_kind kind);

/* The kind of that word, -1 for none. */
int shelf_kind_named(const char *word);

double shelf_number(const struct shelf_member *member, const void *row);
void shelf_set_number(const struct shelf_member *member, void *row, double number);

#endif
