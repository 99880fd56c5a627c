/* member.h - columns of a row as members of a struct: tables say which is where, so that no column is bound by hand. */
#ifndef STORE_MEMBER_H
#define STORE_MEMBER_H

#include "store/query.h"

enum member_kind {
    MEMBER_TEXT,   /* char[size] */
    MEMBER_REAL,   /* double; NAN is NULL in the table */
    MEMBER_INT,    /* int */
    MEMBER_INT16,  /* int16_t */
    MEMBER_UINT32, /* uint32_t */
    MEMBER_INT64,  /* int64_t */
    MEMBER_BOOL,   /* bool */
    MEMBER_WORD    /* an enumeration, by the word for each value */
};

/* The words of an enumeration, by its values from 0. */
struct member_words {
    int count;
    const char *const *word;
};

struct member {
    enum member_kind kind;
    size_t offset;
    size_t size;                      /* of MEMBER_TEXT */
    const struct member_words *words; /* of MEMBER_WORD */
};

struct members {
    const struct member *member;
    int count;
};

/* Binds the next parameters, or reads the next columns, in the order of the table. A word that is not known, a text that is
 * too long for its member or a number outside of its type is damage. */
void members_bind(struct query *query, const struct members *members, const void *from);
void members_read(struct query *query, const struct members *members, void *to);

/* Every member is the same in both; what lies between members does not count. */
bool members_same(const struct members *members, const void *a, const void *b);

/* The word for the value, "" where it is none of them; the value for a word, -1. */
const char *member_word(const struct member_words *words, int value);
int member_value(const struct member_words *words, const char *word);

#endif
