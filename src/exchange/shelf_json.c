/* shelf_json.c - the maker's own ingredients; what is not known is left out. */
#include "exchange/shelf_json.h"

#include "exchange/exact.h"

static void known_text(struct json_writer *json, const char *name, const char *text)
{
    if (text && text[0])
        json_text(json, name, text);
}

static void known_number(struct json_writer *json, const char *name, double number)
{
    if (number > 0)
        json_exact(json, name, number);
}

static void known_percent(struct json_writer *json, const char *name, double share)
{
    if (share > 0)
        json_exact_percent(json, name, share);
}

static void oil(struct json_writer *json, const struct oil_fact *oil, const struct reference *reference)
{
    static const char *const kinds[] = {"liquid", "butter", "fat", "wax", "acid"};

    json_text(json, "name", oil->name);
    json_exact(json, "sap", oil->sap_nominal);
    json_exact_interval(json, "sap_range", oil->sap_lo, oil->sap_hi, 1);
    known_text(json, "inci", oil->inci);
    known_text(json, "inci_soap", oil->inci_soap);
    json_text(json, "kind", kinds[oil->kind]);
    if (oil->has_iodine)
        json_exact_interval(json, "iodine_range", oil->iodine_lo, oil->iodine_hi, 1);
    known_number(json, "density_g_ml", oil->density_g_ml);
    if (oil->density_g_ml > 0)
        json_exact(json, "density_temp_c", oil->density_temp_c);
    if (oil->has_melt)
        json_exact(json, "melt_c", oil->melt_c);
    if (oil->has_acids) {
        json_object(json, "acids");
        for (int i = 0; i < ACIDS; i++)
            known_percent(json, reference->acid[i].key, oil->acid[i]);
        json_end_object(json);
    }
    known_text(json, "source", oil->sap_source);
}

static void additive(struct json_writer *json, const struct additive_fact *additive)
{
    json_text(json, "name", additive->name);
    known_text(json, "inci", additive->inci);
    known_text(json, "kind", additive->kind);
    json_exact_percent(json, "active_percent", additive->active_share);
    known_number(json, "molar_mass", additive->molar_mass);
    known_number(json, "equivalents", additive->equivalents);
    known_number(json, "density_g_ml", additive->density_g_ml);
    known_percent(json, "water_percent", additive->water_share);
    known_percent(json, "fat_percent", additive->fat_share);
    known_text(json, "fat_oil", additive->fat_oil);
    known_text(json, "source", additive->source);
}

static void liquid(struct json_writer *json, const struct liquid_fact *liquid)
{
    json_text(json, "name", liquid->name);
    known_text(json, "inci", liquid->inci);
    json_exact_percent(json, "water_percent", liquid->water_share);
    known_percent(json, "fat_percent", liquid->fat_share);
    known_text(json, "fat_oil", liquid->fat_oil);
    known_percent(json, "sugar_percent", liquid->sugar_share);
    known_number(json, "acid_mol_per_kg", liquid->acid_mol_per_kg);
    known_number(json, "density_g_ml", liquid->density_g_ml);
    known_text(json, "source", liquid->source);
}

static void colourant(struct json_writer *json, const struct colourant_fact *colourant)
{
    static const char *const behaviours[] = {"stable", "shifts-returns", "shifts", "fades", "bleeds"};

    json_text(json, "name", colourant->name);
    known_text(json, "inci", colourant->inci);
    known_text(json, "ci_number", colourant->ci_number);
    known_text(json, "kind", colourant->kind);
    json_text(json, "behaviour", behaviours[colourant->behaviour]);
    if (colourant->dose_hi > 0)
        json_exact_interval(json, "dose_g_per_kg_oils", colourant->dose_lo, colourant->dose_hi, 1);
    known_text(json, "dispersion", colourant->dispersion);
    json_rgb(json, "swatch", colourant->swatch_rgb);
    if (colourant->fresh_rgb)
        json_rgb(json, "fresh_swatch", colourant->fresh_rgb);
    if (colourant->whitens)
        json_flag(json, "whitens", true);
    known_text(json, "source", colourant->source);
}

static void fragrance(struct json_writer *json, const struct fragrance_fact *fragrance,
                      const struct reference *reference)
{
    static const char *const accelerations[] = {"slows", "none", "some", "strong"};

    json_text(json, "name", fragrance->name);
    known_text(json, "inci", fragrance->inci);
    if (fragrance->constituents > 0) {
        json_object(json, "constituents");
        for (size_t i = 0; i < fragrance->constituents; i++)
            json_exact_interval(json, reference->limit[fragrance->constituent[i].limit].key,
                                fragrance->constituent[i].lo, fragrance->constituent[i].hi, 100);
        json_end_object(json);
    }
    if (fragrance->allergen >= 0)
        json_text(json, "allergen", reference->allergen[fragrance->allergen].key);
    known_number(json, "density_g_ml", fragrance->density_g_ml);
    json_text(json, "behaviour", accelerations[fragrance->acceleration]);
    known_text(json, "discolouration", fragrance->discolouration);
    known_percent(json, "usual_percent_of_oils", fragrance->usual_max);
    known_text(json, "source", fragrance->source);
}

static void begin_kind(struct json_writer *json, const char *name, size_t count)
{
    if (count > 0)
        json_list(json, name);
}

static void end_kind(struct json_writer *json, size_t count)
{
    if (count > 0)
        json_end_list(json);
}

void shelf_json(struct json_writer *json, const struct recipe_json *what)
{
    if (what->oils + what->additives + what->liquids + what->colourants + what->fragrances == 0)
        return;
    json_object(json, "shelf");
    begin_kind(json, "oils", what->oils);
    for (size_t i = 0; i < what->oils; i++) {
        json_object(json, NULL);
        oil(json, &what->oil[i], what->reference);
        json_end_object(json);
    }
    end_kind(json, what->oils);
    begin_kind(json, "additives", what->additives);
    for (size_t i = 0; i < what->additives; i++) {
        json_object(json, NULL);
        additive(json, &what->additive[i]);
        json_end_object(json);
    }
    end_kind(json, what->additives);
    begin_kind(json, "liquids", what->liquids);
    for (size_t i = 0; i < what->liquids; i++) {
        json_object(json, NULL);
        liquid(json, &what->liquid[i]);
        json_end_object(json);
    }
    end_kind(json, what->liquids);
    begin_kind(json, "colourants", what->colourants);
    for (size_t i = 0; i < what->colourants; i++) {
        json_object(json, NULL);
        colourant(json, &what->colourant[i]);
        json_end_object(json);
    }
    end_kind(json, what->colourants);
    begin_kind(json, "fragrances", what->fragrances);
    for (size_t i = 0; i < what->fragrances; i++) {
        json_object(json, NULL);
        fragrance(json, &what->fragrance[i], what->reference);
        json_end_object(json);
    }
    end_kind(json, what->fragrances);
    json_end_object(json);
}
