/* recipe_head.c - the single values of a recipe, taken out as one and put back. */
#include <string.h>

#include "lyeway/change.h"

void recipe_head_read(const struct recipe *recipe, struct recipe_head *head)
{
    memset(head, 0, sizeof *head); /* padding too: heads are compared and logged as bytes */
    memcpy(head->name, recipe->name, sizeof head->name);
    head->purpose = recipe->purpose;
    head->oils_by = recipe->oils_by;
    head->size = recipe->size;
    head->superfat = recipe->superfat;
    head->alkali = recipe->alkali;
    head->water_by = recipe->water.by;
    head->water_value = recipe->water.value;
    head->water_temp_c = recipe->water.temp_c;
    head->scent = recipe->scent;
    head->colour = recipe->colour;
    head->residue_by = recipe->residue_by;
    head->residue = recipe->residue;
    head->hushed = recipe->hushed;
}

void recipe_head_write(struct recipe *recipe, const struct recipe_head *head)
{
    memcpy(recipe->name, head->name, sizeof recipe->name);
    recipe->purpose = head->purpose;
    recipe->oils_by = head->oils_by;
    recipe->size = head->size;
    recipe->superfat = head->superfat;
    recipe->alkali = head->alkali;
    recipe->water.by = head->water_by;
    recipe->water.value = head->water_value;
    recipe->water.temp_c = head->water_temp_c;
    recipe->scent = head->scent;
    recipe->colour = head->colour;
    recipe->residue_by = head->residue_by;
    recipe->residue = head->residue;
    recipe->hushed = head->hushed;
}
