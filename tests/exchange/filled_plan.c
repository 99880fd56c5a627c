#include "filled_plan.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/mass.h"
#include "files.h"
#include "lyeway/facts.h"

enum { COARSE, FINE };

static struct weighing weighed(double exact_g, double rounded_g, int scale)
{
    return (struct weighing){exact_g, mass_ug(rounded_g), scale == FINE ? 10000 : UG_PER_G, scale, 0};
}

static void fill_recipe(struct filled *filled)
{
    char *text = sample_file("sample-base.json");
    struct recipe_file *file;
    struct lw_error error;

    if (read_text_as_file(text, strlen(text), &file, &error) != LW_OK)
        abort();
    filled->recipe = file->recipe[0];
    filled->facts.oil[0] = facts_oil("olive");
    filled->facts.oil[1] = facts_oil("coconut");
    filled->facts.additive[0] = facts_additive("citric-acid");
    filled->facts.fragrance[0] = facts_fragrance("lavender");
    filled->facts.colourant[0][0] = facts_colourant("titanium-dioxide");
    filled->facts.colourant[1][0] = facts_colourant("chromium-oxide-green");
    recipe_file_free(file);
    free(text);
}

static void fill_batter(struct plan *plan)
{
    static const double oil[] = {450, 250, 300};

    for (int i = 0; i < 3; i++)
        plan->oil[i] = weighed(oil[i], oil[i], COARSE);
    plan->oils_exact_g = 1000;
    plan->oils_ug = mass_ug(1000);
    plan->alkali[ALKALI_NAOH].alkali = weighed(147.2475, 147.24, FINE);
    plan->water = (struct plan_water){weighed(298.957, 299, COARSE), 298.957, 0.33, 0.32996, 2.0303, 0.298957};
    plan->additive[0].additive = weighed(10, 10, FINE);
    plan->margin = (struct margin){.nominal = 0.0501,
                                   .mean = 0.0592,
                                   .sd = 0.0101,
                                   .likely = {0.0389, 0.0794},
                                   .worst = {0.0242, 0.0924},
                                   .mostly_from = CAUSE_SAP,
                                   .mostly = {PART_OIL, 0, 0},
                                   .mostly_share = 0.48};
    plan->batter_ug = mass_ug(1456.24);
    plan->batter_ml = 1442.4;
    plan->density_g_ml = 1.0096;
    plan->heat = (struct plan_heat){.has = true, .up_to_c = 108, .boils_at_c = 120};
}

static struct plan_portion portion(int source, double batter_g, double filled_g, double volume_ml,
                                   enum technique technique)
{
    struct plan_portion out = {.source = source,
                               .batter_ug = mass_ug(batter_g),
                               .division_ug = UG_PER_G,
                               .filled_g = filled_g,
                               .volume_ml = volume_ml,
                               .technique = technique,
                               .margin = {.nominal = 0.0501}};
    return out;
}

static void fill_portions(struct plan *plan)
{
    static const struct plan_pace quick = {{6, 3, 12}, {36, 18, 70}, 0, 0},
                                  slow = {{54, 27, 107}, {90, 45, 180}, 28, 0};

    plan->portions = 3;
    plan->portion[0] = portion(0, 869, 889.88, 884, TECHNIQUE_SWIRL);
    plan->portion[0].colourant[0].colourant = weighed(2.9837, 2.98, FINE);
    plan->portion[0].fragrance[0] = weighed(17.90, 17.90, FINE);
    plan->portion[1] = portion(1, 362, 370.45, 368, TECHNIQUE_SWIRL);
    plan->portion[1].colourant[0].colourant = weighed(0.9943, 0.99, FINE);
    plan->portion[1].fragrance[0] = weighed(7.46, 7.46, FINE);
    plan->portion[2] = portion(2, 217, 217, 215, TECHNIQUE_PIPE);
    plan->portion[1].colour = (struct plan_colour){true, 0xC2D6B4, 0xB9CDA9};
    plan->portion[2].has_pieces = true;
    plan->portion[2].pieces = (struct plan_pieces){24, 29, 0.877, 25.8, 28, 6.5, 2, 0, 0};
    for (int i = 0; i < 3; i++) {
        plan->portion[i].fragrance_ug = plan->portion[i].fragrance[0].rounded_ug;
        plan->portion[i].pace = i < 2 ? quick : slow;
    }
    plan->residue_ug = mass_ug(8.24);
    plan->split_valid = true;
}

static int allergen_named(const struct reference *reference, const char *inci)
{
    for (size_t i = 0; i < reference->allergens; i++) {
        if (strcmp(reference->allergen[i].inci, inci) == 0)
            return (int)i;
    }
    abort();
}

static void fill_rest(struct filled *filled)
{
    struct plan *plan = &filled->plan;

    plan->fragrance[0] = (struct plan_fragrance){.rounded_ug = mass_ug(25.36), .share_of_product = 0.0227};
    plan->limit = (struct plan_limit){.from = LIMIT_NOT_BINDING, .unknown = true};
    plan->allergens = 1;
    plan->allergen[0] = (struct plan_allergen){allergen_named(filled->input.reference, "Linalool"), 0.0102};
    plan->acids.share[ACID_C12_0] = 0.1186;
    plan->acids.unknown = 0.3;
    plan->acids.iodine_value = 39.7;
    plan->acids.oxidisability = 0.98;
    plan->scales = 2;
    plan->scale[COARSE] = filled->recipe.scale[0];
    plan->scale[FINE] = filled->recipe.scale[1];
    plan->findings = 1;
    plan->finding[0] = (struct finding){
        .code = FINDING_DOSE_SMALL, .level = LEVEL_CAUTION, .about = {PART_COLOURANT, 1, 0}};
    strcpy(filled->words[0].what, "Chromium oxide green is under five divisions of the fine scale.");
    strcpy(filled->words[0].todo, "Mix 1.00 g into 9.00 g of oil and use 9.90 g of that.");
}

struct filled *filled_sample(void)
{
    struct filled *filled = calloc(1, sizeof *filled);

    if (filled == NULL)
        abort();
    filled->input = (struct plan_input){&filled->recipe, &filled->facts, facts_reference(), &filled->bench};
    filled->document = (struct plan_document){&filled->input, &filled->plan, filled->words, MASS_G, "WIDE"};
    fill_recipe(filled);
    fill_batter(&filled->plan);
    fill_portions(&filled->plan);
    fill_rest(filled);
    return filled;
}
