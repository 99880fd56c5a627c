/* cell_head.c - water, purities, residue, and the doses of additives and fragrances. */
#include <stdio.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "work/cell_parts.h"

static void write_water(const struct recipe_water *water, char *out, size_t size)
{
    if (water->by == WATER_STRENGTH)
        cell_write_number(out, size, water->value * 100, " %");
    else if (water->by == WATER_RATIO)
        cell_write_number(out, size, water->value, " to 1");
    else
        cell_write_number(out, size, water->value * 100, " % of oils");
}

static void write_load(const struct recipe_fragrance *fragrance, char *out, size_t size)
{
    static const char *const signs[] = {
        [FRAGRANCE_OF_OILS] = " %", [FRAGRANCE_OF_BATTER] = " % of batter", [FRAGRANCE_PER_KG_OILS] = " g/kg"};

    cell_write_number(out, size, fragrance->value * (fragrance->by == FRAGRANCE_PER_KG_OILS ? 1 : 100),
                      signs[fragrance->by]);
}

static void write_additive(const struct recipe_additive *additive, char *out, size_t size)
{
    if (additive->by == ADDITIVE_OF_OILS)
        cell_write_number(out, size, additive->value * 100, " %");
    else
        cell_write_number(out, size, additive->value, " g");
}

/* What was asked for; without that what the plan leaves in the jug. */
static void write_residue(const struct cell_context *context, char *out, size_t size)
{
    const struct recipe *recipe = context->recipe;

    if (recipe->residue_by == RESIDUE_SHARE)
        cell_write_number(out, size, recipe->residue * 100, " %");
    else
        cell_write_number(
            out, size, recipe->residue_by == RESIDUE_GRAMS ? recipe->residue : (double)context->plan->residue_ug / 1e6,
            " g");
}

void cell_head_text(const struct cell_context *context, struct cell cell, char *out, size_t size)
{
    const struct recipe *recipe = context->recipe;

    if (cell.kind == CELL_WATER)
        write_water(&recipe->water, out, size);
    else if (cell.kind == CELL_PURITY_NAOH)
        cell_write_number(out, size, context->plan->purity[ALKALI_NAOH].nominal * 100, "");
    else if (cell.kind == CELL_PURITY_KOH)
        cell_write_number(out, size, context->plan->purity[ALKALI_KOH].nominal * 100, "");
    else if (cell.kind == CELL_RESIDUE)
        write_residue(context, out, size);
    else if (cell.kind == CELL_ADDITIVE_DOSE)
        write_additive(&recipe->additive[cell.index], out, size);
    else if (cell.kind == CELL_FRAGRANCE_LOAD)
        write_load(&recipe->fragrance[cell.index], out, size);
    else if (cell.kind == CELL_FRAGRANCE_LIMIT && recipe->fragrance[cell.index].has_limit)
        cell_write_number(out, size, recipe->fragrance[cell.index].limit_share * 100, "");
}

/* "33", "33 %" (strength), "2 to 1" or "2:1" (water to alkali), "38 % of oils". A number alone keeps the present way. */
static enum lw_status read_water(struct recipe_head *head, const char *text, struct lw_error *error)
{
    char number[CELL_TEXT_BYTES];
    enum water_by by = head->water_by;
    double value = 0;
    enum lw_status status;

    text_copy(number, sizeof number, text);
    if (cell_sign(text, "to 1", number, sizeof number) || cell_sign(text, ":1", number, sizeof number))
        by = WATER_RATIO;
    else if (cell_sign(text, "% of oils", number, sizeof number))
        by = WATER_OF_OILS;
    else if (cell_sign(text, "%", number, sizeof number))
        by = WATER_STRENGTH;
    if (by == WATER_RATIO)
        status = cell_number(CELL_WATER, number, 0, 1000, &value, error);
    else
        status = cell_percent(CELL_WATER, number, 0, by == WATER_STRENGTH ? 99 : 100, &value, error);
    if (status == LW_OK && value <= 0)
        return lw_fail(error, LW_INVALID, "Alkali needs some water: a strength, ratio or share above 0.");
    if (status == LW_OK) {
        head->water_by = by;
        head->water_value = value;
    }
    return status;
}

/* Empty goes back to common practice; a number is taken as exact. */
static enum lw_status read_purity(enum cell_kind kind, struct ranged *purity, const char *text, struct lw_error *error)
{
    double share = 0;
    enum lw_status status;

    if (text[0] == '\0') {
        *purity = (struct ranged){0};
        return LW_OK;
    }
    status = cell_percent(kind, text, 1, 100, &share, error);
    if (status == LW_OK)
        *purity = (struct ranged){.given = true, .lo = share, .nominal = share, .hi = share};
    return status;
}

static enum lw_status read_residue(const struct cell_context *context, struct recipe_head *head, const char *text,
                                   struct lw_error *error)
{
    char number[CELL_TEXT_BYTES];
    enum lw_status status;

    if (text[0] == '\0') {
        head->residue_by = RESIDUE_PRACTICE;
        head->residue = 0;
        return LW_OK;
    }
    if (cell_sign(text, "%", number, sizeof number)) {
        status = cell_percent(CELL_RESIDUE, number, 0, 100, &head->residue, error);
        if (status == LW_OK)
            head->residue_by = RESIDUE_SHARE;
        return status;
    }
    status = cell_mass(context, CELL_RESIDUE, text, true, &head->residue, error);
    if (status == LW_OK)
        head->residue_by = RESIDUE_GRAMS;
    return status;
}

static enum lw_status read_additive(const struct cell_context *context, struct recipe_additive *additive,
                                    const char *text, struct lw_error *error)
{
    char number[CELL_TEXT_BYTES];
    bool percent = cell_sign(text, "%", number, sizeof number);
    bool plain = strspn(text, "0123456789.,+-*/() ") == strlen(text);
    enum lw_status status;

    if (percent || (plain && additive->by == ADDITIVE_OF_OILS)) {
        status = cell_percent(CELL_ADDITIVE_DOSE, text, 0, 100, &additive->value, error);
        if (status == LW_OK)
            additive->by = ADDITIVE_OF_OILS;
        return status;
    }
    status = cell_mass(context, CELL_ADDITIVE_DOSE, text, true, &additive->value, error);
    if (status == LW_OK)
        additive->by = ADDITIVE_GRAMS;
    return status;
}

/* "3 %" or "3 % of oils", "2 % of batter", "30 g/kg" (of oils). A number alone keeps the present way. */
static enum lw_status read_load(struct recipe_fragrance *fragrance, const char *text, struct lw_error *error)
{
    char number[CELL_TEXT_BYTES];
    enum fragrance_by by = fragrance->by;
    double value = 0;
    enum lw_status status;

    text_copy(number, sizeof number, text);
    if (cell_sign(text, "% of batter", number, sizeof number))
        by = FRAGRANCE_OF_BATTER;
    else if (cell_sign(text, "g/kg", number, sizeof number))
        by = FRAGRANCE_PER_KG_OILS;
    else if (cell_sign(text, "% of oils", number, sizeof number) || cell_sign(text, "%", number, sizeof number))
        by = FRAGRANCE_OF_OILS;
    if (by == FRAGRANCE_PER_KG_OILS)
        status = cell_number(CELL_FRAGRANCE_LOAD, number, 0, 1000, &value, error);
    else
        status = cell_percent(CELL_FRAGRANCE_LOAD, number, 0, 100, &value, error);
    if (status == LW_OK) {
        fragrance->by = by;
        fragrance->value = value;
    }
    return status;
}

/* Empty: no limit is known from a certificate. */
static enum lw_status read_limit(struct recipe_fragrance *fragrance, const char *text, struct lw_error *error)
{
    enum lw_status status;

    fragrance->has_limit = text[0] != '\0';
    if (!fragrance->has_limit) {
        fragrance->limit_share = 0;
        memset(fragrance->limit_from, 0, sizeof fragrance->limit_from);
        return LW_OK;
    }
    status = cell_percent(CELL_FRAGRANCE_LIMIT, text, 0, 100, &fragrance->limit_share, error);
    if (fragrance->limit_from[0] == '\0')
        text_copy(fragrance->limit_from, sizeof fragrance->limit_from, "supplier's certificate");
    return status;
}

enum lw_status cell_head_read(const struct cell_context *context, struct cell cell, const char *text,
                              struct change *change, struct lw_error *error)
{
    struct recipe_head *head = &change->after.head;
    bool additive = cell.kind == CELL_ADDITIVE_DOSE;
    bool fragrance = cell.kind == CELL_FRAGRANCE_LOAD || cell.kind == CELL_FRAGRANCE_LIMIT;

    change_begin(context->recipe,
                 additive    ? CHANGE_ADDITIVE
                 : fragrance ? CHANGE_FRAGRANCE
                             : CHANGE_HEAD,
                 additive || fragrance ? cell.index : 0, change);
    if (additive)
        return read_additive(context, &change->after.additive, text, error);
    if (cell.kind == CELL_FRAGRANCE_LOAD)
        return read_load(&change->after.fragrance, text, error);
    if (cell.kind == CELL_FRAGRANCE_LIMIT)
        return read_limit(&change->after.fragrance, text, error);
    if (cell.kind == CELL_WATER)
        return read_water(head, text, error);
    if (cell.kind == CELL_RESIDUE)
        return read_residue(context, head, text, error);
    return read_purity(cell.kind, &head->alkali.purity[cell.kind == CELL_PURITY_KOH ? ALKALI_KOH : ALKALI_NAOH], text,
                       error);
}
