/* plan_json.c - one function an object of the form that schema/exchange.schema.json calls $defs/plan, in its order. */
#include "exchange/plan_json.h"

#include <stdio.h>

#include "exchange/json_write.h"
#include "exchange/plan_words.h"
#include "lyeway/names.h"

enum { EXACT_DECIMALS = 4, PERCENT_DECIMALS = 2 };

static void percent(struct json_writer *json, const char *name, double share, int decimals)
{
    json_number(json, name, 100 * share, decimals);
}

static struct part_ref part(enum part kind, int index, int sub)
{
    return (struct part_ref){kind, (int16_t)index, (int16_t)sub};
}

static void weighed(struct json_writer *json, const char *kind, const char *key, const struct weighing *weighing)
{
    json_object(json, NULL);
    json_text(json, kind, key);
    json_number(json, "exact_g", weighing->exact_g, EXACT_DECIMALS);
    json_mass(json, "rounded_g", weighing->rounded_ug, weighing->division_ug);
    json_mass(json, "division_g", weighing->division_ug, 0);
    json_end_object(json);
}

static void oils(struct json_writer *json, const struct plan_document *document)
{
    json_list(json, "oils");
    for (int i = 0; i < document->input->recipe->oils; i++)
        weighed(json, "oil", document_key(document->input, part(PART_OIL, i, 0)), &document->plan->oil[i]);
    json_end_list(json);
    json_number(json, "oils_g", document->plan->oils_exact_g, EXACT_DECIMALS);
}

static void one_alkali(struct json_writer *json, enum alkali kind, const struct plan_alkali *alkali)
{
    bool ready_made = alkali->solution.division_ug > 0;

    json_object(json, NULL);
    json_text(json, "kind", name_of_alkali(kind));
    json_number(json, "exact_g", alkali->alkali.exact_g, EXACT_DECIMALS);
    json_mass(json, "rounded_g", alkali->alkali.rounded_ug, alkali->alkali.division_ug);
    json_mass(json, "division_g", ready_made ? alkali->solution.division_ug : alkali->alkali.division_ug, 0);
    if (ready_made)
        json_mass(json, "solution_g", alkali->solution.rounded_ug, alkali->solution.division_ug);
    else
        json_null(json, "solution_g");
    json_end_object(json);
}

static void lye(struct json_writer *json, const struct plan_document *document)
{
    const struct plan *plan = document->plan;

    json_list(json, "alkali");
    for (int i = 0; i < ALKALIS; i++) {
        if (plan->alkali[i].alkali.exact_g > 0)
            one_alkali(json, i == ALKALI_KOH ? ALKALI_KOH : ALKALI_NAOH, &plan->alkali[i]);
    }
    json_end_list(json);
    json_mass(json, "water_g", plan->water.water.rounded_ug, plan->water.water.division_ug);
    percent(json, "strength_percent", plan->water.strength, PERCENT_DECIMALS);
    percent(json, "strength_rounded_percent", plan->water.strength_rounded, PERCENT_DECIMALS);
}

static void weighed_short(struct json_writer *json, const char *kind, const char *key, const struct weighing *weighing)
{
    json_object(json, NULL);
    json_text(json, kind, key);
    json_mass(json, "rounded_g", weighing->rounded_ug, weighing->division_ug);
    json_end_object(json);
}

static void liquids_and_additives(struct json_writer *json, const struct plan_document *document)
{
    const struct recipe *recipe = document->input->recipe;

    json_list(json, "liquids");
    for (int i = 0; i < recipe->water.liquids; i++)
        weighed_short(json, "liquid", document_key(document->input, part(PART_LIQUID, i, 0)),
                      &document->plan->liquid[i].liquid);
    json_end_list(json);
    json_list(json, "additives");
    for (int i = 0; i < recipe->additives; i++)
        weighed_short(json, "additive", document_key(document->input, part(PART_ADDITIVE, i, 0)),
                      &document->plan->additive[i].additive);
    json_end_list(json);
}

static void mostly_from(struct json_writer *json, const struct plan_document *document)
{
    static const char *const cause[] = {
        [CAUSE_NONE] = "", [CAUSE_SAP] = "sap", [CAUSE_PURITY] = "purity", [CAUSE_SCALE] = "scale"};
    const struct margin *margin = &document->plan->margin;
    char text[LW_NAME_BYTES + 16];

    if (margin->mostly_from == CAUSE_NONE) {
        json_null(json, "mostly_from");
    } else {
        snprintf(text, sizeof text, "%s:%s", cause[margin->mostly_from], document_key(document->input, margin->mostly));
        json_text(json, "mostly_from", text);
    }
    percent(json, "mostly_share", margin->mostly_share, 0);
}

static void superfat(struct json_writer *json, const struct plan_document *document)
{
    const struct margin *margin = &document->plan->margin;

    json_object(json, "superfat");
    percent(json, "asked", document->input->recipe->superfat, PERCENT_DECIMALS);
    percent(json, "rounded", margin->nominal, PERCENT_DECIMALS);
    json_interval(json, "likely", 100 * margin->likely.lo, 100 * margin->likely.hi, PERCENT_DECIMALS);
    json_interval(json, "worst", 100 * margin->worst.lo, 100 * margin->worst.hi, PERCENT_DECIMALS);
    percent(json, "chance_lye_heavy_percent", margin->chance_lye_heavy, 1);
    mostly_from(json, document);
    json_end_object(json);
}

static void batter(struct json_writer *json, const struct plan *plan)
{
    json_mass(json, "batter_g", plan->batter_ug, 0);
    json_number(json, "batter_ml", plan->batter_ml, 1);
    json_number(json, "density_g_ml", plan->density_g_ml, 4);
    json_object(json, "heat");
    if (plan->heat.has)
        json_number(json, "up_to_c", plan->heat.up_to_c, 0);
    else
        json_null(json, "up_to_c");
    json_end_object(json);
}

static void colourants(struct json_writer *json, const struct plan_document *document, int source,
                       const struct plan_portion *portion)
{
    int n = source < 0 ? 0 : document->input->recipe->portion[source].colourants;

    json_list(json, "colourants");
    for (int i = 0; i < n; i++)
        weighed(json, "colourant", document_key(document->input, part(PART_COLOURANT, source, i)),
                &portion->colourant[i].colourant);
    json_end_list(json);
}

static void colour(struct json_writer *json, const struct plan_colour *plan_colour)
{
    if (!plan_colour->known)
        return;
    json_object(json, "colour");
    json_rgb(json, "fresh", plan_colour->fresh_rgb);
    json_rgb(json, "cured", plan_colour->cured_rgb);
    json_end_object(json);
}

static void pieces(struct json_writer *json, const struct recipe *recipe, const struct plan_portion *portion)
{
    const char *kind = portion->source < 0 ? "" : recipe->portion[portion->source].pieces.kind;

    if (!portion->has_pieces) {
        json_null(json, "pieces");
        return;
    }
    json_object(json, "pieces");
    if (kind[0] == '\0')
        json_null(json, "kind");
    else
        json_text(json, "kind", kind);
    json_number(json, "wanted", portion->pieces.wanted, 0);
    json_number(json, "to_pipe", portion->pieces.to_pipe, 0);
    percent(json, "chance_percent", portion->pieces.chance, 1);
    json_number(json, "expected_good", portion->pieces.expected_good, 1);
    json_number(json, "mass_g", portion->pieces.mass_g, 6);
    json_number(json, "bags", portion->pieces.bags, 0);
    json_end_object(json);
}

static void quantiles(struct json_writer *json, const char *name, const struct quantiles *minutes)
{
    json_object(json, name);
    json_number(json, "median", minutes->median, 0);
    json_number(json, "low", minutes->low, 0);
    json_number(json, "high", minutes->high, 0);
    json_end_object(json);
}

static void pace(struct json_writer *json, const struct plan_pace *plan_pace)
{
    json_object(json, "pace_min");
    quantiles(json, "from", &plan_pace->from);
    quantiles(json, "until", &plan_pace->until);
    json_number(json, "need", plan_pace->need, 0);
    json_number(json, "batches", plan_pace->batches, 0);
    json_end_object(json);
}

static void one_portion(struct json_writer *json, const struct plan_document *document, int i)
{
    const struct plan_portion *portion = &document->plan->portion[i];
    bool in_batter = document->input->recipe->scent == PUT_IN_BATTER;

    json_object(json, NULL);
    json_text(json, "name", document_key(document->input, plan_portion_ref(document->plan, i)));
    json_mass(json, "batter_g", portion->batter_ug, portion->division_ug);
    json_number(json, "filled_g", portion->filled_g, 2);
    json_number(json, "volume_ml", portion->volume_ml, 0);
    /* What is weighed into this portion: scent that went into the batter before the split is in batter_g already. */
    json_mass(json, "fragrance_g", in_batter ? 0 : portion->fragrance_ug, 0);
    percent(json, "superfat", portion->margin.nominal, PERCENT_DECIMALS);
    json_text(json, "technique", name_of_technique(portion->technique));
    colourants(json, document, portion->source, portion);
    colour(json, &portion->colour);
    pieces(json, document->input->recipe, portion);
    pace(json, &portion->pace);
    json_end_object(json);
}

static void portions(struct json_writer *json, const struct plan_document *document)
{
    json_list(json, "portions");
    for (int i = 0; i < document->plan->portions; i++)
        one_portion(json, document, i);
    json_end_list(json);
    json_mass(json, "jug_residue_g", document->plan->residue_ug, 0);
}

static void fragrances(struct json_writer *json, const struct plan_document *document)
{
    char source[PLAN_WORDS_BYTES];

    plan_limit_source(document, source);
    json_list(json, "fragrance");
    for (int i = 0; i < document->input->recipe->fragrances; i++) {
        const struct plan_fragrance *fragrance = &document->plan->fragrance[i];
        json_object(json, NULL);
        json_text(json, "fragrance", document_key(document->input, part(PART_FRAGRANCE, i, 0)));
        json_mass(json, "g", fragrance->rounded_ug, 0);
        percent(json, "percent_of_product", fragrance->share_of_product, PERCENT_DECIMALS);
        if (fragrance->has_limit)
            percent(json, "limit_percent", fragrance->limit_share, PERCENT_DECIMALS);
        else
            json_null(json, "limit_percent");
        json_text(json, "limit_from", source);
        json_end_object(json);
    }
    json_end_list(json);
}

static void allergens(struct json_writer *json, const struct plan_document *document)
{
    json_list(json, "allergens");
    for (int i = 0; i < document->plan->allergens; i++) {
        const struct plan_allergen *allergen = &document->plan->allergen[i];
        json_object(json, NULL);
        json_text(json, "name", document->input->reference->allergen[allergen->allergen].inci);
        percent(json, "percent_of_product", allergen->share, PERCENT_DECIMALS);
        json_end_object(json);
    }
    json_end_list(json);
}

static void acids(struct json_writer *json, const struct plan_document *document)
{
    const struct plan_acids *plan_acids = &document->plan->acids;

    json_object(json, "fatty_acids");
    for (int i = 0; i < ACIDS; i++) {
        if (plan_acids->share[i] > 0)
            percent(json, document->input->reference->acid[i].key, plan_acids->share[i], PERCENT_DECIMALS);
    }
    percent(json, "unknown", plan_acids->unknown, PERCENT_DECIMALS);
    json_end_object(json);
    json_number(json, "iodine_value", plan_acids->iodine_value, 1);
    json_number(json, "oxidisability", plan_acids->oxidisability, 2);
}

/* A finding about a colourant is, for a program, about the portion that it colours; the text names the colourant. */
static const char *about(const struct plan_document *document, struct part_ref ref)
{
    return document_key(document->input, ref.part == PART_COLOURANT ? part(PART_PORTION, ref.index, 0) : ref);
}

static void findings(struct json_writer *json, const struct plan_document *document)
{
    json_list(json, "findings");
    for (int i = 0; i < document->plan->findings; i++) {
        const struct finding *finding = &document->plan->finding[i];
        if (plan_hushed(document, finding))
            continue;
        json_object(json, NULL);
        json_text(json, "code", finding_name(finding->code));
        json_text(json, "level", finding_level_name(finding->level));
        json_text(json, "about", about(document, finding->about));
        json_text(json, "text", document->words[i].what);
        json_text(json, "do", document->words[i].todo);
        json_end_object(json);
    }
    json_end_list(json);
}

void plan_json(const struct plan_document *document, struct buffer *out)
{
    struct json_writer json = json_writer_begin(out);

    json_object(&json, NULL);
    json_text(&json, "name", document->input->recipe->name);
    oils(&json, document);
    lye(&json, document);
    liquids_and_additives(&json, document);
    superfat(&json, document);
    batter(&json, document->plan);
    portions(&json, document);
    fragrances(&json, document);
    allergens(&json, document);
    acids(&json, document);
    findings(&json, document);
    json_end_object(&json);
    json_writer_end(&json);
}
