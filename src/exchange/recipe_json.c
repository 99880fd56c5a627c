/* recipe_json.c - a recipe member by member, in the order of the schema; what has its usual value is left out. */
#include "exchange/recipe_json.h"

#include <stdio.h>

#include "exchange/exact.h"
#include "exchange/shelf_json.h"
#include "lyeway/finding.h"
#include "lyeway/names.h"

enum { UUID_TEXT_BYTES = 37, WATER_TEMP_C = 20 };

static void text_unless_empty(struct json_writer *json, const char *name, const char *text)
{
    if (text[0])
        json_text(json, name, text);
}

static bool has_uuid(const struct recipe *recipe)
{
    for (int i = 0; i < LW_UUID_BYTES; i++)
        if (recipe->uuid[i])
            return true;
    return false;
}

static void uuid(struct json_writer *json, const struct recipe *recipe)
{
    char text[UUID_TEXT_BYTES];
    size_t at = 0;

    if (!has_uuid(recipe))
        return;
    for (int i = 0; i < LW_UUID_BYTES; i++) {
        if (i == 4 || i == 6 || i == 8 || i == 10)
            text[at++] = '-';
        snprintf(text + at, 3, "%02x", recipe->uuid[i]);
        at += 2;
    }
    json_text(json, "uuid", text);
}

static void oils(struct json_writer *json, const struct recipe *recipe)
{
    json_list(json, "oils");
    for (int i = 0; i < recipe->oils; i++) {
        const struct recipe_oil *oil = &recipe->oil[i];

        json_object(json, NULL);
        json_text(json, "oil", oil->name);
        if (recipe->oils_by == OILS_BY_SHARE)
            json_exact_percent(json, "percent", oil->amount);
        else
            json_exact(json, "grams", oil->amount);
        if (oil->sap.given)
            json_exact(json, "sap", oil->sap.nominal);
        if (oil->sap.given && oil->sap.hi > 0)
            json_exact_interval(json, "sap_range", oil->sap.lo, oil->sap.hi, 1);
        json_end_object(json);
    }
    json_end_list(json);
}

static void pieces(struct json_writer *json, const struct pieces *pieces)
{
    json_object(json, "pieces");
    text_unless_empty(json, "kind", pieces->kind);
    json_number(json, "count", pieces->count, 0);
    json_exact(json, "mass_g", pieces->mass_g);
    if (pieces->chance > 0)
        json_exact_percent(json, "chance_percent", pieces->chance);
    if (pieces->class != PIECE_SIMPLE)
        json_text(json, "class", name_of_class(pieces->class));
    if (pieces->first_time)
        json_flag(json, "first_time", true);
    json_end_object(json);
}

static void box(struct json_writer *json, const char *name, const double mm[], int count)
{
    json_list(json, name);
    for (int i = 0; i < count; i++)
        json_exact(json, NULL, mm[i]);
    json_end_list(json);
}

static void mould(struct json_writer *json, const struct mould *mould)
{
    json_object(json, "mould");
    switch (mould->shape) {
    case MOULD_BOX:
        box(json, "box_mm", (const double[]){mould->length_mm, mould->width_mm, mould->height_mm}, 3);
        break;
    case MOULD_CYLINDER:
        box(json, "cylinder_mm", (const double[]){mould->diameter_mm, mould->height_mm}, 2);
        break;
    case MOULD_VOLUME:
        json_exact(json, "ml", mould->volume_ml);
        break;
    case MOULD_CAVITIES:
        json_number(json, "cavities", mould->cavities, 0);
        json_exact(json, "cavity_ml", mould->volume_ml);
        break;
    }
    if (mould->fill < 1)
        json_exact_percent(json, "fill_percent", mould->fill);
    json_end_object(json);
}

static void size(struct json_writer *json, const struct recipe_size *size)
{
    if (size->has_mould && size->by != SIZE_MOULD)
        mould(json, &size->mould);
    if (size->by == SIZE_AS_GRAMS)
        return;
    json_object(json, "size");
    if (size->by == SIZE_OILS)
        json_exact(json, "oils_g", size->grams);
    else if (size->by == SIZE_BATTER)
        json_exact(json, "batter_g", size->grams);
    else if (size->by == SIZE_MOULD)
        mould(json, &size->mould);
    else
        pieces(json, &size->pieces);
    json_end_object(json);
}

static void purity(struct json_writer *json, const char *name, const struct ranged *purity)
{
    if (!purity->given)
        return;
    if (!(purity->lo < purity->hi)) {
        json_exact_percent(json, name, purity->nominal);
        return;
    }
    json_object(json, name);
    json_exact_percent(json, "nominal", purity->nominal);
    json_exact_interval(json, "range", purity->lo, purity->hi, 100);
    json_end_object(json);
}

static void alkali(struct json_writer *json, const struct recipe_alkali *alkali)
{
    json_object(json, "alkali");
    json_exact_percent(json, "potassium_percent", alkali->potassium_share);
    purity(json, "naoh_purity_percent", &alkali->purity[ALKALI_NAOH]);
    purity(json, "koh_purity_percent", &alkali->purity[ALKALI_KOH]);
    if (alkali->solution_share[ALKALI_NAOH] > 0)
        json_exact_percent(json, "naoh_solution_percent", alkali->solution_share[ALKALI_NAOH]);
    if (alkali->solution_share[ALKALI_KOH] > 0)
        json_exact_percent(json, "koh_solution_percent", alkali->solution_share[ALKALI_KOH]);
    json_end_object(json);
}

static void water(struct json_writer *json, const struct recipe_water *water)
{
    json_object(json, "water");
    if (water->by == WATER_STRENGTH)
        json_exact_percent(json, "strength_percent", water->value);
    else if (water->by == WATER_RATIO)
        json_exact(json, "ratio", water->value);
    else
        json_exact_percent(json, "percent_of_oils", water->value);
    if (water->temp_c < WATER_TEMP_C || water->temp_c > WATER_TEMP_C)
        json_exact(json, "temp_c", water->temp_c);
    if (water->liquids > 0) {
        json_list(json, "liquids");
        for (int i = 0; i < water->liquids; i++) {
            json_object(json, NULL);
            json_text(json, "liquid", water->liquid[i].name);
            json_exact_percent(json, "percent_of_water", water->liquid[i].share_of_water);
            json_end_object(json);
        }
        json_end_list(json);
    }
    json_end_object(json);
}

static void additives(struct json_writer *json, const struct recipe *recipe)
{
    if (recipe->additives == 0)
        return;
    json_list(json, "additives");
    for (int i = 0; i < recipe->additives; i++) {
        const struct recipe_additive *additive = &recipe->additive[i];

        json_object(json, NULL);
        json_text(json, "additive", additive->name);
        if (additive->by == ADDITIVE_OF_OILS)
            json_exact_percent(json, "percent_of_oils", additive->value);
        else
            json_exact(json, "grams", additive->value);
        json_end_object(json);
    }
    json_end_list(json);
}

static void fragrances(struct json_writer *json, const struct recipe *recipe)
{
    if (recipe->fragrances == 0)
        return;
    json_list(json, "fragrance");
    for (int i = 0; i < recipe->fragrances; i++) {
        const struct recipe_fragrance *fragrance = &recipe->fragrance[i];

        json_object(json, NULL);
        json_text(json, "fragrance", fragrance->name);
        if (fragrance->by == FRAGRANCE_OF_OILS)
            json_exact_percent(json, "percent_of_oils", fragrance->value);
        else if (fragrance->by == FRAGRANCE_OF_BATTER)
            json_exact_percent(json, "percent_of_batter", fragrance->value);
        else
            json_exact(json, "g_per_kg_oils", fragrance->value);
        if (fragrance->has_limit) {
            json_exact_percent(json, "limit_percent", fragrance->limit_share);
            text_unless_empty(json, "limit_from", fragrance->limit_from);
        }
        json_end_object(json);
    }
    json_end_list(json);
}

static void dose(struct json_writer *json, enum colour_by by, double value)
{
    switch (by) {
    case COLOUR_PER_KG_OILS:
        json_exact(json, "g_per_kg_oils", value);
        return;
    case COLOUR_GRAMS:
        json_exact(json, "grams", value);
        return;
    case COLOUR_OF_PORTION:
        json_exact_percent(json, "percent_of_portion", value);
        return;
    case COLOUR_PARTS:
        json_exact(json, "parts", value);
        return;
    }
}

static bool has_parts(const struct recipe_portion *portion)
{
    for (int i = 0; i < portion->colourants; i++)
        if (portion->colourant[i].by == COLOUR_PARTS)
            return true;
    return false;
}

static void colourants(struct json_writer *json, const struct recipe_portion *portion)
{
    if (portion->colourants == 0)
        return;
    json_list(json, "colourants");
    for (int i = 0; i < portion->colourants; i++) {
        const struct recipe_colourant *colourant = &portion->colourant[i];

        json_object(json, NULL);
        json_text(json, "colourant", colourant->name);
        dose(json, colourant->by, colourant->value);
        if (colourant->carrier_oil[0]) {
            json_text(json, "carrier_oil", colourant->carrier_oil);
            json_exact(json, "carrier_ratio", colourant->carrier_ratio);
            json_flag(json, "carrier_extra", !colourant->carrier_reserved);
        }
        json_end_object(json);
    }
    json_end_list(json);
    if (has_parts(portion)) {
        json_object(json, "blend");
        dose(json, portion->blend_by, portion->blend_value);
        json_end_object(json);
    }
}

static void demand(struct json_writer *json, const struct recipe_portion *portion)
{
    switch (portion->demand) {
    case DEMAND_SHARE:
        json_exact_percent(json, "percent", portion->amount);
        return;
    case DEMAND_GRAMS:
        json_exact(json, "grams", portion->amount);
        return;
    case DEMAND_LAYER:
        json_exact(json, "layer_mm", portion->amount);
        return;
    case DEMAND_REST:
        json_flag(json, "rest", true);
        return;
    case DEMAND_PIECES:
        return;
    }
}

static void portions(struct json_writer *json, const struct recipe *recipe)
{
    if (recipe->portions == 0)
        return;
    json_list(json, "portions");
    for (int i = 0; i < recipe->portions; i++) {
        const struct recipe_portion *portion = &recipe->portion[i];

        json_object(json, NULL);
        json_text(json, "name", portion->name);
        demand(json, portion);
        if (portion->has_pieces)
            pieces(json, &portion->pieces);
        json_flag(json, "scented", portion->scented);
        json_text(json, "technique", name_of_technique(portion->technique));
        colourants(json, portion);
        json_end_object(json);
    }
    json_end_list(json);
}

static void scales(struct json_writer *json, const struct recipe *recipe)
{
    if (recipe->scales == 0)
        return;
    json_list(json, "scales");
    for (int i = 0; i < recipe->scales; i++) {
        const struct scale *scale = &recipe->scale[i];

        json_object(json, NULL);
        text_unless_empty(json, "name", scale->name);
        json_mass(json, "division_g", scale->division_ug, 0);
        json_mass(json, "capacity_g", scale->capacity_ug, 0);
        json_mass(json, "accuracy_g", scale->accuracy_ug, 0);
        json_mass(json, "vessel_g", scale->vessel_ug, 0);
        json_end_object(json);
    }
    json_end_list(json);
}

static void hushed(struct json_writer *json, const struct recipe *recipe)
{
    if (recipe->hushed == 0)
        return;
    json_list(json, "hushed");
    for (int code = 0; code < FINDING_COUNT; code++)
        if (recipe->hushed & (1u << code))
            json_text(json, NULL, finding_name((enum finding_code)code));
    json_end_list(json);
}

static void content(struct json_writer *json, const struct recipe *recipe)
{
    json_text(json, "name", recipe->name);
    text_unless_empty(json, "note", recipe->note);
    json_text(json, "purpose", name_of_purpose(recipe->purpose));
    oils(json, recipe);
    size(json, &recipe->size);
    json_exact_percent(json, "superfat_percent", recipe->superfat);
    alkali(json, &recipe->alkali);
    water(json, &recipe->water);
    additives(json, recipe);
    fragrances(json, recipe);
    if (recipe->scent == PUT_IN_BATTER)
        json_text(json, "scent", name_of_put_in(recipe->scent));
    if (recipe->colour == PUT_IN_BATTER)
        json_text(json, "colour", name_of_put_in(recipe->colour));
    if (recipe->residue_by == RESIDUE_GRAMS)
        json_exact(json, "jug_residue_g", recipe->residue);
    if (recipe->residue_by == RESIDUE_SHARE)
        json_exact_percent(json, "jug_residue_percent", recipe->residue);
    scales(json, recipe);
    portions(json, recipe);
    hushed(json, recipe);
}

void recipe_json_content(const struct recipe *recipe, struct buffer *out)
{
    struct json_writer json = json_writer_begin(out);

    json_object(&json, NULL);
    content(&json, recipe);
    json_end_object(&json);
    json_writer_end(&json);
}

void recipe_json(const struct recipe_json *what, struct buffer *out)
{
    struct json_writer json = json_writer_begin(out);

    json_object(&json, NULL);
    json_number(&json, "lyeway", 1, 0);
    if (what->recipes > 0) {
        json_list(&json, "recipes");
        for (size_t i = 0; i < what->recipes; i++) {
            json_object(&json, NULL);
            uuid(&json, what->recipe[i]);
            if (what->recipe[i]->revision > 0)
                json_number(&json, "revision", what->recipe[i]->revision, 0);
            content(&json, what->recipe[i]);
            json_end_object(&json);
        }
        json_end_list(&json);
    }
    shelf_json(&json, what);
    json_end_object(&json);
    json_writer_end(&json);
}
