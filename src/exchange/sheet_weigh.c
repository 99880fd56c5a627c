/* sheet_weigh.c - what to weigh into the lye vessel and the jug, in order of use, with the running total of each. */
#include "exchange/sheet_parts.h"

#include <string.h>

#include "base/text.h"
#include "exchange/sheet_text.h"
#include "lyeway/names.h"

enum { NAME_COLUMNS = 30, UNIT_COLUMNS = 12, SCALE_COLUMNS = 20, LINE_BYTES = 512 };

/* A vessel that fills while it is weighed into. */
struct vessel {
    const struct plan_document *document;
    struct buffer *out;
    int64_t total_ug, division_ug; /* the finest so far, for the decimals of the total */
};

/* Which scale, by its division and its name: "0.01 g fine scale". */
static void scale_words(const struct plan *plan, const struct weighing *weighing, char out[LW_NAME_BYTES + 32])
{
    char division[NUMBER_BYTES];
    const char *name = weighing->scale >= 0 && weighing->scale < plan->scales ? plan->scale[weighing->scale].name : "";

    number_write_mass(division, weighing->division_ug, 0);
    out[0] = '\0';
    text_add(out, LW_NAME_BYTES + 32, "%s g", division);
    if (name[0] != '\0')
        text_add(out, LW_NAME_BYTES + 32, "%*s%s", strlen(out) < 7 ? 7 - (int)strlen(out) : 1, "", name);
}

void sheet_weighing(const struct plan_document *document, struct buffer *out, const char *indent, const char *name,
                    const struct weighing *weighing, int64_t total_ug, int64_t total_division_ug)
{
    char scale[LW_NAME_BYTES + 32], unit[32];
    size_t scale_columns = document->unit == MASS_G ? SCALE_COLUMNS : SCALE_COLUMNS - UNIT_COLUMNS;

    buffer_add(out, "%s[ ] ", indent);
    sheet_cell(out, name, NAME_COLUMNS - strlen(indent));
    sheet_mass(out, weighing->rounded_ug, weighing->division_ug);
    buffer_add(out, "g  ");
    sheet_unit(unit, sizeof unit, weighing->rounded_ug, document->unit);
    if (document->unit != MASS_G)
        sheet_cell(out, unit, UNIT_COLUMNS);
    scale_words(document->plan, weighing, scale);
    if (total_ug < 0) {
        sheet_cut(out, scale, scale_columns);
    } else {
        sheet_cell(out, scale, scale_columns);
        sheet_mass(out, total_ug, total_division_ug);
        buffer_add(out, "g");
    }
    buffer_add(out, "\n");
}

static void put_in(struct vessel *vessel, const char *name, const struct weighing *weighing)
{
    if (weighing->division_ug == 0)
        return;
    vessel->total_ug += weighing->rounded_ug;
    if (vessel->division_ug == 0 || weighing->division_ug < vessel->division_ug)
        vessel->division_ug = weighing->division_ug;
    sheet_weighing(vessel->document, vessel->out, "", name, weighing, vessel->total_ug, vessel->division_ug);
}

static void columns_line(const struct plan_document *document, struct buffer *out, const char *vessel)
{
    size_t scale_columns = document->unit == MASS_G ? SCALE_COLUMNS : SCALE_COLUMNS - UNIT_COLUMNS;

    buffer_add(out, "\n");
    sheet_cell(out, vessel, NAME_COLUMNS + 4);
    buffer_add(out, " weigh       ");
    sheet_repeat(out, ' ', document->unit == MASS_G ? 0 : UNIT_COLUMNS);
    sheet_cell(out, "scale", scale_columns);
    buffer_add(out, "  in it\n");
}

/* Acids and what dissolves go into the water before the alkali. */
static bool into_water(const struct plan_document *document, int additive)
{
    const struct additive_fact *fact = document->input->facts->additive[additive];

    return fact != NULL && (text_same(fact->add_to, "water") || text_same(fact->add_to, "lye"));
}

static void additives(struct vessel *vessel, bool water)
{
    const struct plan_document *document = vessel->document;

    for (int i = 0; i < document->input->recipe->additives; i++) {
        if (into_water(document, i) == water)
            put_in(vessel, document_name(document->input, (struct part_ref){PART_ADDITIVE, (int16_t)i, 0}),
                   &document->plan->additive[i].additive);
    }
}

static void put_in_alkali(struct vessel *vessel, enum alkali kind)
{
    const struct plan_alkali *alkali = &vessel->document->plan->alkali[kind];
    char name[64] = "", strength[NUMBER_BYTES];

    if (alkali->solution.division_ug == 0) {
        if (alkali->alkali.exact_g > 0)
            put_in(vessel, name_of_alkali(kind), &alkali->alkali);
        return;
    }
    sheet_percent(strength, vessel->document->input->recipe->alkali.solution_share[kind], 1);
    text_add(name, sizeof name, "ready-made %s lye %s %%", name_of_alkali(kind), strength);
    put_in(vessel, name, &alkali->solution);
}

static void heat_words(const struct plan_heat *heat, char line[LINE_BYTES])
{
    char up_to[NUMBER_BYTES];

    if (!heat->has)
        return;
    number_write(up_to, heat->up_to_c, 0);
    text_add(line, LINE_BYTES,
             " Dissolving takes it up to about %s C%s%s; an open jug usually reads 75 to 95 C (from memory).", up_to,
             heat->capped ? ", where it boils" : "", heat->estimate ? " (an estimate for potassium hydroxide)" : "");
}

static void lye_words(const struct plan *plan, char line[LINE_BYTES])
{
    char strength[NUMBER_BYTES], ratio[NUMBER_BYTES], of_oils[NUMBER_BYTES];

    sheet_percent(strength, plan->water.strength_rounded, 1);
    number_write(ratio, plan->water.ratio, 2);
    sheet_percent(of_oils, plan->water.of_oils, 1);
    line[0] = '\0';
    text_add(line, LINE_BYTES, "Strength %s %%, water %s to 1 of alkali, %s %% of the oils.", strength, ratio, of_oils);
    heat_words(&plan->heat, line);
}

static int64_t lye_vessel(const struct plan_document *document, struct buffer *out)
{
    struct vessel vessel = {document, out, 0, 0};
    const struct recipe *recipe = document->input->recipe;
    char line[LINE_BYTES];

    columns_line(document, out, "into the lye vessel");
    put_in(&vessel, "water", &document->plan->water.water);
    for (int i = 0; i < recipe->water.liquids; i++)
        put_in(&vessel, document_name(document->input, (struct part_ref){PART_LIQUID, (int16_t)i, 0}),
               &document->plan->liquid[i].liquid);
    additives(&vessel, true);
    put_in_alkali(&vessel, ALKALI_NAOH);
    put_in_alkali(&vessel, ALKALI_KOH);
    lye_words(document->plan, line);
    sheet_paragraph(out, "    ", line);
    sheet_paragraph(out, "    ",
                    "Goggles and gloves on. Water first, then the alkali into it, a little at a time, stirring; never "
                    "the other way.");
    return vessel.total_ug;
}

/* Carrier that is the recipe's own oil is in the batter already. */
static void put_in_carrier(struct vessel *vessel, const struct recipe_colourant *asked, const struct weighing *carrier)
{
    char name[LW_NAME_BYTES + 32];

    if (!asked->carrier_reserved) {
        put_in(vessel, asked->carrier_oil, carrier);
        return;
    }
    if (carrier->division_ug == 0)
        return;
    name[0] = '\0';
    text_add(name, sizeof name, "  in %s, of the above", asked->carrier_oil);
    sheet_weighing(vessel->document, vessel->out, "", name, carrier, vessel->total_ug, vessel->division_ug);
}

/* Of a recipe that scents or colours the whole batter before the split. */
static void into_batter(struct vessel *vessel)
{
    const struct plan_document *document = vessel->document;
    const struct recipe *recipe = document->input->recipe;

    for (int i = 0; recipe->scent == PUT_IN_BATTER && i < recipe->fragrances; i++)
        put_in(vessel, document_name(document->input, (struct part_ref){PART_FRAGRANCE, (int16_t)i, 0}),
               &document->plan->batter_fragrance[i]);
    for (int p = 0; recipe->colour == PUT_IN_BATTER && p < recipe->portions; p++) {
        for (int i = 0; i < recipe->portion[p].colourants; i++) {
            const struct plan_colourant *colourant = &document->plan->portion[p].colourant[i];
            put_in(vessel, document_name(document->input, (struct part_ref){PART_COLOURANT, (int16_t)p, (int16_t)i}),
                   &colourant->colourant);
            put_in_carrier(vessel, &recipe->portion[p].colourant[i], &colourant->carrier);
        }
    }
}

static void oils(struct vessel *vessel)
{
    const struct plan_document *document = vessel->document;
    char kept[NUMBER_BYTES], line[LINE_BYTES];

    for (int i = 0; i < document->input->recipe->oils; i++) {
        int64_t kept_ug = document->plan->oil_kept_ug[i];
        put_in(vessel, document_name(document->input, (struct part_ref){PART_OIL, (int16_t)i, 0}),
               &document->plan->oil[i]);
        if (kept_ug == 0)
            continue;
        vessel->total_ug -= kept_ug;
        number_write_mass(kept, kept_ug, 0);
        line[0] = '\0';
        text_add(line, sizeof line, "Take %s g of it out again and keep it back for colour.", kept);
        sheet_paragraph(vessel->out, "    ", line);
    }
}

static void jug(const struct plan_document *document, struct buffer *out, int64_t lye_ug)
{
    struct vessel vessel = {document, out, 0, 0};

    columns_line(document, out, "into the jug");
    oils(&vessel);
    vessel.total_ug += lye_ug;
    buffer_add(out, "[ ] ");
    sheet_cell(out, "all of the lye", NAME_COLUMNS);
    sheet_mass(out, lye_ug, 0);
    buffer_add(out, "g  ");
    sheet_repeat(out, ' ', SCALE_COLUMNS);
    sheet_mass(out, vessel.total_ug, 0);
    buffer_add(out, "g\n");
    additives(&vessel, false);
    into_batter(&vessel);
}

void sheet_weigh(const struct plan_document *document, struct buffer *out)
{
    sheet_heading(out, "WEIGH");
    jug(document, out, lye_vessel(document, out));
}
