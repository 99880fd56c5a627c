/* names.h - the names that the exchange format and the store use for the model's enumerations. */
#ifndef LYEWAY_NAMES_H
#define LYEWAY_NAMES_H

#include <stdbool.h>

#include "lyeway/batch.h"
#include "lyeway/book.h"

const char *name_of_purpose(enum purpose purpose);       /* "skin" ... */
const char *name_of_technique(enum technique technique); /* "pour" ... */
const char *name_of_class(enum piece_class class);       /* "simple", "flower" */
const char *name_of_alkali(enum alkali alkali);          /* "NaOH", "KOH" */
const char *name_of_put_in(enum put_in put_in);          /* "portions", "batter" */
const char *name_of_standing(enum standing standing);    /* "certificate", "own", "published", "computed", "practice", "memory" */
const char *name_of_part(enum part part);                /* "batter", "oil" ... "size" */
const char *name_of_step(enum step_kind kind);           /* "lay out" ..., by STEP_KINDS */
const char *name_of_event(enum event_kind kind);         /* "weighed" ..., by EVENT_KINDS */
const char *name_of_vessel_use(enum vessel_use use);     /* "none", "lye", "jug", "alkali cup", "cup", "bag" */

const char *name_of_outcome(enum book_outcome outcome);  /* "on the bench", "made", "released", "on hold", "rejected", "set aside" */
const char *name_of_figure(enum book_figure figure);     /* its word: "oils", "superfat" ..., by BOOK_FIGURES */

/* The other way; false if no value has that name, *value is then untouched. */
bool purpose_named(const char *name, enum purpose *value);
bool technique_named(const char *name, enum technique *value);
bool class_named(const char *name, enum piece_class *value);
bool put_in_named(const char *name, enum put_in *value);

#endif
