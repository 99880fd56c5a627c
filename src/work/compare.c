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

/* A number where `has`, else nothing. */
static void write_if(bool has, char out[64], double number, const char *unit)
{
    out[0] = '\0';
    if (has)
        write(out, number, unit);
}

static void write_residue(const struct recipe *recipe, char out[64])
{
    if (recipe->residue_by == RESIDUE_PRACTICE)
        text_copy(out, 64, "common practice");
    else
        write(out, recipe->residue * (recipe->residue_by == RESIDUE_SHARE ? 100 : 1),
              recipe->residue_by == RESIDUE_SHARE ? " % of the batter" : " g");
}

static void compare_alkalis(struct comparison *comparison)
{
    for (int i = 0; i < ALKALIS; i++) {
        const char *name = name_of_alkali((enum alkali)i);
        char is[2][64];

        for (int side = 0; side < 2; side++) {
            const struct ranged *purity = &comparison->input[side]->recipe->alkali.purity[i];

            write_if(purity->given, is[side], purity->nominal * 100, " %");
        }
        note(comparison, "purity of", name, is[0], is[1]);
        for (int side = 0; side < 2; side++) {
            double share = comparison->input[side]->recipe->alkali.solution_share[i];

            write_if(share > 0, is[side], share * 100, " %");
        }
        note(comparison, "ready-made lye of", name, is[0], is[1]);
    }
}

static void compare_size(struct comparison *comparison)
{
    static const char *const ways[] = {[SIZE_AS_GRAMS] = "its grams",
                                       [SIZE_OILS] = "oils",
                                       [SIZE_BATTER] = "batter",
                                       [SIZE_MOULD] = "mould",
                                       [SIZE_PIECES] = "pieces"};
    const struct recipe *a = comparison->input[0]->recipe, *b = comparison->input[1]->recipe;

    note(comparison, "sized by", "", ways[a->size.by], ways[b->size.by]);
    note_number(comparison, "oils", "", comparison->plan[0]->oils_exact_g, comparison->plan[1]->oils_exact_g, " g");
    note_number(comparison, "mould", "", comparison->plan[0]->mould_ml, comparison->plan[1]->mould_ml, " mL");
}

/* The divisions of its own scales, and what each carries. */
static void write_scales(const struct recipe *recipe, char out[64])
{
    out[0] = '\0';
    for (int i = 0; i < recipe->scales; i++) {
        char division[64], capacity[64];

        write(division, (double)recipe->scale[i].division_ug / 1e6, " g");
        write(capacity, (double)recipe->scale[i].capacity_ug / 1e6, " g");
        text_add(out, 64, "%s%s to %s", i ? ", " : "", division, capacity);
    }
}

static void compare_heads(struct comparison *comparison)
{
    const struct recipe *a = comparison->input[0]->recipe, *b = comparison->input[1]->recipe;
    char words[2][64];

    note(comparison, "name", "", a->name, b->name);
    note(comparison, "purpose", "", name_of_purpose(a->purpose), name_of_purpose(b->purpose));
    compare_size(comparison);
    note_number(comparison, "superfat", "", a->superfat * 100, b->superfat * 100, " %");
    note_number(comparison, "strength", "", comparison->plan[0]->water.strength * 100,
                comparison->plan[1]->water.strength * 100, " %");
    note_number(comparison, "potassium hydroxide", "", a->alkali.potassium_share * 100, b->alkali.potassium_share * 100,
                " % of moles");
    compare_alkalis(comparison);
    note_number(comparison, "water at", "", a->water.temp_c, b->water.temp_c, " C");
    note(comparison, "scent goes into", "", name_of_put_in(a->scent), name_of_put_in(b->scent));
    note(comparison, "colour goes into", "", name_of_put_in(a->colour), name_of_put_in(b->colour));
    write_residue(a, words[0]);
    write_residue(b, words[1]);
    note(comparison, "residue in the jug", "", words[0], words[1]);
    write_scales(a, words[0]);
    write_scales(b, words[1]);
    note(comparison, "scales", "", words[0], words[1]);
}

/* One side's value of an element in words; "" where there is none. */
typedef void (*describe)(const struct recipe *recipe, const struct plan *plan, int i, char out[64]);

static void describe_oil(const struct recipe *recipe, const struct plan *plan, int i, char out[64])
{
    (void)recipe;
    write(out, plan->oil_share[i] * 100, " %");
}

static void describe_sap(const struct recipe *recipe, const struct plan *plan, int i, char out[64])
{
    (void)plan;
    write_if(recipe->oil[i].sap.given, out, recipe->oil[i].sap.nominal, " mg KOH/g");
}

static void describe_liquid(const struct recipe *recipe, const struct plan *plan, int i, char out[64])
{
    (void)plan;
    write(out, recipe->water.liquid[i].share_of_water * 100, " % of the water");
}

static void describe_additive(const struct recipe *recipe, const struct plan *plan, int i, char out[64])
{
    const struct recipe_additive *additive = &recipe->additive[i];
    bool share = additive->by == ADDITIVE_OF_OILS;

    (void)plan;
    write(out, additive->value * (share ? 100 : 1), share ? " %" : " g");
}

static void describe_fragrance(const struct recipe *recipe, const struct plan *plan, int i, char out[64])
{
    static const char *const units[] = {
        [FRAGRANCE_OF_OILS] = " %", [FRAGRANCE_OF_BATTER] = " % of batter", [FRAGRANCE_PER_KG_OILS] = " g/kg"};
    const struct recipe_fragrance *fragrance = &recipe->fragrance[i];

    (void)plan;
    write(out, fragrance->value * (fragrance->by == FRAGRANCE_PER_KG_OILS ? 1 : 100), units[fragrance->by]);
}

static void describe_limit(const struct recipe *recipe, const struct plan *plan, int i, char out[64])
{
    const struct recipe_fragrance *fragrance = &recipe->fragrance[i];

    (void)plan;
    write_if(fragrance->has_limit, out, fragrance->limit_share * 100, " %");
}

/* As asked: what the batter makes of it follows from the rows before. */
static void describe_portion(const struct recipe *recipe, const struct plan *plan, int i, char out[64])
{
    static const char *const units[] = {[DEMAND_SHARE] = " %",
                                        [DEMAND_GRAMS] = " g",
                                        [DEMAND_LAYER] = " mm",
                                        [DEMAND_REST] = "rest",
                                        [DEMAND_PIECES] = "pieces"};
    const struct recipe_portion *portion = &recipe->portion[i];
    bool number = portion->demand != DEMAND_REST && portion->demand != DEMAND_PIECES;

    (void)plan;
    if (number)
        write(out, portion->amount * (portion->demand == DEMAND_SHARE ? 100 : 1), units[portion->demand]);
    else
        text_copy(out, 64, units[portion->demand]);
    text_add(out, 64, ", %s%s", name_of_technique(portion->technique), portion->scented ? ", scented" : "");
}

static void describe_pieces(const struct recipe *recipe, const struct plan *plan, int i, char out[64])
{
    const struct pieces *pieces = &recipe->portion[i].pieces;
    char each[64];

    (void)plan;
    out[0] = '\0';
    if (!recipe->portion[i].has_pieces)
        return;
    write(each, pieces->mass_g, " g");
    text_add(out, 64, "%d of %s, %s%s", pieces->count, each, name_of_class(pieces->class),
             pieces->first_time ? ", first time" : "");
}

static void describe_kind(const struct recipe *recipe, const struct plan *plan, int i, char out[64])
{
    (void)plan;
    text_copy(out, 64, recipe->portion[i].pieces.kind);
}

static const struct list_row {
    enum change_part list;
    enum part part;
    const char *what;
    describe words;
} lists[] = {
    {CHANGE_OIL, PART_OIL, "share of", describe_oil},
    {CHANGE_OIL, PART_OIL, "saponification value of", describe_sap},
    {CHANGE_LIQUID, PART_LIQUID, "liquid", describe_liquid},
    {CHANGE_ADDITIVE, PART_ADDITIVE, "dose of", describe_additive},
    {CHANGE_FRAGRANCE, PART_FRAGRANCE, "load of", describe_fragrance},
    {CHANGE_FRAGRANCE, PART_FRAGRANCE, "limit of", describe_limit},
    {CHANGE_PORTION, PART_PORTION, "portion", describe_portion},
    {CHANGE_PORTION, PART_PORTION, "pieces of", describe_pieces},
    {CHANGE_PORTION, PART_PORTION, "kind of pieces of", describe_kind},
};

/* Every element of such a list begins with its id. */
static uint32_t id_at(const struct recipe *recipe, enum change_part list, int i)
{
    union change_element element;

    change_read(recipe, list, i, &element);
    return element.oil.id;
}

static int place_of(const struct recipe *recipe, enum change_part list, uint32_t id)
{
    for (int i = 0; i < change_count(recipe, list); i++)
        if (id_at(recipe, list, i) == id)
            return i;
    return -1;
}

static void describe_side(const struct comparison *comparison, int side, const struct list_row *row, int i,
                          char out[64])
{
    out[0] = '\0';
    if (i >= 0)
        row->words(comparison->input[side]->recipe, comparison->plan[side], i, out);
}

static const char *name_at(const struct comparison *comparison, int side, enum part part, int i, int sub)
{
    return document_name(comparison->input[side], (struct part_ref){part, (int16_t)i, (int16_t)sub});
}

/* The element that stands at these places, -1 where a side has none; under its later name. */
static void compare_element(struct comparison *comparison, const struct list_row *row, const int at[2])
{
    const char *name = name_at(comparison, at[1] >= 0, row->part, at[1] >= 0 ? at[1] : at[0], 0);
    char before[64], after[64];

    describe_side(comparison, 0, row, at[0], before);
    describe_side(comparison, 1, row, at[1], after);
    note(comparison, row->what, name, before, after);
}

/* Elements of the later version in its order, then those that are gone. */
static void compare_list(struct comparison *comparison, const struct list_row *row)
{
    for (int side = 1; side >= 0; side--) {
        const struct recipe *here = comparison->input[side]->recipe, *there = comparison->input[!side]->recipe;

        for (int i = 0; i < change_count(here, row->list); i++) {
            int other = place_of(there, row->list, id_at(here, row->list, i));

            if (side == 1 || other < 0)
                compare_element(comparison, row, (const int[2]){side == 1 ? other : i, side == 1 ? i : -1});
        }
    }
}

/* What stands in the place of another: the same element by its id, under another name. */
static void compare_names(struct comparison *comparison)
{
    static const struct {
        enum change_part list;
        enum part part;
        const char *what;
    } rows[] = {
        {CHANGE_OIL, PART_OIL, "oil"},
        {CHANGE_LIQUID, PART_LIQUID, "liquid"},
        {CHANGE_ADDITIVE, PART_ADDITIVE, "additive"},
        {CHANGE_FRAGRANCE, PART_FRAGRANCE, "fragrance"},
        {CHANGE_PORTION, PART_PORTION, "portion"},
    };
    const struct recipe *a = comparison->input[0]->recipe, *b = comparison->input[1]->recipe;

    for (size_t row = 0; row < sizeof rows / sizeof *rows; row++)
        for (int i = 0; i < change_count(b, rows[row].list); i++) {
            int was = place_of(a, rows[row].list, id_at(b, rows[row].list, i));

            if (was >= 0)
                note(comparison, rows[row].what, "", name_at(comparison, 0, rows[row].part, was, 0),
                     name_at(comparison, 1, rows[row].part, i, 0));
        }
}

static void write_dose(char out[64], enum colour_by by, double value)
{
    static const char *const units[] = {
        [COLOUR_PER_KG_OILS] = " g/kg", [COLOUR_GRAMS] = " g", [COLOUR_OF_PORTION] = " %", [COLOUR_PARTS] = " parts"};

    write(out, value * (by == COLOUR_OF_PORTION ? 100 : 1), units[by]);
}

static void describe_colourant(const struct recipe_portion *portion, const struct recipe_colourant *colourant,
                               char out[64])
{
    char blend[64], carrier[64];

    write_dose(out, colourant->by, colourant->value);
    if (colourant->by == COLOUR_PARTS) {
        write_dose(blend, portion->blend_by, portion->blend_value);
        text_add(out, 64, " of %s", blend);
    }
    if (!colourant->carrier_oil[0])
        return;
    write(carrier, colourant->carrier_ratio, " times");
    text_add(out, 64, " in %s %s%s", carrier, colourant->carrier_reserved ? "kept back " : "", colourant->carrier_oil);
}

/* The colourant of that id in the portion; NULL where there is none. */
static const struct recipe_colourant *colourant_of(const struct recipe_portion *portion,
                                                   const struct recipe_colourant *like)
{
    for (int i = 0; portion && i < portion->colourants; i++)
        if (portion->colourant[i].id == like->id && strcmp(portion->colourant[i].name, like->name) == 0)
            return &portion->colourant[i];
    return NULL;
}

/* The colourants of a portion on one side against those of the same portion on the other, if it is there. */
static void compare_colourants(struct comparison *comparison, int side, int at)
{
    const struct recipe *there = comparison->input[!side]->recipe;
    const struct recipe_portion *portion = &comparison->input[side]->recipe->portion[at];
    int other = place_of(there, CHANGE_PORTION, portion->id);

    for (int i = 0; i < portion->colourants; i++) {
        const struct recipe_colourant *match = colourant_of(other < 0 ? NULL : &there->portion[other],
                                                            &portion->colourant[i]);
        char words[2][64] = {"", ""}, name[2 * LW_NAME_BYTES] = "";

        if (side == 0 && match)
            continue;
        describe_colourant(portion, &portion->colourant[i], words[side]);
        if (match)
            describe_colourant(&there->portion[other], match, words[!side]);
        text_add(name, sizeof name, "%s: %s", portion->name, name_at(comparison, side, PART_COLOURANT, at, i));
        note(comparison, "colour of", name, words[0], words[1]);
    }
}

static void compare_notes(struct comparison *comparison)
{
    const char *a = comparison->input[0]->recipe->note, *b = comparison->input[1]->recipe->note;

    if (strcmp(a, b) != 0)
        note(comparison, "note", "", a[0] ? "is there" : "", !b[0] ? "" : a[0] ? "is another" : "is there");
}

int compare_recipes(const struct plan_input *before, const struct plan *plan_before, const struct plan_input *after,
                    const struct plan *plan_after, struct difference out[], int most)
{
    struct comparison comparison = {
        .input = {before, after}, .plan = {plan_before, plan_after}, .out = out, .most = most};

    compare_heads(&comparison);
    compare_names(&comparison);
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++)
        compare_list(&comparison, &lists[i]);
    for (int side = 1; side >= 0; side--)
        for (int i = 0; i < comparison.input[side]->recipe->portions; i++)
            compare_colourants(&comparison, side, i);
    compare_notes(&comparison);
    note_number(&comparison, "superfat as rounded", "", plan_before->margin.nominal * 100,
                plan_after->margin.nominal * 100, " %");
    note_number(&comparison, "likely from", "", plan_before->margin.likely.lo * 100, plan_after->margin.likely.lo * 100,
                " %");
    return comparison.count;
}
