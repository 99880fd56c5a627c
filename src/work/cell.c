/* cell.c - what each cell is called, how its text reads, and how a text becomes a change. */
#include "work/cell.h"

#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "base/error.h"
#include "base/number.h"
#include "base/text.h"
#include "work/cell_parts.h"
#include "work/quantity.h"

enum { MOST_DECIMALS = 6 };

/* A cell that is one number of one part, read the same way every time. */
enum form { FORM_OWN, FORM_TEXT, FORM_PERCENT, FORM_TEMPERATURE };

static const struct row {
    const char *name;
    enum form form;
    enum change_part part;
    size_t offset; /* of the double or text in the part's element */
    double lo, hi; /* of a number, as typed; both allowed */
} rows[CELL_KINDS] = {
    [CELL_NONE] = {.name = ""},
    [CELL_NAME] = {"name", FORM_TEXT, CHANGE_HEAD, offsetof(struct recipe_head, name), 0, 0},
    [CELL_SUPERFAT] = {"superfat", FORM_PERCENT, CHANGE_HEAD, offsetof(struct recipe_head, superfat), 0, 50},
    [CELL_WATER] = {.name = "water"},
    [CELL_WATER_TEMP] = {"temperature of the water", FORM_TEMPERATURE, CHANGE_HEAD,
                         offsetof(struct recipe_head, water_temp_c), 0, 0},
    [CELL_POTASSIUM] = {"share of potassium hydroxide by moles", FORM_PERCENT, CHANGE_HEAD,
                        offsetof(struct recipe_head, alkali.potassium_share), 0, 100},
    [CELL_PURITY_NAOH] = {.name = "purity of NaOH"},
    [CELL_PURITY_KOH] = {.name = "purity of KOH"},
    [CELL_SOLUTION_NAOH] = {"strength of ready-made NaOH lye (0: dry)", FORM_PERCENT, CHANGE_HEAD,
                            offsetof(struct recipe_head, alkali.solution_share[ALKALI_NAOH]), 0, 99},
    [CELL_SOLUTION_KOH] = {"strength of ready-made KOH lye (0: dry)", FORM_PERCENT, CHANGE_HEAD,
                           offsetof(struct recipe_head, alkali.solution_share[ALKALI_KOH]), 0, 99},
    [CELL_RESIDUE] = {.name = "residue in the jug"},
    [CELL_OIL_SHARE] = {.name = "share of the oils"},
    [CELL_OIL_GRAMS] = {.name = "mass of the oil"},
    [CELL_OIL_SAP] = {.name = "saponification value, mg KOH/g"},
    [CELL_ADDITIVE_DOSE] = {.name = "dose of the additive"},
    [CELL_LIQUID_SHARE] = {"share of the water that it supplies", FORM_PERCENT, CHANGE_LIQUID,
                           offsetof(struct recipe_liquid, share_of_water), 0, 100},
    [CELL_FRAGRANCE_LOAD] = {.name = "fragrance load"},
    [CELL_FRAGRANCE_LIMIT] = {.name = "limit of the supplier's certificate"},
    [CELL_PORTION_NAME] = {"name of the portion", FORM_TEXT, CHANGE_PORTION, offsetof(struct recipe_portion, name), 0,
                           0},
    [CELL_PORTION_AMOUNT] = {.name = "size of the portion"},
    [CELL_PIECES_COUNT] = {.name = "good pieces wanted"},
    [CELL_PIECES_MASS] = {.name = "mass of one piece"},
    [CELL_PIECES_KIND] = {.name = "kind of piece"},
    [CELL_COLOUR_DOSE] = {.name = "dose of the colourant"},
};

const char *cell_name(enum cell_kind kind)
{
    return rows[kind].name;
}

const char *follow_name(enum follow follow)
{
    static const char *const names[FOLLOWS] = {
        [FOLLOW_RATIO] = "others keep their ratio",
        [FOLLOW_GRAMS] = "others keep their grams",
        [FOLLOW_ONE] = "one oil makes up the rest",
    };

    return names[follow];
}

void cell_write_number(char *out, size_t size, double number, const char *sign)
{
    char digits[NUMBER_BYTES];

    number_write_short(digits, number, MOST_DECIMALS);
    snprintf(out, size, "%s%s", digits, sign);
}

bool cell_sign(const char *text, const char *sign, char *head, size_t size)
{
    size_t length = strlen(text), sign_length = strlen(sign);

    while (length > 0 && text[length - 1] == ' ')
        length--;
    if (length < sign_length || length >= size)
        return false;
    memcpy(head, text, length);
    head[length] = '\0';
    if (!text_same(head + length - sign_length, sign))
        return false;
    head[length - sign_length] = '\0';
    return true;
}

/* `sign` times what the text says is to be from lo to hi. */
static enum lw_status read_number(enum cell_kind kind, const char *text, double sign, double lo, double hi,
                                  double *number, struct lw_error *error)
{
    double read = 0;
    char from[NUMBER_BYTES], to[NUMBER_BYTES], found[NUMBER_BYTES];
    enum lw_status status = quantity_number(text, &read, error);

    if (status != LW_OK)
        return status;
    read *= sign;
    if (read >= lo && read <= hi) {
        *number = read;
        return LW_OK;
    }
    number_write_short(from, lo, MOST_DECIMALS);
    number_write_short(to, hi, MOST_DECIMALS);
    number_write_short(found, read, MOST_DECIMALS);
    return lw_fail(error, LW_INVALID, "The %s is a number from %s to %s, and this is %s.", cell_name(kind), from, to,
                   found);
}

enum lw_status cell_number(enum cell_kind kind, const char *text, double lo, double hi, double *number,
                           struct lw_error *error)
{
    return read_number(kind, text, 1, lo, hi, number, error);
}

enum lw_status cell_percent(enum cell_kind kind, const char *text, double lo, double hi, double *share,
                            struct lw_error *error)
{
    char head[CELL_TEXT_BYTES];
    double percent = 0;
    enum lw_status status = cell_number(kind, cell_sign(text, "%", head, sizeof head) ? head : text, lo, hi, &percent,
                                        error);

    if (status == LW_OK)
        *share = percent / 100;
    return status;
}

enum lw_status cell_mass(const struct cell_context *context, enum cell_kind kind, const char *text, bool zero,
                         double *g, struct lw_error *error)
{
    static const char *const units[] = {[MASS_G] = "g", [MASS_OZ] = "oz", [MASS_LB] = "lb"};
    double read = 0;
    enum lw_status status = quantity_mass(text, units[context->settings->mass_unit], &read, error);

    if (status != LW_OK)
        return status;
    if (read > CELL_MASS_MOST_G || read < 0 || (read == 0 && !zero))
        return lw_fail(error, LW_INVALID, "The %s is a mass %s 0 and at most 1000 kg.", cell_name(kind),
                       zero ? "from" : "above");
    *g = read;
    return LW_OK;
}

static double *number_in(union change_element *element, const struct row *row)
{
    return (double *)(void *)((char *)element + row->offset);
}

enum lw_status cell_words(enum cell_kind kind, const char *text, char to[LW_NAME_BYTES], struct lw_error *error)
{
    if (strlen(text) >= LW_NAME_BYTES)
        return lw_fail(error, LW_INVALID, "The %s is longer than the %d bytes that there is room for.", cell_name(kind),
                       LW_NAME_BYTES - 1);
    memset(to, 0, LW_NAME_BYTES); /* recipes are compared by their bytes */
    text_copy(to, LW_NAME_BYTES, text);
    return LW_OK;
}

static enum lw_status read_name(enum cell_kind kind, const char *text, char *to, struct lw_error *error)
{
    if (strspn(text, " ") == strlen(text))
        return lw_fail(error, LW_INVALID, "The %s needs at least one character.", cell_name(kind));
    return cell_words(kind, text, to, error);
}

static enum lw_status read_temperature(const struct cell_context *context, struct cell cell, const char *text,
                                       double *c, struct lw_error *error)
{
    char head[CELL_TEXT_BYTES];
    const char *number = head;
    bool fahrenheit = context->settings->fahrenheit, below_0;
    double read = 0, sign;
    enum lw_status status;

    if (cell_sign(text, "F", head, sizeof head))
        fahrenheit = true;
    else if (cell_sign(text, "C", head, sizeof head))
        fahrenheit = false;
    else
        text_copy(head, sizeof head, text);
    /* A quantity has no sign of its own; below 0 there is only this one. */
    number += strspn(number, " ");
    below_0 = *number == '-';
    sign = below_0 ? -1 : 1;
    status = read_number(cell.kind, number + below_0, sign, fahrenheit ? -4 : -20, fahrenheit ? 203 : 95, &read, error);
    if (status == LW_OK)
        *c = fahrenheit ? (read - 32) / 1.8 : read;
    return status;
}

/* The cells whose row says all. */
static enum lw_status read_row(const struct cell_context *context, struct cell cell, const char *text,
                               struct change *change, struct lw_error *error)
{
    const struct row *row = &rows[cell.kind];

    change_begin(context->recipe, row->part, cell.index, change);
    if (row->form == FORM_TEXT)
        return read_name(cell.kind, text, (char *)&change->after + row->offset, error);
    if (row->form == FORM_TEMPERATURE)
        return read_temperature(context, cell, text, number_in(&change->after, row), error);
    return cell_percent(cell.kind, text, row->lo, row->hi, number_in(&change->after, row), error);
}

static void write_row(const struct cell_context *context, struct cell cell, char *out, size_t size)
{
    const struct row *row = &rows[cell.kind];
    union change_element element;
    double number;

    change_read(context->recipe, row->part, cell.index, &element);
    if (row->form == FORM_TEXT) {
        text_copy(out, size, (const char *)&element + row->offset);
        return;
    }
    number = *number_in(&element, row);
    if (row->form == FORM_PERCENT)
        number *= 100;
    else if (context->settings->fahrenheit)
        number = number * 1.8 + 32;
    cell_write_number(out, size, number, "");
}

void cell_text(const struct cell_context *context, struct cell cell, char *out, size_t size)
{
    out[0] = '\0';
    if (rows[cell.kind].form != FORM_OWN)
        write_row(context, cell, out, size);
    else if (cell.kind == CELL_OIL_SHARE || cell.kind == CELL_OIL_GRAMS || cell.kind == CELL_OIL_SAP)
        cell_oil_text(context, cell, out, size);
    else if (cell.kind >= CELL_PORTION_NAME)
        cell_portion_text(context, cell, out, size);
    else
        cell_head_text(context, cell, out, size);
}

enum lw_status cell_read(const struct cell_context *context, struct cell cell, const char *text,
                         struct change changes[], int *n, struct lw_error *error)
{
    *n = 1;
    if (cell.kind == CELL_NONE)
        return lw_fail(error, LW_INVALID, "There is nothing here to change.");
    if (strlen(text) >= CELL_TEXT_BYTES)
        return lw_fail(error, LW_INVALID, "The %s is at most %d characters long.", cell_name(cell.kind),
                       CELL_TEXT_BYTES - 1);
    if (rows[cell.kind].form != FORM_OWN)
        return read_row(context, cell, text, &changes[0], error);
    if (cell.kind == CELL_OIL_SHARE || cell.kind == CELL_OIL_GRAMS || cell.kind == CELL_OIL_SAP)
        return cell_oil_read(context, cell, text, changes, n, error);
    if (cell.kind >= CELL_PORTION_NAME)
        return cell_portion_read(context, cell, text, &changes[0], error);
    return cell_head_read(context, cell, text, &changes[0], error);
}
