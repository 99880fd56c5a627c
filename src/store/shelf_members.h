/* shelf_members.h - the figures and texts of an ingredient by name, for the rows of ingredient_fact. */
#ifndef STORE_SHELF_MEMBERS_H
#define STORE_SHELF_MEMBERS_H

#include "lyeway/facts.h"
#include "store/member.h"

enum shelf_form {
    SHELF_REAL, /* double */
    SHELF_INT,  /* int or unsigned up to 0xFFFFFF */
    SHELF_BOOL, /* bool */
    SHELF_WORD, /* an enumeration */
    SHELF_TEXT  /* const char *, never NULL */
};

struct shelf_member {
    const char *name;
    enum shelf_form form;
    size_t offset;
    const struct member_words *words;
    int origin;   /* which standing and source of the entry speaks for it; -1: none */
    bool carries; /* written even where it is 0, so that standing and source are */
};

/* Offsets of a standing and its source in the row of facts. */
struct shelf_origin {
    size_t standing, source;
};

enum { SHELF_ORIGINS = 2, SHELF_KINDS = FACT_FRAGRANCE + 1 };

struct shelf_kind {
    const char *word;       /* in ingredient.kind */
    size_t size, key, name; /* bytes of a row; offsets of its key and name */
    size_t count, rows;     /* offsets in struct shelf of their number and of the pointer to them */
    size_t offered;         /* offset in struct shelf of the number of those that are not archived */
    const struct shelf_member *member;
    int members;
    int origins;
    struct shelf_origin origin[SHELF_ORIGINS];
};

const struct shelf_kind *shelf_kind(enum fact_kind kind);

/* The member with that name, NULL. */
const struct shelf_member *shelf_member(const struct shelf_kind *kind, const char *name);

/* "c4_0" ... "ricinoleic": names of members as of the reference. */
const char *shelf_acid_key(enum acid which);

/* The three figures of an acid: 'acid:KEY', 'acid_lo:KEY', 'acid_hi:KEY'. */
enum { SHELF_ACID_FIGURES = 3 };
const char *shelf_acid_prefix(int figure);
double *shelf_acid(struct oil_fact *fact, int figure);

#endif
