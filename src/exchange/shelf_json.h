/* shelf_json.h - the shelf part of recipe_json. */
#ifndef EXCHANGE_SHELF_JSON_H
#define EXCHANGE_SHELF_JSON_H

#include "exchange/json_write.h"
#include "exchange/recipe_json.h"

/* The member "shelf", left out where the shelf is empty. */
void shelf_json(struct json_writer *json, const struct recipe_json *what);

#endif
