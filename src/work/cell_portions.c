/* cell_portions.c - what a portion asks for, its pieces, and the doses of its colourants. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "work/cell_parts.h"

/* Ways to say an amount: the sign behind the number, and the factor from what is typed to what is kept. */
struct way {
    const char *sign;
    int by;
    double factor, most; /* most: as typed */
};

static const struct way demands[] = {
    {"%", DEMAND_SHARE, 0.01, 100},
    {"mm", DEMAND_LAYER, 1, 1000},
};

static const struct way doses[] = {
    {"g/kg", COLOUR_PER_KG_OILS, 1, 1000},
    {"parts", COLOUR_PARTS, 1, 1000},
    {"%", COLOUR_OF_PORTION, 0.01, 100},
};

static const struct way *way_by_sign(const struct way ways[], size_t count, const char *text, char *head, size_t size)
{
    for (size_t i = 0; i < count; i++)
        if (cell_sign(text, ways[i].sign, head, size))
            return &ways[i];
    return NULL;
}

static const struct way *way_by(const struct way ways[], size_t count, int by)
{
    for (size_t i = 0; i < count; i++)
        if (ways[i].by == by)
            return &ways[i];
    return NULL;
}

static bool has_letter(const char *text)
{
    for (; *text; text++)
        if ((*text >= 'a' && *text <= 'z') || (*text >= 'A' && *text <= 'Z'))
            return true;
    return false;
}

static void write_way(const struct way *way, double amount, char *out, size_t size)
{
    char sign[16];

    snprintf(sign, sizeof sign, " %s", way->sign);
    cell_write_number(out, size, amount / way->factor, sign);
}

static void write_amount(const struct recipe_portion *portion, char *out, size_t size)
{
    const struct way *way = way_by(demands, sizeof demands / sizeof *demands, (int)portion->demand);

    if (way)
        write_way(way, portion->amount, out, size);
    else if (portion->demand == DEMAND_GRAMS)
        cell_write_number(out, size, portion->amount, " g");
    else
        text_copy(out, size, portion->demand == DEMAND_REST ? "rest" : "pieces");
}

void cell_portion_text(const struct cell_context *context, struct cell cell, char *out, size_t size)
{
    const struct recipe_portion *portion = &context->recipe->portion[cell.index];
    const struct recipe_colourant *colourant = &portion->colourant[cell.sub];
    const struct way *way = way_by(doses, sizeof doses / sizeof *doses, (int)colourant->by);

    if (cell.kind == CELL_PORTION_AMOUNT)
        write_amount(portion, out, size);
    else if (cell.kind == CELL_PIECES_KIND)
        text_copy(out, size, portion->pieces.kind);
    else if (cell.kind == CELL_PIECES_COUNT)
        cell_write_number(out, size, portion->has_pieces ? portion->pieces.count : 0, "");
    else if (cell.kind == CELL_PIECES_MASS)
        cell_write_number(out, size, portion->has_pieces ? portion->pieces.mass_g : 0, " g");
    else if (way)
        write_way(way, colourant->value, out, size);
    else
        cell_write_number(out, size, colourant->value, " g");
}

/* "rest", "pieces", "25 %", "10 mm", a mass; a number alone means what the portion asks for now. */
static enum lw_status read_amount(const struct cell_context *context, struct recipe_portion *portion, const char *text,
                                  struct lw_error *error)
{
    char head[CELL_TEXT_BYTES];
    const struct way *way = way_by_sign(demands, sizeof demands / sizeof *demands, text, head, sizeof head);
    enum lw_status status;

    if (text_same(text, "rest")) {
        portion->demand = DEMAND_REST;
        portion->amount = 0;
        return LW_OK;
    }
    if (text_same(text, "pieces")) {
        if (!portion->has_pieces)
            return lw_fail(error, LW_INVALID, "The portion has no pieces yet: say first how many and how heavy.");
        portion->demand = DEMAND_PIECES;
        portion->amount = 0;
        return LW_OK;
    }
    if (!way && !has_letter(text)) {
        way = way_by(demands, sizeof demands / sizeof *demands,
                     portion->demand == DEMAND_GRAMS   ? -1
                     : portion->demand == DEMAND_LAYER ? DEMAND_LAYER
                                                       : DEMAND_SHARE);
        text_copy(head, sizeof head, text);
    }
    if (!way) {
        status = cell_mass(context, CELL_PORTION_AMOUNT, text, false, &portion->amount, error);
        if (status == LW_OK)
            portion->demand = DEMAND_GRAMS;
        return status;
    }
    status = cell_number(CELL_PORTION_AMOUNT, head, 0, way->most, &portion->amount, error);
    if (status == LW_OK) {
        portion->demand = (enum demand)way->by;
        portion->amount *= way->factor;
    }
    return status;
}

static enum lw_status read_count(struct recipe_portion *portion, const char *text, struct lw_error *error)
{
    double count = 0;
    enum lw_status status = cell_number(CELL_PIECES_COUNT, text, 0, 2000, &count, error);

    if (status != LW_OK)
        return status;
    if (count != floor(count))
        return lw_fail(error, LW_INVALID, "Pieces are counted in whole numbers.");
    portion->has_pieces = count > 0;
    if (count > 0) {
        portion->pieces.count = (int)count;
        if (portion->pieces.mass_g <= 0)
            portion->pieces.mass_g = 1;
        return LW_OK;
    }
    memset(&portion->pieces, 0, sizeof portion->pieces);
    if (portion->demand == DEMAND_PIECES)
        portion->demand = DEMAND_REST;
    return LW_OK;
}

static enum lw_status read_piece_mass(const struct cell_context *context, struct recipe_portion *portion,
                                      const char *text, struct lw_error *error)
{
    enum lw_status status = cell_mass(context, CELL_PIECES_MASS, text, false, &portion->pieces.mass_g, error);

    if (status == LW_OK && !portion->has_pieces) {
        portion->has_pieces = true;
        portion->pieces.count = 1;
    }
    return status;
}

static enum lw_status read_kind(struct recipe_portion *portion, const char *text, struct lw_error *error)
{
    if (!portion->has_pieces)
        return lw_fail(error, LW_INVALID, "The portion has no pieces yet: say first how many and how heavy.");
    return cell_words(CELL_PIECES_KIND, text, portion->pieces.kind, error);
}

/* The first colourant that is dosed by parts brings its dose into the blend, which has none yet. */
static void begin_blend(struct recipe_portion *portion, const struct recipe_colourant *colourant)
{
    if (portion->blend_value > 0 || colourant->by == COLOUR_PARTS)
        return;
    portion->blend_by = colourant->by;
    portion->blend_value = colourant->value;
}

static enum lw_status read_dose(const struct cell_context *context, struct recipe_portion *portion, int sub,
                                const char *text, struct lw_error *error)
{
    struct recipe_colourant *colourant = &portion->colourant[sub];
    double value = 0;
    char head[CELL_TEXT_BYTES];
    const struct way *way = way_by_sign(doses, sizeof doses / sizeof *doses, text, head, sizeof head);
    enum lw_status status;

    if (!way && !has_letter(text)) {
        way = way_by(doses, sizeof doses / sizeof *doses, (int)colourant->by);
        text_copy(head, sizeof head, text);
    }
    if (!way) {
        status = cell_mass(context, CELL_COLOUR_DOSE, text, true, &colourant->value, error);
        if (status == LW_OK)
            colourant->by = COLOUR_GRAMS;
        return status;
    }
    status = cell_number(CELL_COLOUR_DOSE, head, 0, way->most, &value, error);
    if (status == LW_OK && way->by == COLOUR_PARTS)
        begin_blend(portion, colourant);
    if (status == LW_OK) {
        colourant->by = (enum colour_by)way->by;
        colourant->value = value * way->factor;
    }
    return status;
}

enum lw_status cell_portion_read(const struct cell_context *context, struct cell cell, const char *text,
                                 struct change *change, struct lw_error *error)
{
    struct recipe_portion *portion = &change->after.portion;

    change_begin(context->recipe, CHANGE_PORTION, cell.index, change);
    if (cell.kind == CELL_PORTION_AMOUNT)
        return read_amount(context, portion, text, error);
    if (cell.kind == CELL_PIECES_COUNT)
        return read_count(portion, text, error);
    if (cell.kind == CELL_PIECES_MASS)
        return read_piece_mass(context, portion, text, error);
    if (cell.kind == CELL_PIECES_KIND)
        return read_kind(portion, text, error);
    return read_dose(context, portion, cell.sub, text, error);
}
