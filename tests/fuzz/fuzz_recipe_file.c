/* fuzz_recipe_file.c - random bytes through gate and reader. Whatever comes: no crash, one sentence or a file whose every number
 * is finite and within its limits, and nothing passes the gate that the JSON library then cannot read.
 */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "exchange/gate.h"
#include "exchange/json.h"
#include "exchange/recipe_file.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void must(bool held)
{
    if (!held)
        abort();
}

static void check_portion(const struct recipe_portion *portion)
{
    must(portion->name[0] != '\0' && isfinite(portion->amount));
    must(portion->colourants >= 0 && portion->colourants <= PORTION_COLOURANTS);
    must(!portion->has_pieces ||
         (portion->pieces.count >= 1 && portion->pieces.count <= 2000 && portion->pieces.mass_g > 0));
    must(portion->demand != DEMAND_PIECES || portion->has_pieces);
    for (int i = 0; i < portion->colourants; i++)
        must(isfinite(portion->colourant[i].value) && isfinite(portion->colourant[i].carrier_ratio));
}

static void check_recipe(const struct recipe *recipe)
{
    double sum = 0;

    must(recipe->name[0] != '\0' && memchr(recipe->name, '\0', LW_NAME_BYTES) != NULL);
    must(recipe->oils >= 1 && recipe->oils <= RECIPE_OILS);
    must(recipe->superfat >= 0 && recipe->superfat <= 0.5);
    must(isfinite(recipe->water.value) && isfinite(recipe->water.temp_c));
    must(recipe->oils_by == OILS_BY_GRAMS || recipe->size.by != SIZE_AS_GRAMS);
    for (int i = 0; i < recipe->oils; i++) {
        must(recipe->oil[i].id == (uint32_t)i + 1 && recipe->oil[i].amount >= 0 && isfinite(recipe->oil[i].amount));
        sum += recipe->oil[i].amount;
    }
    must(recipe->oils_by == OILS_BY_GRAMS || fabs(sum - 1) < 1e-12);
    for (int i = 0; i < recipe->scales; i++)
        must(recipe->scale[i].division_ug > 0 && recipe->scale[i].capacity_ug > 0);
    for (int i = 0; i < recipe->portions; i++)
        check_portion(&recipe->portion[i]);
}

static void check_shelf(const struct recipe_file *file)
{
    for (size_t i = 0; i < file->oils; i++) {
        const struct oil_fact *oil = &file->oil[i];
        must(oil->sap_lo > 0 && oil->sap_lo <= oil->sap_nominal && oil->sap_nominal <= oil->sap_hi);
        must(oil->key != NULL && oil->inci != NULL && oil->note != NULL);
    }
}

static void check_gate(const char *text, size_t size)
{
    struct lw_error error;
    cJSON *root;

    if (gate_check(text, size, "fuzz", &error) != LW_OK)
        return;
    must(json_read(text, size, "fuzz", &root, &error) == LW_OK);
    cJSON_Delete(root);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    const struct recipe_file_names names = {facts_reference()};
    struct recipe_file *file;
    struct lw_error error = {""};
    enum lw_status status = recipe_file_read((const char *)data, size, "fuzz", &names, &file, &error);

    check_gate((const char *)data, size);
    if (status != LW_OK) {
        must(file == NULL && strncmp(error.text, "fuzz: ", 6) == 0 && strchr(error.text, '\n') == NULL);
        return 0;
    }
    for (size_t i = 0; i < file->recipes; i++)
        check_recipe(&file->recipe[i]);
    check_shelf(file);
    recipe_file_free(file);
    return 0;
}
