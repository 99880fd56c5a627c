/* read.h - how the exchange format is read: a table of members for each kind of object, walked by one engine.
 *
 * A row says a member's name, what it may hold and where it goes in the struct that the object becomes. Every refusal
 * names the file, the JSON pointer (RFC 6901) of the place, what was found and what was expected.
 */
#ifndef EXCHANGE_READ_H
#define EXCHANGE_READ_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "exchange/json.h"
#include "exchange/recipe_file.h"

enum { READ_STEPS = 32, READ_SOURCE_BYTES = 511 };

struct read_step {
    const char *member; /* NULL: an element of a list */
    size_t index;
};

struct reader {
    const char *file;
    const struct reference *reference;
    struct recipe_file *into;
    struct lw_error *error;
    enum lw_status status; /* of the first refusal */
    size_t steps;
    struct read_step step[READ_STEPS];
};

/* What a number measures: its range and the unit it is kept in. The ranges are those of schema/exchange.schema.json. */
enum measure {
    MEASURE_PERCENT,
    MEASURE_SUPERFAT,
    MEASURE_PURITY,
    MEASURE_STRENGTH,
    MEASURE_MASS,
    MEASURE_MASS_OR_NONE,
    MEASURE_STEP,
    MEASURE_LENGTH,
    MEASURE_VOLUME,
    MEASURE_DENSITY,
    MEASURE_COUNT,
    MEASURE_REVISION,
    MEASURE_RATIO,
    MEASURE_SAP,
    MEASURE_PER_KG,
    MEASURE_WATER_TEMP,
    MEASURE_MELT_TEMP,
    MEASURE_IODINE,
    MEASURE_MOLAR_MASS,
    MEASURE_EQUIVALENTS,
    MEASURE_ACIDITY
};

enum member_kind {
    MEMBER_NUMBER, /* double, in the measure's unit */
    MEMBER_COUNT,  /* int */
    MEMBER_UG,     /* int64_t micrograms from grams */
    MEMBER_FLAG,   /* bool */
    MEMBER_NOT,    /* bool, the opposite of what stands in the file */
    MEMBER_NAME,   /* char[LW_NAME_BYTES] */
    MEMBER_NOTE,   /* char[LW_NOTE_BYTES], newlines and tabs allowed */
    MEMBER_KEPT,   /* const char *, into the file's own memory; as long as a name */
    MEMBER_SOURCE, /* the same, up to READ_SOURCE_BYTES: where a value comes from takes a sentence */
    MEMBER_CHOICE, /* enum */
    MEMBER_OTHER   /* by its own function */
};

enum member_need { NEED_NOT, NEED_ALWAYS, NEED_ONE_OF };

struct member {
    const char *name;
    enum member_kind kind;
    enum member_need need;
    size_t offset;              /* of the value in the struct */
    enum measure measure;       /* numbers */
    const char *(*choice)(int); /* choices: name of each value of the enum, NULL past the last */
    bool (*read)(struct reader *reader, const cJSON *value, void *into);
    bool tagged; /* also writes `tag` into the enum at tag_offset: which of a "one of" set it was */
    size_t tag_offset;
    int tag;
};

enum one_of { ONE_OF_NONE, ONE_OF_EXACTLY, ONE_OF_AT_MOST };

/* An object and the struct it becomes. */
struct shape {
    const struct member *member;
    size_t members;
    enum one_of one_of; /* rule for the members with NEED_ONE_OF */
    size_t size;        /* of the struct; 0: not to be cleared first */
    const void *blank;  /* what it holds before reading; NULL: zeros */
    /* What members say of one another; may be NULL. */
    bool (*finish)(struct reader *reader, const cJSON *object, void *into);
};

struct list {
    const struct shape *shape; /* of an element */
    size_t most;
    bool numbered;      /* elements begin with a uint32_t id, given from 1 on */
    const char *things; /* "oils" */
};

bool read_shape(struct reader *reader, const cJSON *object, const struct shape *shape, void *into);

/* Reads every element of a list into items, which has room for `most` of them and at least one. */
bool read_items(struct reader *reader, const cJSON *value, const struct list *list, void *items, int *count);

/* The same into memory made for it, to be freed with cJSON_free; NULL after a refusal. It is the library's allocator
 * so that one pair of hooks sees every allocation of a read. */
void *read_new_items(struct reader *reader, const cJSON *value, const struct list *list, size_t *count);

bool read_number(struct reader *reader, const cJSON *value, enum measure measure, double *number);

/* Exactly n numbers of one measure; `what` says so ("two numbers, from and to"). */
bool read_numbers(struct reader *reader, const cJSON *value, enum measure measure, size_t n, double number[],
                  const char *what);

/* Two numbers, the first not above the second. */
bool read_range(struct reader *reader, const cJSON *value, enum measure measure, double *lo, double *hi);

/* Copies a name, LW_NAME_BYTES with its NUL. */
bool read_name(struct reader *reader, const cJSON *value, char *name);

/* Memory that belongs to the file, recipe_file.own; NULL after a refusal. */
void *read_keep(struct reader *reader, size_t size);

/* Frees the memory behind the texts of shelf rows: recipe_file.own. */
void read_free_kept(void *own);

/* A deeper place for pointers in messages: a member, or with NULL an element. Every call that returns true has left
 * again. */
void read_enter(struct reader *reader, const char *member, size_t index);
void read_leave(struct reader *reader);

/* Refuses the value, or with NULL what is missing: "FILE: POINTER: found WHAT, expected EXPECTED.". Returns false. */
bool read_refuse(struct reader *reader, const cJSON *value, const char *expected, ...)
    __attribute__((format(printf, 3, 4)));

/* "FILE: POINTER: TEXT." Returns false. */
bool read_fail(struct reader *reader, enum lw_status status, const char *text, ...)
    __attribute__((format(printf, 3, 4)));

/* Parts that more than one object has. */
bool read_pieces(struct reader *reader, const cJSON *value, void *pieces);    /* struct pieces */
bool read_mould(struct reader *reader, const cJSON *value, void *mould);      /* struct mould */
bool read_purity(struct reader *reader, const cJSON *value, void *ranged);    /* struct ranged, shares */
bool read_sap(struct reader *reader, const cJSON *value, void *ranged);       /* nominal of struct ranged */
bool read_sap_range(struct reader *reader, const cJSON *value, void *ranged); /* lo and hi of it */
/* After both of them: refuses a range that does not hold the value. */
bool read_sap_finish(struct reader *reader, const cJSON *object, struct ranged *sap);

/* Lists and objects of the file, into struct recipe_file and struct recipe. */
bool read_recipes(struct reader *reader, const cJSON *value, void *file);
bool read_portions(struct reader *reader, const cJSON *value, void *recipe);
bool read_shelf(struct reader *reader, const cJSON *value, void *file);

/* After both: gives a limit that the shelf has for a fragrance to each line that names it and has none. */
void read_shelf_limits(const cJSON *shelf, struct recipe_file *file);

#endif
