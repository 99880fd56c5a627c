/* sizing.h - every way to size a recipe, as a maker types it: the text it has now, and back from text to a size.
 *
 * Numbers may have units and arithmetic (quantity.h). What is further to be said stands behind them, parted by a comma and a blank:
 *
 *   oils, batter   500 g
 *   box            300 x 165 x 25 mm, 90 %        length, width, height to fill; share of it that is filled
 *   cylinder       75 x 200 mm, 90 %              diameter, height
 *   volume         1200 mL, 90 %
 *   cavities       6 x 120 mL, 90 %
 *   water          1200 g, 90 %                   of water that the mould holds
 *   pieces         44 x 2.6 g, blossom, flower, first time, 90 %      good ones; kind; class; chance that they are enough
 *   one oil        320 g coconut                  all that is left of it
 *
 * The two ways of bringing the alkali to a whole division take no text.
 */
#ifndef WORK_SIZING_H
#define WORK_SIZING_H

#include <stdbool.h>
#include <stddef.h>

#include "lyeway/document.h"
#include "lyeway/settings.h"
#include "lyeway/status.h"

enum size_way {
    WAY_OILS,
    WAY_BATTER,
    WAY_BOX,
    WAY_CYLINDER,
    WAY_VOLUME,
    WAY_CAVITIES,
    WAY_WATER,
    WAY_PIECES,
    WAY_ONE_OIL,
    WAY_WHOLE_LESS,
    WAY_WHOLE_MORE,
    WAYS
};

enum { SIZING_BYTES = 192 }; /* of a text */

/* The way by which the recipe is sized now. A mould is told by its shape. */
enum size_way sizing_now(const struct recipe *recipe);

/* Whether a text belongs to it. */
bool sizing_typed(enum size_way way);

/* A few words for a list, and the question with an example. */
const char *sizing_name(enum size_way way);
const char *sizing_question(enum size_way way);

/* What the text would be to leave the recipe as it is, "" where it has no such mould or pieces. `oil` is the line of the recipe
 * that WAY_ONE_OIL is about as long as no other is named. */
void sizing_text(const struct plan_document *document, const struct settings *settings, enum size_way way, int oil,
                 char out[SIZING_BYTES]);

/* Reads a text into the size of the recipe, whose present one *size is to begin with: a mould stays in it while the recipe is
 * sized in another way. LW_INVALID with a sentence, *size then being of no use; LW_NOT_FOUND where there is no size near by at
 * which the alkali is a whole division, or the recipe has no such oil. */
enum lw_status sizing_read(const struct plan_document *document, const struct settings *settings, enum size_way way,
                           int oil, const char *text, struct recipe_size *size, struct lw_error *error);

#endif
