/* exact.h - numbers written so that reading them gives the same value again. */
#ifndef EXCHANGE_EXACT_H
#define EXCHANGE_EXACT_H

#include "exchange/json_write.h"

/* The shortest decimal that reads back as `number`. */
void json_exact(struct json_writer *writer, const char *name, double number);

/* A share as percent: the shortest decimal whose hundredth is `share`. */
void json_exact_percent(struct json_writer *writer, const char *name, double share);

/* [lo, hi] on one line, each like json_exact; scale 100 for shares. */
void json_exact_interval(struct json_writer *writer, const char *name, double lo, double hi, double scale);

#endif
