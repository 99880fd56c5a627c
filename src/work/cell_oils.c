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

static int add_oil(const struct cell_context *context, struct change changes[], int n, int oil, double amount)
{
    change_begin(context->recipe, CHANGE_OIL, oil, &changes[n]);
    changes[n].after.oil.amount = amount;
    return n + 1;
}

/* A recipe by shares that is sized by its oils gets this many grams of them. */
static int add_size(const struct cell_context *context, struct change changes[], int n, double oils_g)
{
    change_begin(context->recipe, CHANGE_HEAD, 0, &changes[n]);
    changes[n].after.head.size.by = SIZE_OILS;
    changes[n].after.head.size.grams = oils_g;
    return n + 1;
}

/* The others keep their ratio; where they were all 0, they share what is left equally. */
static int keep_ratio(const struct cell_context *context, int changed, double share, struct change changes[])
{
    const struct recipe *recipe = context->recipe;
    double others = 0;
    int n = add_oil(context, changes, 0, changed, share);

    for (int i = 0; i < recipe->oils; i++)
        if (i != changed)
            others += recipe->oil[i].amount;
    for (int i = 0; i < recipe->oils; i++)
        if (i != changed)
            n = add_oil(context, changes, n, i,
                        others > 0 ? recipe->oil[i].amount * (1 - share) / others : (1 - share) / (recipe->oils - 1));
    return n;
}

/* The others keep their grams: with a share p of the changed oil the total is what they weigh over 1 - p. */
static int keep_grams(const struct cell_context *context, int changed, double share, struct change changes[])
{
    double others_g = context->plan->oils_exact_g - grams_of(context, changed);
    double total_g = others_g / (1 - share);
    int n = add_oil(context, changes, 0, changed, share);

    for (int i = 0; i < context->recipe->oils; i++)
        if (i != changed)
            n = add_oil(context, changes, n, i, grams_of(context, i) / total_g);
    return add_size(context, changes, n, total_g);
}

static enum lw_status one_makes_up(const struct cell_context *context, int changed, double share,
                                   struct change changes[], int *n, struct lw_error *error)
{
    const struct recipe *recipe = context->recipe;
    double rest = 1 - share;
    int one = context->makes_up;

    if (one == changed || one >= recipe->oils)
        one = changed == recipe->oils - 1 ? 0 : recipe->oils - 1;
    for (int i = 0; i < recipe->oils; i++)
        if (i != changed && i != one)
            rest -= recipe->oil[i].amount;
    if (rest < -1e-9)
        return lw_fail(error, LW_INVALID,
                       "With that share, %s would have to make up less than nothing; let the others keep "
                       "their ratio instead.",
                       recipe->oil[one].name);
    *n = add_oil(context, changes, 0, changed, share);
    *n = add_oil(context, changes, *n, one, rest > 0 ? rest : 0);
    return LW_OK;
}

/* In a recipe by grams a share is turned into grams, the others keep theirs or give way. */
static enum lw_status share_of_grams(const struct cell_context *context, int changed, double share,
                                     struct change changes[], int *n)
{
    const struct recipe *recipe = context->recipe;
    double total = 0;

    for (int i = 0; i < recipe->oils; i++)
        total += recipe->oil[i].amount;
    if (context->follow == FOLLOW_GRAMS) {
        *n = add_oil(context, changes, 0, changed, (total - recipe->oil[changed].amount) * share / (1 - share));
        return LW_OK;
    }
    *n = add_oil(context, changes, 0, changed, total * share);
    for (int i = 0; i < recipe->oils; i++)
        if (i != changed && total > recipe->oil[changed].amount)
            *n = add_oil(context, changes, *n, i,
                         recipe->oil[i].amount * total * (1 - share) / (total - recipe->oil[changed].amount));
    return LW_OK;
}

static enum lw_status read_share(const struct cell_context *context, int oil, const char *text, struct change changes[],
                                 int *n, struct lw_error *error)
{
    double share = 0;
    enum lw_status status = cell_percent(CELL_OIL_SHARE, text, 0, 100, &share, error);

    if (status != LW_OK)
        return status;
    if (context->recipe->oils == 1 && share != 1)
        return lw_fail(error, LW_INVALID, "The only oil is 100 %% of the oils; add another one first.");
    if (share == 1 && context->follow == FOLLOW_GRAMS && context->recipe->oils > 1)
        return lw_fail(error, LW_INVALID, "An oil cannot be all of the oils while the others keep their grams.");
    if (context->recipe->oils_by == OILS_BY_GRAMS)
        return share_of_grams(context, oil, share, changes, n);
    if (context->follow == FOLLOW_ONE && context->recipe->oils > 1)
        return one_makes_up(context, oil, share, changes, n, error);
    if (context->recipe->oils == 1)
        *n = add_oil(context, changes, 0, oil, 1);
    else if (context->follow == FOLLOW_GRAMS)
        *n = keep_grams(context, oil, share, changes);
    else
        *n = keep_ratio(context, oil, share, changes);
    return LW_OK;
}

/* Grams of one oil: the others keep theirs, so the size and all shares change. */
static enum lw_status read_grams(const struct cell_context *context, int oil, const char *text, struct change changes[],
                                 int *n, struct lw_error *error)
{
    double g = 0, total_g;
    enum lw_status status = cell_mass(context, CELL_OIL_GRAMS, text, true, &g, error);

    if (status != LW_OK)
        return status;
    if (context->recipe->oils_by == OILS_BY_GRAMS && context->recipe->size.by == SIZE_AS_GRAMS) {
        *n = add_oil(context, changes, 0, oil, g);
        return LW_OK;
    }
    total_g = context->plan->oils_exact_g - grams_of(context, oil) + g;
    if (total_g <= 0)
        return lw_fail(error, LW_INVALID, "A recipe needs some oil; this would leave none.");
    *n = 0;
    for (int i = 0; i < context->recipe->oils; i++) {
        double mass = i == oil ? g : grams_of(context, i);

        *n = add_oil(context, changes, *n, i, context->recipe->oils_by == OILS_BY_GRAMS ? mass : mass / total_g);
    }
    *n = add_size(context, changes, *n, total_g);
    return LW_OK;
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
    if (cell.kind == CELL_OIL_SHARE)
        return read_share(context, cell.index, text, changes, n, error);
    if (cell.kind == CELL_OIL_GRAMS)
        return read_grams(context, cell.index, text, changes, n, error);
    return read_sap(context, cell.index, text, &changes[0], error);
}
