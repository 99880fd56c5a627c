/* json.h - text from outside as a tree that can be trusted: gate first, then the JSON library
 * for the structure, and numbers by ourselves. */
#ifndef EXCHANGE_JSON_H
#define EXCHANGE_JSON_H

#include <stddef.h>

#include <cjson/cJSON.h>

#include "lyeway/status.h"

/* Reads n bytes; `name` is the file's name for messages. On success *root is to be freed by cJSON_Delete, and
 * valuedouble of every number in it is correctly rounded, whatever the locale (the library's own reading follows the
 * locale). On failure *root is NULL: LW_INVALID as gate_check says, LW_FULL where memory ran out. */
enum lw_status json_read(const char *text, size_t n, const char *name, cJSON **root, struct lw_error *error);

/* The member of that exact name, NULL if there is none (the library's own search can ignore case). */
const cJSON *json_member(const cJSON *object, const char *name);

#endif
