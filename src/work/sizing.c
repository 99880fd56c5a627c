/* sizing.c - what is typed for a size: numbers with an x between them, then what else is to be said. */
#include "work/sizing.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/error.h"
#include "base/mass.h"
#include "base/text.h"
#include "calc/coarse.h"
#include "calc/mould.h"
#include "lyeway/names.h"
#include "work/cell_parts.h"
#include "work/near.h"
#include "work/quantity.h"
#include "work/words.h"

enum { MOST_NUMBERS = 3, MOST_COUNT = 2000 };

static const double MOST_G = 1e6, MOST_ML = 1e6;

/* Water at 20 C (CIPM, Tanaka and others 2001: 998.2 kg per cubic metre). */
static const double WATER_G_ML = 0.9982;

enum measure { MEASURE_NONE, MEASURE_MM, MEASURE_ML, MEASURE_MASS, MEASURE_COUNT };

static const struct way {
    const char *name, *question;
    enum measure measure[MOST_NUMBERS];
    bool mould;
    enum mould_shape shape;
} ways[WAYS] = {
    [WAY_OILS] = {"oils", "How much oil in all? 500 g, 1 lb 3 oz, 250/3", {MEASURE_MASS}, false, MOULD_BOX},
    [WAY_BATTER] = {"batter", "How much batter in the jug? 1.4 kg, 50 oz", {MEASURE_MASS}, false, MOULD_BOX},
    [WAY_BOX] = {"mould, a box",
                 "Inside of the mould up to the height to fill, in mm, and how far it is filled: 300 x 165 x 25, 90 %",
                 {MEASURE_MM, MEASURE_MM, MEASURE_MM},
                 true,
                 MOULD_BOX},
    [WAY_CYLINDER] = {"mould, a cylinder",
                      "Diameter and height inside, in mm, and how far it is filled: 75 x 200, 90 %",
                      {MEASURE_MM, MEASURE_MM},
                      true,
                      MOULD_CYLINDER},
    [WAY_VOLUME] = {"mould, by volume",
                    "How many mL does it hold, and how far is it filled? 1200 mL, 90 %",
                    {MEASURE_ML},
                    true,
                    MOULD_VOLUME},
    [WAY_CAVITIES] = {"mould, its cavities",
                      "How many cavities, mL in each, and how far they are filled: 6 x 120, 90 %",
                      {MEASURE_COUNT, MEASURE_ML},
                      true,
                      MOULD_CAVITIES},
    [WAY_WATER] = {"mould, by water",
                   "How much water does it hold when weighed full, and how far is it filled? 1200 g, 90 %",
                   {MEASURE_MASS},
                   true,
                   MOULD_VOLUME},
    [WAY_PIECES] =
        {"pieces",
         "How many good pieces, the mass of each, and if you like the kind, simple or flower, first time, and the "
         "chance that they are enough: 44 x 2.6 g, blossom, flower, 90 %",
         {MEASURE_COUNT, MEASURE_MASS},
         false,
         MOULD_BOX},
    [WAY_ONE_OIL] = {"all of one oil",
                     "How much is left of which oil? The batch uses it up: 320 g coconut",
                     {MEASURE_NONE},
                     false,
                     MOULD_BOX},
    [WAY_WHOLE_LESS] = {"whole alkali, less oil", "", {MEASURE_NONE}, false, MOULD_BOX},
    [WAY_WHOLE_MORE] = {"whole alkali, more oil", "", {MEASURE_NONE}, false, MOULD_BOX},
};

bool sizing_typed(enum size_way way)
{
    return way < WAY_WHOLE_LESS;
}

const char *sizing_name(enum size_way way)
{
    return ways[way].name;
}

const char *sizing_question(enum size_way way)
{
    return ways[way].question;
}

enum size_way sizing_now(const struct recipe *recipe)
{
    static const enum size_way of_shape[] = {[MOULD_BOX] = WAY_BOX,
                                             [MOULD_CYLINDER] = WAY_CYLINDER,
                                             [MOULD_VOLUME] = WAY_VOLUME,
                                             [MOULD_CAVITIES] = WAY_CAVITIES};

    switch (recipe->size.by) {
    case SIZE_BATTER:
        return WAY_BATTER;
    case SIZE_MOULD:
        return of_shape[recipe->size.mould.shape];
    case SIZE_PIECES:
        return WAY_PIECES;
    case SIZE_AS_GRAMS:
    case SIZE_OILS:
        break;
    }
    return WAY_OILS;
}

static void add_number(char out[SIZING_BYTES], double number, const char *sign)
{
    char text[CELL_TEXT_BYTES];

    cell_write_number(text, sizeof text, number, sign);
    text_add(out, SIZING_BYTES, "%s", text);
}

static void add_mass(char out[SIZING_BYTES], double g, const struct settings *settings)
{
    char text[CELL_TEXT_BYTES];

    words_of_mass(g, 0, settings->mass_unit, text, sizeof text);
    text_add(out, SIZING_BYTES, "%s", text);
}

static void mould_text(const struct recipe_size *size, enum size_way way, const struct settings *settings,
                       char out[SIZING_BYTES])
{
    const struct mould *mould = &size->mould;

    if (!size->has_mould || mould->shape != ways[way].shape)
        return;
    if (way == WAY_BOX) {
        add_number(out, mould->length_mm, " x ");
        add_number(out, mould->width_mm, " x ");
        add_number(out, mould->height_mm, " mm, ");
    } else if (way == WAY_CYLINDER) {
        add_number(out, mould->diameter_mm, " x ");
        add_number(out, mould->height_mm, " mm, ");
    } else if (way == WAY_WATER) {
        add_mass(out, mould->volume_ml * WATER_G_ML, settings);
        text_add(out, SIZING_BYTES, ", ");
    } else {
        if (way == WAY_CAVITIES)
            add_number(out, mould->cavities, " x ");
        add_number(out, mould->volume_ml, " mL, ");
    }
    add_number(out, mould->fill * 100, " %");
}

static void pieces_text(const struct pieces *pieces, const struct settings *settings, char out[SIZING_BYTES])
{
    if (pieces->count < 1)
        return;
    add_number(out, pieces->count, " x ");
    add_mass(out, pieces->mass_g, settings);
    if (pieces->kind[0])
        text_add(out, SIZING_BYTES, ", %s", pieces->kind);
    text_add(out, SIZING_BYTES, ", %s", name_of_class(pieces->class));
    if (pieces->first_time)
        text_add(out, SIZING_BYTES, ", first time");
    if (pieces->chance > 0) {
        text_add(out, SIZING_BYTES, ", ");
        add_number(out, pieces->chance * 100, " %");
    }
}

void sizing_text(const struct plan_document *document, const struct settings *settings, enum size_way way, int oil,
                 char out[SIZING_BYTES])
{
    const struct recipe *recipe = document->input->recipe;
    const struct plan *plan = document->plan;

    out[0] = '\0';
    if (way == WAY_OILS)
        add_mass(out, recipe->size.by == SIZE_OILS ? recipe->size.grams : plan->oils_exact_g, settings);
    else if (way == WAY_BATTER)
        add_mass(out, recipe->size.by == SIZE_BATTER ? recipe->size.grams : mass_g(plan->batter_ug), settings);
    else if (way == WAY_PIECES)
        pieces_text(&recipe->size.pieces, settings, out);
    else if (way == WAY_ONE_OIL && oil < recipe->oils) {
        add_mass(out, plan->oil[oil].exact_g, settings);
        text_add(out, SIZING_BYTES, " %s", document_key(document->input, (struct part_ref){PART_OIL, (int16_t)oil, 0}));
    } else if (ways[way].mould)
        mould_text(&recipe->size, way, settings, out);
}

/* Takes what stands before the first ", " out of *text; false where there is nothing more. */
static bool next_item(const char **text, char item[SIZING_BYTES])
{
    const char *comma = strstr(*text, ", ");
    size_t length = comma ? (size_t)(comma - *text) : strlen(*text);

    if (length == 0 && !comma)
        return false;
    if (length >= SIZING_BYTES)
        length = SIZING_BYTES - 1;
    memcpy(item, *text, length);
    item[length] = '\0';
    *text += length + (comma ? 2 : 0);
    *text += strspn(*text, " ");
    return true;
}

static enum lw_status read_measure(enum measure measure, const struct settings *settings, const char *text,
                                   double *number, struct lw_error *error)
{
    static const char *const masses[] = {[MASS_G] = "g", [MASS_OZ] = "oz", [MASS_LB] = "lb"};
    char bare[CELL_TEXT_BYTES];
    const char *sign = measure == MEASURE_MM ? "mm" : "mL";
    bool length = measure == MEASURE_MM || measure == MEASURE_ML;
    enum lw_status status = measure == MEASURE_MASS
                                ? quantity_mass(text, masses[settings->mass_unit], number, error)
                                : quantity_number(length && cell_sign(text, sign, bare, sizeof bare) ? bare : text,
                                                  number, error);

    if (status != LW_OK)
        return status;
    if (!(*number > 0 && *number <= MOST_G))
        return lw_fail(error, LW_INVALID, "Every number is above 0 and at most 1000000.");
    if (measure == MEASURE_COUNT && (*number > MOST_COUNT || *number != floor(*number)))
        return lw_fail(error, LW_INVALID, "The first number counts: a whole number from 1 to %d.", MOST_COUNT);
    return LW_OK;
}

/* "300 x 165 x 25 mm" into as many numbers as the way has. */
static enum lw_status read_numbers(enum size_way way, const struct settings *settings, const char *text,
                                   double number[MOST_NUMBERS], struct lw_error *error)
{
    const enum measure *measure = ways[way].measure;
    int wanted = 0;

    while (wanted < MOST_NUMBERS && measure[wanted] != MEASURE_NONE)
        wanted++;
    for (int i = 0; i < wanted; i++) {
        char part[SIZING_BYTES];
        size_t length = strcspn(text, "xX");
        bool last = i == wanted - 1;
        enum lw_status status;

        if (length >= sizeof part || (text[length] == '\0') != last)
            return lw_fail(error, LW_INVALID, "Write %d number%s%s.", wanted, wanted > 1 ? "s" : "",
                           wanted > 1 ? " with an x between them" : "");
        memcpy(part, text, length);
        part[length] = '\0';
        status = read_measure(measure[i], settings, part, &number[i], error);
        if (status != LW_OK)
            return status;
        text += length + !last;
    }
    return LW_OK;
}

/* "90 %" above 0 and at most 100, or below it. */
static enum lw_status read_share(const char *item, bool whole, double *share, struct lw_error *error)
{
    char bare[CELL_TEXT_BYTES];
    double percent = 0;
    enum lw_status status;

    if (!cell_sign(item, "%", bare, sizeof bare))
        return lw_fail(error, LW_INVALID, "After the numbers a share such as 90 %% is expected, and this is \"%.40s\".",
                       item);
    status = quantity_number(bare, &percent, error);
    if (status != LW_OK)
        return status;
    if (!(percent > 0 && (whole ? percent <= 100 : percent < 100)))
        return lw_fail(error, LW_INVALID, "The share is above 0 and %s 100 %%.", whole ? "at most" : "below");
    *share = percent / 100;
    return LW_OK;
}

static struct mould mould_of(enum size_way way, const double number[MOST_NUMBERS], double fill)
{
    struct mould mould = {.shape = ways[way].shape, .fill = fill};

    if (way == WAY_BOX) {
        mould.length_mm = number[0];
        mould.width_mm = number[1];
        mould.height_mm = number[2];
    } else if (way == WAY_CYLINDER) {
        mould.diameter_mm = number[0];
        mould.height_mm = number[1];
    } else if (way == WAY_CAVITIES) {
        mould.cavities = (int)number[0];
        mould.volume_ml = number[1];
    } else
        mould.volume_ml = way == WAY_WATER ? number[0] / WATER_G_ML : number[0];
    return mould;
}

static enum lw_status read_mould(enum size_way way, const double number[MOST_NUMBERS], const char *more,
                                 struct recipe_size *size, struct lw_error *error)
{
    char item[SIZING_BYTES];
    double fill = 1;
    struct mould mould;

    if (next_item(&more, item)) {
        enum lw_status status = read_share(item, true, &fill, error);

        if (status != LW_OK)
            return status;
    }
    if (more[0])
        return lw_fail(error, LW_INVALID, "Nothing is expected after the share that is filled.");
    mould = mould_of(way, number, fill);
    if (mould_ml(&mould) > MOST_ML)
        return lw_fail(error, LW_INVALID, "A mould of more than 1000 litres is not planned here.");
    size->by = SIZE_MOULD;
    size->has_mould = true;
    size->mould = mould;
    return LW_OK;
}

static enum lw_status read_of_pieces(const char *item, struct pieces *pieces, struct lw_error *error)
{
    if (strchr(item, '%'))
        return read_share(item, false, &pieces->chance, error);
    if (class_named(item, &pieces->class))
        return LW_OK;
    if (text_same(item, "first time")) {
        pieces->first_time = true;
        return LW_OK;
    }
    if (pieces->kind[0])
        return lw_fail(error, LW_INVALID,
                       "One kind of piece is named already; simple, flower, first time or a chance may follow.");
    text_copy(pieces->kind, sizeof pieces->kind, item);
    return LW_OK;
}

static enum lw_status read_pieces(const double number[MOST_NUMBERS], const char *more, struct recipe_size *size,
                                  struct lw_error *error)
{
    struct pieces pieces = {.count = (int)number[0], .mass_g = number[1]};
    char item[SIZING_BYTES];

    while (next_item(&more, item)) {
        enum lw_status status = read_of_pieces(item, &pieces, error);

        if (status != LW_OK)
            return status;
    }
    size->by = SIZE_PIECES;
    size->pieces = pieces;
    return LW_OK;
}

/* The line of the recipe that a name means: by fact, by key or name, else by a part of its name. -1: none. */
static int oil_named(const struct plan_input *input, const char *name)
{
    const struct oil_fact *fact = facts_oil(name);
    int part = -1;

    for (int i = 0; i < input->recipe->oils; i++) {
        struct part_ref oil = {PART_OIL, (int16_t)i, 0};

        if ((fact && fact == input->facts->oil[i]) || text_same(name, document_key(input, oil)) ||
            text_same(name, document_name(input, oil)))
            return i;
        if (part < 0 && text_has(document_name(input, oil), name))
            part = i;
    }
    return part;
}

static enum lw_status no_such_oil(const struct plan_input *input, const char *name, struct lw_error *error)
{
    char nearest[LW_NAME_BYTES * NEAR_NAMES];
    struct near near;

    near_init(&near, name);
    for (int i = 0; i < input->recipe->oils; i++) {
        struct part_ref oil = {PART_OIL, (int16_t)i, 0};

        near_offer(&near, document_name(input, oil), document_key(input, oil));
    }
    near_list(&near, nearest, sizeof nearest);
    return lw_fail(error, LW_NOT_FOUND, "The recipe has no %.60s; it has %s.", name, nearest);
}

/* The longest head of the text that is a mass; where the name behind it begins is left in *name. */
static enum lw_status read_mass_before_name(const char *text, const char *unit, double *g, const char **name,
                                            struct lw_error *error)
{
    char head[SIZING_BYTES];

    text_copy(head, sizeof head, text);
    for (size_t end = strlen(head); end > 0; end--) {
        if (text[end] != '\0' && text[end] != ' ' && text[end] != ',')
            continue;
        head[end] = '\0';
        if (quantity_mass(head, unit, g, error) == LW_OK) {
            *name = text + end + strspn(text + end, " ,");
            return LW_OK;
        }
    }
    return quantity_mass(text, unit, g, error);
}

static enum lw_status read_one_oil(const struct plan_document *document, const struct settings *settings, int oil,
                                   const char *text, struct recipe_size *size, struct lw_error *error)
{
    static const char *const masses[] = {[MASS_G] = "g", [MASS_OZ] = "oz", [MASS_LB] = "lb"};
    const char *name = "";
    double g = 0;
    enum lw_status status = read_mass_before_name(text, masses[settings->mass_unit], &g, &name, error);

    if (status != LW_OK)
        return status;
    if (name[0])
        oil = oil_named(document->input, name);
    if (oil < 0 || oil >= document->input->recipe->oils)
        return no_such_oil(document->input, name, error);
    if (!(document->plan->oil_share[oil] > 0))
        return lw_fail(error, LW_INVALID, "That oil has no share in the recipe yet, so it cannot size it.");
    size->by = SIZE_OILS;
    size->grams = g / document->plan->oil_share[oil];
    return LW_OK;
}

static enum lw_status whole_alkali(const struct plan_document *document, int direction, struct recipe_size *size,
                                   struct lw_error *error)
{
    size->by = SIZE_OILS;
    size->grams = coarse_size(document->input, document->plan, direction);
    return size->grams > 0 ? LW_OK
                           : lw_fail(error, LW_NOT_FOUND,
                                     "No size within a quarter of this one brings the alkali to a whole division.");
}

static enum lw_status read_typed(enum size_way way, const struct settings *settings, const char *text,
                                 struct recipe_size *size, struct lw_error *error)
{
    double number[MOST_NUMBERS] = {0};
    char item[SIZING_BYTES] = "";
    enum lw_status status;

    next_item(&text, item);
    status = read_numbers(way, settings, item, number, error);
    if (status != LW_OK)
        return status;
    if (ways[way].mould)
        return read_mould(way, number, text, size, error);
    if (way == WAY_PIECES)
        return read_pieces(number, text, size, error);
    if (text[0])
        return lw_fail(error, LW_INVALID, "Nothing is expected after the mass.");
    size->by = way == WAY_BATTER ? SIZE_BATTER : SIZE_OILS;
    size->grams = number[0];
    return LW_OK;
}

enum lw_status sizing_read(const struct plan_document *document, const struct settings *settings, enum size_way way,
                           int oil, const char *text, struct recipe_size *size, struct lw_error *error)
{
    enum lw_status status;

    if (document->input->recipe->oils == 0)
        return lw_fail(error, LW_NOT_FOUND, "There is nothing to size yet: add an oil first.");
    if (way == WAY_WHOLE_LESS || way == WAY_WHOLE_MORE)
        return whole_alkali(document, way == WAY_WHOLE_LESS ? -1 : 1, size, error);
    status = way == WAY_ONE_OIL ? read_one_oil(document, settings, oil, text, size, error)
                                : read_typed(way, settings, text, size, error);
    if (status == LW_OK && (size->by == SIZE_OILS || size->by == SIZE_BATTER) &&
        !(size->grams > 0 && size->grams <= MOST_G))
        return lw_fail(error, LW_INVALID, "A size above 0 and at most 1000 kg is expected.");
    return status;
}
