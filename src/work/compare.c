/* compare.c - recipes side by side. */
#include "work/compare.h"

#include <stdio.h>
#include <string.h>

#include "base/number.h"
#include "base/text.h"
#include "lyeway/document.h"
#include "lyeway/names.h"
#include "work/change.h"

struct comparison {
    const struct plan_input *input[2];
    const struct plan *plan[2];
    struct difference *out;
    int most, count;
};

static void note(struct comparison *comparison, const char *what, const char *name, const char *before,
                 const char *after)
{
    struct difference *difference;

    if (strcmp(before, after) == 0)
        return;
    if (comparison->count < comparison->most) {
        difference = &comparison->out[comparison->count];
        difference->what[0] = '\0';
        text_add(difference->what, sizeof difference->what, name[0] ? "%s %s" : "%s", what, name);
        text_copy(difference->before, sizeof difference->before, before);
        text_copy(difference->after, sizeof difference->after, after);
    }
    comparison->count++;
}

static void write(char out[64], double number, const char *unit)
{
    char digits[NUMBER_BYTES];

    number_write_short(digits, number, 3);
    snprintf(out, 64, "%s%s", digits, unit);
}

static void note_number(struct comparison *comparison, const char *what, const char *name, double before, double after,
                        const char *unit)
{
    char from[64], to[64];

    write(from, before, unit);
    write(to, after, unit);
    note(comparison, what, name, from, to);
}

static void compare_heads(struct comparison *comparison)
{
    const struct recipe *a = comparison->input[0]->recipe, *b = comparison->input[1]->recipe;

    note(comparison, "name", "", a->name, b->name);
    note(comparison, "purpose", "", name_of_purpose(a->purpose), name_of_purpose(b->purpose));
    note_number(comparison, "oils", "", comparison->plan[0]->oils_exact_g, comparison->plan[1]->oils_exact_g, " g");
    note_number(comparison, "superfat", "", a->superfat * 100, b->superfat * 100, " %");
    note_number(comparison, "strength", "", comparison->plan[0]->water.strength * 100,
                comparison->plan[1]->water.strength * 100, " %");
    note_number(comparison, "potassium hydroxide", "", a->alkali.potassium_share * 100, b->alkali.potassium_share * 100,
                " % of moles");
    note_number(comparison, "water at", "", a->water.temp_c, b->water.temp_c, " C");
    note(comparison, "scent goes into", "", name_of_put_in(a->scent), name_of_put_in(b->scent));
    note(comparison, "colour goes into", "", name_of_put_in(a->colour), name_of_put_in(b->colour));
}

/* One side's value of an element in words; "" where that side has no element of that id. */
typedef void (*describe)(const struct comparison *comparison, int side, uint32_t id, char out[64]);

static int oil_at(const struct recipe *recipe, uint32_t id)
{
    for (int i = 0; i < recipe->oils; i++)
        if (recipe->oil[i].id == id)
            return i;
    return -1;
}

static int portion_at(const struct recipe *recipe, uint32_t id)
{
    for (int i = 0; i < recipe->portions; i++)
        if (recipe->portion[i].id == id)
            return i;
    return -1;
}

static void describe_oil(const struct comparison *comparison, int side, uint32_t id, char out[64])
{
    int i = oil_at(comparison->input[side]->recipe, id);

    out[0] = '\0';
    if (i >= 0)
        write(out, comparison->plan[side]->oil_share[i] * 100, " %");
}

static void describe_portion(const struct comparison *comparison, int side, uint32_t id, char out[64])
{
    const struct recipe *recipe = comparison->input[side]->recipe;
    int i = portion_at(recipe, id);
    const struct recipe_portion *portion = &recipe->portion[i < 0 ? 0 : i];

    out[0] = '\0';
    if (i < 0)
        return;
    write(out, (double)comparison->plan[side]->portion[i].batter_ug / 1e6, " g");
    text_add(out, 64, ", %s%s", name_of_technique(portion->technique), portion->scented ? ", scented" : "");
    for (int c = 0; c < portion->colourants; c++)
        text_add(out, 64, ", %s", portion->colourant[c].name);
}

static void describe_additive(const struct comparison *comparison, int side, uint32_t id, char out[64])
{
    const struct recipe *recipe = comparison->input[side]->recipe;

    out[0] = '\0';
    for (int i = 0; i < recipe->additives; i++)
        if (recipe->additive[i].id == id)
            write(out, recipe->additive[i].value * (recipe->additive[i].by == ADDITIVE_OF_OILS ? 100 : 1),
                  recipe->additive[i].by == ADDITIVE_OF_OILS ? " %" : " g");
}

static void describe_fragrance(const struct comparison *comparison, int side, uint32_t id, char out[64])
{
    const struct recipe *recipe = comparison->input[side]->recipe;

    out[0] = '\0';
    for (int i = 0; i < recipe->fragrances; i++)
        if (recipe->fragrance[i].id == id)
            write(out, recipe->fragrance[i].value * (recipe->fragrance[i].by == FRAGRANCE_PER_KG_OILS ? 1 : 100),
                  recipe->fragrance[i].by == FRAGRANCE_PER_KG_OILS ? " g/kg" : " %");
}

static void compare_one(struct comparison *comparison, const char *what, const char *name, uint32_t id, describe words)
{
    char before[64], after[64];

    words(comparison, 0, id, before);
    words(comparison, 1, id, after);
    note(comparison, what, name, before, after);
}

static const struct list_row {
    enum change_part list;
    enum part part;
    const char *what;
    describe words;
} lists[] = {
    {CHANGE_OIL, PART_OIL, "share of", describe_oil},
    {CHANGE_ADDITIVE, PART_ADDITIVE, "dose of", describe_additive},
    {CHANGE_FRAGRANCE, PART_FRAGRANCE, "load of", describe_fragrance},
    {CHANGE_PORTION, PART_PORTION, "portion", describe_portion},
};

/* Elements of the later version in its order, then those that are gone. */
static void compare_list(struct comparison *comparison, const struct list_row *row)
{
    for (int side = 1; side >= 0; side--) {
        const struct plan_input *input = comparison->input[side];

        for (int i = 0; i < change_count(input->recipe, row->list); i++) {
            union change_element element;
            char there[64];

            change_read(input->recipe, row->list, i, &element);
            row->words(comparison, 1, element.oil.id, there); /* every element of a list begins with its id */
            if (side == 1 || !there[0])
                compare_one(comparison, row->what, document_name(input, (struct part_ref){row->part, (int16_t)i, 0}),
                            element.oil.id, row->words);
        }
    }
}

int compare_recipes(const struct plan_input *before, const struct plan *plan_before, const struct plan_input *after,
                    const struct plan *plan_after, struct difference out[], int most)
{
    struct comparison comparison = {
        .input = {before, after}, .plan = {plan_before, plan_after}, .out = out, .most = most};

    compare_heads(&comparison);
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++)
        compare_list(&comparison, &lists[i]);
    note(&comparison, "note", "", before->recipe->note[0] ? "is there" : "", after->recipe->note[0] ? "is there" : "");
    note_number(&comparison, "superfat as rounded", "", plan_before->margin.nominal * 100,
                plan_after->margin.nominal * 100, " %");
    note_number(&comparison, "likely from", "", plan_before->margin.likely.lo * 100, plan_after->margin.likely.lo * 100,
                " %");
    return comparison.count;
}
