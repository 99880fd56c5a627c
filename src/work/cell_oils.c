/* cell_oils.c - shares and grams of oils, and what the other oils do when one is changed. */
#include <stdio.h>
#include <string.h>

#include "base/error.h"
#include "work/cell_parts.h"

static double grams_of(const struct cell_context *context, int oil)
{
    return context->plan->oil[oil].exact_g;
}

void cell_oil_text(const struct cell_context *context, struct cell cell, char *out, size_t size)
{
    const struct recipe_oil *oil = &context->recipe->oil[cell.index];

    if (cell.kind == CELL_OIL_SHARE)
        cell_write_number(out, size, context->plan->oil_share[cell.index] * 100, "");
    else if (cell.kind == CELL_OIL_GRAMS)
        cell_write_number(out, size, grams_of(context, cell.index), " g");
    else
        cell_write_number(out, size, oil->sap.given ? oil->sap.nominal : context->plan->sap[cell.index].nominal, "");
}

/* The oils as they are to be: in the recipe's own way, shares or grams. */
struct amounts {
    double of[RECIPE_OILS];
};

static struct amounts amounts_of(const struct recipe *recipe)
{
    struct amounts amounts = {{0}};

    for (int i = 0; i < recipe->oils; i++)
        amounts.of[i] = recipe->oil[i].amount;
    return amounts;
}

static double sum_of(const struct recipe *recipe, const struct amounts *amounts)
{
    double sum = 0;

    for (int i = 0; i < recipe->oils; i++)
        sum += amounts->of[i];
    return sum;
}

/* A change for each oil whose amount is another than before. */
static int add_oils(const struct recipe *recipe, const struct amounts *amounts, struct change changes[])
{
    int n = 0;

    for (int i = 0; i < recipe->oils; i++) {
        if (amounts->of[i] == recipe->oil[i].amount)
            continue;
        change_begin(recipe, CHANGE_OIL, i, &changes[n]);
        changes[n++].after.oil.amount = amounts->of[i];
    }
    return n;
}

/* The recipe is sized by this many grams of oils from here on; one that is as big as its oils say is so already. */
static enum lw_status add_size(const struct recipe *recipe, double oils_g, struct change changes[], int *n,
                               struct lw_error *error)
{
    if (oils_g > CELL_MASS_MOST_G)
        return lw_fail(error, LW_INVALID, "With that, the oils would weigh more than 1000 kg.");
    if (recipe->oils_by == OILS_BY_GRAMS && recipe->size.by == SIZE_AS_GRAMS)
        return LW_OK;
    change_begin(recipe, CHANGE_HEAD, 0, &changes[*n]);
    changes[*n].after.head.size.by = SIZE_OILS;
    changes[(*n)++].after.head.size.grams = oils_g;
    return LW_OK;
}

/* The others keep their ratio; where they are all 0, they share what is left equally. */
static void keep_ratio(const struct recipe *recipe, int changed, double share, double whole, struct amounts *amounts)
{
    double others = 0, left = whole * (1 - share);

    for (int i = 0; i < recipe->oils; i++)
        others += i == changed ? 0 : amounts->of[i];
    for (int i = 0; i < recipe->oils; i++)
        amounts->of[i] = others > 0 ? amounts->of[i] * left / others : left / (recipe->oils - 1);
    amounts->of[changed] = whole * share;
}

/* The others keep their grams: with a share p of the changed oil the total is what they weigh over 1 - p. */
static enum lw_status keep_grams(const struct cell_context *context, int changed, double share, struct change changes[],
                                 int *n, struct lw_error *error)
{
    const struct recipe *recipe = context->recipe;
    struct amounts amounts = amounts_of(recipe);
    double others_g = 0, total_g;

    for (int i = 0; i < recipe->oils; i++)
        others_g += i == changed ? 0 : grams_of(context, i);
    if (share == 1)
        return lw_fail(error, LW_INVALID, "An oil cannot be all of the oils while the others keep their grams.");
    if (others_g <= 0)
        return lw_fail(error, LW_INVALID,
                       "The other oils weigh nothing, so they have no grams to keep; let them keep their ratio "
                       "instead.");
    total_g = others_g / (1 - share);
    for (int i = 0; i < recipe->oils; i++)
        amounts.of[i] = i == changed ? total_g * share : grams_of(context, i);
    for (int i = 0; recipe->oils_by == OILS_BY_SHARE && i < recipe->oils; i++)
        amounts.of[i] = i == changed ? share : amounts.of[i] / total_g;
    *n = add_oils(recipe, &amounts, changes);
    return add_size(recipe, total_g, changes, n, error);
}

static enum lw_status one_makes_up(const struct cell_context *context, int changed, double share, double whole,
                                   struct amounts *amounts, struct lw_error *error)
{
    const struct recipe *recipe = context->recipe;
    int one = context->makes_up;
    double rest;

    if (one < 0 || one == changed || one >= recipe->oils)
        one = changed == recipe->oils - 1 ? 0 : recipe->oils - 1;
    amounts->of[changed] = whole * share;
    amounts->of[one] = 0;
    rest = whole - sum_of(recipe, amounts);
    if (rest < -1e-9 * whole)
        return lw_fail(error, LW_INVALID,
                       "With that share, %s would have to make up less than nothing; let the others keep "
                       "their ratio instead.",
                       recipe->oil[one].name);
    amounts->of[one] = rest > 0 ? rest : 0;
    return LW_OK;
}

static enum lw_status read_share(const struct cell_context *context, int oil, const char *text, struct change changes[],
                                 int *n, struct lw_error *error)
{
    const struct recipe *recipe = context->recipe;
    struct amounts amounts = amounts_of(recipe);
    double share = 0, whole = recipe->oils_by == OILS_BY_GRAMS ? sum_of(recipe, &amounts) : 1;
    enum lw_status status = cell_percent(CELL_OIL_SHARE, text, 0, 100, &share, error);

    if (status != LW_OK)
        return status;
    if (recipe->oils == 1 && share != 1)
        return lw_fail(error, LW_INVALID, "The only oil is 100 %% of the oils; add another one first.");
    if (whole <= 0)
        return lw_fail(error, LW_INVALID, "The oils weigh nothing yet; say the grams of one of them first.");
    if (recipe->oils == 1)
        amounts.of[oil] = whole;
    else if (context->follow == FOLLOW_GRAMS)
        return keep_grams(context, oil, share, changes, n, error);
    else if (context->follow == FOLLOW_ONE)
        status = one_makes_up(context, oil, share, whole, &amounts, error);
    else
        keep_ratio(recipe, oil, share, whole, &amounts);
    if (status == LW_OK)
        *n = add_oils(recipe, &amounts, changes);
    return status;
}

/* Grams of one oil: the others keep theirs, so the size and all shares change. */
static enum lw_status read_grams(const struct cell_context *context, int oil, const char *text, struct change changes[],
                                 int *n, struct lw_error *error)
{
    const struct recipe *recipe = context->recipe;
    struct amounts amounts = {{0}};
    double g = 0, total_g;
    enum lw_status status = cell_mass(context, CELL_OIL_GRAMS, text, true, &g, error);

    if (status != LW_OK)
        return status;
    for (int i = 0; i < recipe->oils; i++)
        amounts.of[i] = i == oil ? g : grams_of(context, i);
    total_g = sum_of(recipe, &amounts);
    if (total_g <= 0)
        return lw_fail(error, LW_INVALID, "A recipe needs some oil; this would leave none.");
    for (int i = 0; recipe->oils_by == OILS_BY_SHARE && i < recipe->oils; i++)
        amounts.of[i] /= total_g;
    *n = add_oils(recipe, &amounts, changes);
    return add_size(recipe, total_g, changes, n, error);
}

/* A value alone; without a range it is taken to hold within 1 % and the plan says so. An empty text goes back to the published one. */
static enum lw_status read_sap(const struct cell_context *context, int oil, const char *text, struct change *change,
                               struct lw_error *error)
{
    struct ranged sap = {.given = text[0] != '\0'};
    enum lw_status status = sap.given ? cell_number(CELL_OIL_SAP, text, 0, 400, &sap.nominal, error) : LW_OK;

    if (status == LW_OK && sap.given && sap.nominal == 0)
        return lw_fail(error, LW_INVALID, "A saponification value is above 0.");
    change_begin(context->recipe, CHANGE_OIL, oil, change);
    change->after.oil.sap = sap;
    return status;
}

enum lw_status cell_oil_read(const struct cell_context *context, struct cell cell, const char *text,
                             struct change changes[], int *n, struct lw_error *error)
{
    char now[CELL_TEXT_BYTES];

    if (cell.kind == CELL_OIL_SAP)
        return read_sap(context, cell.index, text, &changes[0], error);
    /* What is shown is rounded: taken as it stands, it must not move the other oils. */
    cell_oil_text(context, cell, now, sizeof now);
    *n = 0;
    if (strcmp(text, now) == 0)
        return LW_OK;
    if (cell.kind == CELL_OIL_SHARE)
        return read_share(context, cell.index, text, changes, n, error);
    return read_grams(context, cell.index, text, changes, n, error);
}
