/* plan_json.h - a plan as one JSON object, in the form that schema/ describes. Masses in grams, shares in percent. */
#ifndef EXCHANGE_PLAN_JSON_H
#define EXCHANGE_PLAN_JSON_H

#include "base/buffer.h"
#include "lyeway/document.h"

void plan_json(const struct plan_document *document, struct buffer *out);

#endif
