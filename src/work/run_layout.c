/* run_layout.c - the steps of a batch in the order of the trade, from what its plan has in it.
 *
 * Lay out and disperse first, then lye and oils in the order that the maker likes, then combine, split, colour, scent, and what
 * each technique asks for. Which steps a technique brings is a row of a table.
 */
#include <string.h>

#include "base/text.h"
#include "work/run_inside.h"

struct layout {
    const struct plan_document *document;
    const struct layout_choice *choice;
    struct step *step;
    int count;
};

static const struct part_ref nothing = {PART_BATTER, 0, 0};

static struct part_ref part(enum part kind, int index, int sub)
{
    return (struct part_ref){kind, (int16_t)index, (int16_t)sub};
}

static int vessel_of(const struct layout *layout, enum vessel_use use)
{
    return use == VESSEL_LYE ? layout->choice->lye_vessel : use == VESSEL_JUG ? layout->choice->jug : -1;
}

static void add(struct layout *layout, enum step_kind kind, struct part_ref what, enum vessel_use use,
                int64_t target_ug)
{
    if (layout->count == BATCH_STEPS)
        return; /* no recipe within its limits has so many: see the test */
    layout->step[layout->count] = (struct step){.id = layout->count + 1,
                                                .kind = kind,
                                                .place = layout->count + 1,
                                                .what = what,
                                                .use = use,
                                                .vessel = vessel_of(layout, use),
                                                .target_ug = target_ug};
    layout->count++;
}

static void weigh(struct layout *layout, struct part_ref what, enum vessel_use use, const struct weighing *weighing)
{
    if (weighing->rounded_ug > 0)
        add(layout, STEP_WEIGH, what, use, weighing->rounded_ug);
}

/* Colours into their cups. Carrier that is kept back comes out of the jug later, and the dispersing with it. */
static void colours(struct layout *layout, bool kept_back)
{
    const struct recipe *recipe = layout->document->input->recipe;

    for (int p = 0; p < recipe->portions; p++)
        for (int c = 0; c < recipe->portion[p].colourants; c++) {
            const struct recipe_colourant *colourant = &recipe->portion[p].colourant[c];
            const struct plan_colourant *plan = &layout->document->plan->portion[p].colourant[c];
            bool reserved = colourant->carrier_reserved && plan->carrier.rounded_ug > 0;

            if (!kept_back)
                weigh(layout, part(PART_COLOURANT, p, c), VESSEL_CUP, &plan->colourant);
            if (reserved != kept_back || plan->carrier.rounded_ug == 0)
                continue;
            weigh(layout, part(PART_CARRIER, p, c), VESSEL_CUP, &plan->carrier);
            add(layout, STEP_DISPERSE, part(PART_COLOURANT, p, c), VESSEL_CUP, 0);
        }
}

static void fragrances(struct layout *layout)
{
    const struct recipe *recipe = layout->document->input->recipe;
    const struct plan *plan = layout->document->plan;

    for (int f = 0; f < recipe->fragrances; f++) {
        if (recipe->scent == PUT_IN_BATTER)
            weigh(layout, part(PART_FRAGRANCE, f, 0), VESSEL_CUP, &plan->batter_fragrance[f]);
        for (int p = 0; recipe->scent == PUT_IN_PORTIONS && p < plan->portions; p++)
            weigh(layout, part(PART_FRAGRANCE, f, p + 1), VESSEL_CUP, &plan->portion[p].fragrance[f]);
    }
}

enum add_to { ADD_TO_WATER, ADD_TO_OILS, ADD_TO_BATTER };

static enum add_to where_to(const struct additive_fact *fact)
{
    if (text_same(fact->add_to, "water") || text_same(fact->add_to, "lye"))
        return ADD_TO_WATER;
    return text_same(fact->add_to, "oils") ? ADD_TO_OILS : ADD_TO_BATTER;
}

static void additives(struct layout *layout, enum add_to to, enum vessel_use use)
{
    for (int i = 0; i < layout->document->input->recipe->additives; i++)
        if (where_to(layout->document->input->facts->additive[i]) == to)
            weigh(layout, part(PART_ADDITIVE, i, 0), use, &layout->document->plan->additive[i].additive);
}

/* Water, what goes into it, and the alkali last. */
static void lye(struct layout *layout)
{
    const struct plan *plan = layout->document->plan;
    bool dry = false;

    weigh(layout, part(PART_WATER, 0, 0), VESSEL_LYE, &plan->water.water);
    for (int i = 0; i < layout->document->input->recipe->water.liquids; i++)
        weigh(layout, part(PART_LIQUID, i, 0), VESSEL_LYE, &plan->liquid[i].liquid);
    additives(layout, ADD_TO_WATER, VESSEL_LYE);
    for (int i = 0; i < ALKALIS; i++) {
        const struct plan_alkali *alkali = &plan->alkali[i];

        if (alkali->solution.division_ug > 0)
            weigh(layout, part(PART_ALKALI, i, 0), VESSEL_LYE, &alkali->solution);
        else if (alkali->alkali.rounded_ug > 0) {
            weigh(layout, part(PART_ALKALI, i, 0), VESSEL_ALKALI_CUP, &alkali->alkali);
            dry = true;
        }
    }
    if (!dry)
        return;
    add(layout, STEP_DISSOLVE, part(PART_ALKALI, 0, 0), VESSEL_LYE, 0);
    add(layout, STEP_COOL, nothing, VESSEL_LYE, 0);
}

static void oils(struct layout *layout)
{
    const struct plan *plan = layout->document->plan;

    for (int i = 0; i < layout->document->input->recipe->oils; i++)
        weigh(layout, part(PART_OIL, i, 0), VESSEL_JUG, &plan->oil[i]);
    additives(layout, ADD_TO_OILS, VESSEL_JUG);
    add(layout, STEP_MELT, nothing, VESSEL_JUG, 0);
    for (int i = 0; i < layout->document->input->recipe->oils; i++)
        if (plan->oil_kept_ug[i] > 0)
            add(layout, STEP_KEEP_BACK, part(PART_OIL, i, 1), VESSEL_JUG, -plan->oil_kept_ug[i]);
    colours(layout, true);
    add(layout, STEP_JUG_CHECK, nothing, VESSEL_JUG, 0);
}

/* The portion that stays in the jug when the others are poured out: the largest; -1 where nothing is split. */
static int base_portion(const struct plan *plan)
{
    int base = -1, filled = 0;

    for (int p = 0; p < plan->portions; p++) {
        filled += plan->portion[p].batter_ug > 0;
        if (base < 0 || plan->portion[p].batter_ug > plan->portion[base].batter_ug)
            base = p;
    }
    return filled > 1 ? base : -1;
}

static void split(struct layout *layout)
{
    const struct plan *plan = layout->document->plan;
    int base = base_portion(plan);

    if (base < 0)
        return;
    for (int p = 0; p < plan->portions; p++)
        if (p != base && plan->portion[p].batter_ug > plan->portion[p].kept_ug)
            add(layout, STEP_POUR_OUT, part(PART_PORTION, p, 0), VESSEL_CUP,
                plan->portion[p].batter_ug - plan->portion[p].kept_ug);
    add(layout, STEP_STAYS, part(PART_PORTION, base, 0), VESSEL_JUG, 0);
}

static bool any_colour(const struct recipe *recipe)
{
    for (int p = 0; p < recipe->portions; p++)
        if (recipe->portion[p].colourants > 0)
            return true;
    return false;
}

/* Into the whole batter, before the split. */
static void whole(struct layout *layout)
{
    const struct recipe *recipe = layout->document->input->recipe;

    additives(layout, ADD_TO_BATTER, VESSEL_JUG);
    if (recipe->colour == PUT_IN_BATTER && any_colour(recipe))
        add(layout, STEP_COLOUR, nothing, VESSEL_JUG, 0);
    if (recipe->scent == PUT_IN_BATTER && recipe->fragrances > 0)
        add(layout, STEP_SCENT, nothing, VESSEL_JUG, 0);
}

/* Colour, then scent, which sets the pace from then on: portions with the longest work first, the base with the others. */
static void into_portions(struct layout *layout)
{
    const struct recipe *recipe = layout->document->input->recipe;
    const struct plan *plan = layout->document->plan;

    for (int p = 0; recipe->colour == PUT_IN_PORTIONS && p < recipe->portions; p++)
        if (recipe->portion[p].colourants > 0)
            add(layout, STEP_COLOUR, part(PART_PORTION, p, 0), VESSEL_CUP, 0);
    for (int p = 0; p < plan->portions; p++)
        if (plan->portion[p].fragrance_ug > 0 && recipe->scent == PUT_IN_PORTIONS)
            add(layout, STEP_SCENT, part(PART_PORTION, p, 0), VESSEL_CUP, 0);
}

/* What a technique asks for between colouring and the mould, and after it. */
struct technique_steps {
    bool stands; /* until it is stiff enough */
    bool pieces; /* in bags or moulded by hand, counted, chilled, counted again */
    bool bags;   /* of these: in bags */
    bool mould;  /* poured into a mould, covered, unmoulded, cut */
};
static const struct technique_steps technique_steps[] = {
    [TECHNIQUE_POUR] = {.mould = true},
    [TECHNIQUE_SWIRL] = {.mould = true},
    [TECHNIQUE_LAYER] = {.stands = true, .mould = true},
    [TECHNIQUE_PIPE] = {.stands = true, .pieces = true, .bags = true},
    [TECHNIQUE_MOULD] = {.stands = true, .pieces = true},
};

static bool any(const struct plan *plan, size_t member)
{
    for (int p = 0; p < plan->portions; p++)
        if (plan->portion[p].batter_ug > 0 &&
            *(const bool *)((const char *)&technique_steps[plan->portion[p].technique] + member))
            return true;
    return false;
}

/* The first portion of its kind of piece. */
static bool first_of_kind(const struct plan_input *input, const struct plan *plan, int p)
{
    const struct recipe *recipe = input->recipe;

    if (!plan->portion[p].has_pieces || p >= recipe->portions)
        return false;
    for (int i = 0; i < p; i++)
        if (plan->portion[i].has_pieces && recipe->portion[p].pieces.kind[0] &&
            text_same(recipe->portion[i].pieces.kind, recipe->portion[p].pieces.kind))
            return false;
    return true;
}

static void pieces(struct layout *layout)
{
    const struct plan *plan = layout->document->plan;

    if (any(plan, offsetof(struct technique_steps, bags)))
        add(layout, STEP_FILL_BAGS, nothing, VESSEL_BAG, 0);
    for (int p = 0; p < plan->portions; p++)
        if (first_of_kind(layout->document->input, plan, p))
            add(layout, STEP_PIPE, part(PART_PORTION, p, 0), VESSEL_BAG, 0);
    if (any(plan, offsetof(struct technique_steps, pieces)))
        add(layout, STEP_CHILL, nothing, VESSEL_NONE, 0);
    for (int p = 0; p < plan->portions; p++)
        if (first_of_kind(layout->document->input, plan, p))
            add(layout, STEP_RECOUNT, part(PART_PORTION, p, 0), VESSEL_NONE, 0);
}

/* What need not stand is poured before anything else waits for its trace. */
static void pour(struct layout *layout, bool stands)
{
    const struct plan *plan = layout->document->plan;

    for (int p = 0; p < plan->portions; p++) {
        const struct technique_steps *steps = &technique_steps[plan->portion[p].technique];

        if (plan->portion[p].batter_ug > 0 && steps->mould && steps->stands == stands)
            add(layout, STEP_POUR, part(PART_PORTION, p, 0), VESSEL_NONE, 0);
    }
}

static void mould(struct layout *layout)
{
    const struct plan *plan = layout->document->plan;

    if (any(plan, offsetof(struct technique_steps, mould))) {
        static const enum step_kind after[] = {STEP_PLACE, STEP_COVER, STEP_UNMOULD, STEP_CUT};

        for (size_t i = 0; i < sizeof after / sizeof *after; i++)
            add(layout, after[i], nothing, VESSEL_NONE, 0);
    }
    add(layout, STEP_CURE, nothing, VESSEL_NONE, 0);
}

int run_layout(const struct plan_document *document, const struct layout_choice *choice, struct step steps[BATCH_STEPS])
{
    struct layout layout = {document, choice, steps, 0};

    add(&layout, STEP_LAY_OUT, nothing, VESSEL_NONE, 0);
    colours(&layout, false);
    fragrances(&layout);
    if (choice->order == ORDER_OILS_FIRST)
        oils(&layout);
    lye(&layout);
    if (choice->order == ORDER_DISSOLVE_FIRST)
        oils(&layout);
    add(&layout, STEP_COMBINE, nothing, VESSEL_JUG, 0);
    add(&layout, STEP_EMULSIFY, nothing, VESSEL_JUG, 0);
    whole(&layout);
    split(&layout);
    into_portions(&layout);
    pour(&layout, false);
    if (any(document->plan, offsetof(struct technique_steps, stands)))
        add(&layout, STEP_STAND, nothing, VESSEL_NONE, 0);
    pour(&layout, true);
    pieces(&layout);
    mould(&layout);
    return layout.count;
}
