/* plan_file.c - keeps everything that a plan borrows from together, so that one free ends all of it. */
#include "work/plan_file.h"

#include <stdlib.h>

#include "base/error.h"
#include "base/text.h"
#include "base/utf8.h"
#include "exchange/plan_json.h"
#include "exchange/recipe_file.h"
#include "exchange/sheet.h"
#include "work/resolve.h"
#include "work/words.h"

_Static_assert((int)PLAN_FILE_MOST_BYTES == (int)RECIPE_FILE_MOST_BYTES, "what is read is what the reader takes");

enum { LIST_NAMES = 6, LIST_COLUMNS = 40 };

struct plan_file {
    char name[LW_NAME_BYTES];
    struct recipe_file *file;
    struct shelf_rows shelf;
    struct recipe recipe; /* at the size that was asked for */
    struct recipe_facts facts;
    struct bench bench;
    struct plan_input input;
    struct plan plan;
    struct words words[PLAN_FINDINGS];
    struct plan_document document;
};

static struct shelf_rows shelf_of(const struct recipe_file *file)
{
    return (struct shelf_rows){file->oils, file->additives, file->liquids, file->colourants, file->fragrances,
                               file->oil,  file->additive,  file->liquid,  file->colourant,  file->fragrance};
}

enum lw_status plan_file_open(const char *text, size_t n, const char *name, struct plan_file **out,
                              struct lw_error *error)
{
    struct recipe_file_names names = {facts_reference()};
    struct plan_file *plan_file = calloc(1, sizeof *plan_file);

    *out = NULL;
    if (!plan_file)
        return lw_fail(error, LW_FULL, "There is not enough memory to read the file.");

    enum lw_status status = recipe_file_read(text, n, name, &names, &plan_file->file, error);

    if (status != LW_OK) {
        free(plan_file);
        return status;
    }
    utf8_clean(plan_file->name, sizeof plan_file->name, name, LW_NAME_BYTES - 1);
    plan_file->shelf = shelf_of(plan_file->file);
    *out = plan_file;
    return LW_OK;
}

void plan_file_free(struct plan_file *plan_file)
{
    if (!plan_file)
        return;
    recipe_file_free(plan_file->file);
    free(plan_file);
}

size_t plan_file_recipes(const struct plan_file *plan_file)
{
    return plan_file->file->recipes;
}

/* The first names of a file's recipes, in quotes. */
static void list_names(const struct recipe_file *file, char *out, size_t size)
{
    out[0] = '\0';
    for (size_t i = 0; i < file->recipes && i < LIST_NAMES; i++) {
        char clean[LW_NAME_BYTES];

        utf8_clean(clean, sizeof clean, file->recipe[i].name, LIST_COLUMNS);
        text_add(out, size, "%s\"%s\"", i > 0 ? ", " : "", clean);
    }
    if (file->recipes > LIST_NAMES)
        text_add(out, size, " and %zu more", file->recipes - LIST_NAMES);
}

static enum lw_status refuse_choice(const struct plan_file *plan_file, enum lw_status status, const char *wanted,
                                    size_t found, struct lw_error *error)
{
    char names[LW_ERROR_BYTES], clean[LW_NAME_BYTES] = "";

    list_names(plan_file->file, names, sizeof names);
    if (!wanted)
        return lw_fail(error, status, "%s: holds %zu recipes, so one has to be named: %s.", plan_file->name,
                       plan_file->file->recipes, names);
    utf8_clean(clean, sizeof clean, wanted, LIST_COLUMNS);
    if (found > 1)
        return lw_fail(error, status, "%s: %zu recipes are named \"%s\"; give each its own name.", plan_file->name,
                       found, clean);
    return lw_fail(error, status, "%s: no recipe is named \"%s\"; it holds %s.", plan_file->name, clean, names);
}

enum lw_status plan_file_choose(const struct plan_file *plan_file, const char *name, size_t *index,
                                struct lw_error *error)
{
    const struct recipe_file *file = plan_file->file;
    size_t found = 0;

    if (file->recipes == 0)
        return lw_fail(error, LW_NOT_FOUND, "%s: holds no recipe to plan.", plan_file->name);
    if (!name && file->recipes > 1)
        return refuse_choice(plan_file, LW_INVALID, NULL, 0, error);
    for (size_t i = file->recipes; i-- > 0;)
        if (!name || text_same(file->recipe[i].name, name)) {
            *index = i;
            found++;
        }
    if (found == 1)
        return LW_OK;
    return refuse_choice(plan_file, found == 0 ? LW_NOT_FOUND : LW_INVALID, name, found, error);
}

enum lw_status plan_size_check(const struct plan_size *size, struct lw_error *error)
{
    if (size->by == PLAN_SIZE_OWN || (size->grams > 0 && size->grams <= PLAN_SIZE_MOST_G))
        return LW_OK;
    return lw_fail(error, LW_INVALID, "The size of a batch is above 0 and at most 1,000 kg.");
}

/* The mould stays in the recipe: layers and whether it fits still depend on it. */
static void set_size(struct recipe *recipe, const struct plan_size *size)
{
    if (size->by == PLAN_SIZE_OWN)
        return;
    recipe->size.by = size->by == PLAN_SIZE_OILS ? SIZE_OILS : SIZE_BATTER;
    recipe->size.grams = size->grams;
}

enum lw_status plan_file_compute(struct plan_file *plan_file, size_t index, const struct plan_size *size,
                                 enum mass_unit unit, struct lw_error *error)
{
    char where[LW_NAME_BYTES + 32] = "";
    enum lw_status status = plan_size_check(size, error);

    if (status != LW_OK)
        return status;
    plan_file->recipe = plan_file->file->recipe[index];
    set_size(&plan_file->recipe, size);
    text_add(where, sizeof where, "%s: /recipes/%zu", plan_file->name, index);
    status = resolve_recipe(&plan_file->recipe, &plan_file->shelf, where, &plan_file->facts, error);
    if (status != LW_OK)
        return status;

    plan_file->bench = plan_bench_common();
    plan_file->input = (struct plan_input){&plan_file->recipe, &plan_file->facts, facts_reference(), &plan_file->bench};
    plan_compute(&plan_file->input, &plan_file->plan);
    for (int i = 0; i < plan_file->plan.findings; i++)
        words_of_finding(&plan_file->input, &plan_file->plan, &plan_file->plan.finding[i], unit, &plan_file->words[i]);
    plan_file->document = (struct plan_document){.input = &plan_file->input,
                                                 .plan = &plan_file->plan,
                                                 .words = plan_file->words,
                                                 .unit = unit,
                                                 .margin_word = words_of_margin(&plan_file->plan)};
    return LW_OK;
}

const struct plan_document *plan_file_document(const struct plan_file *plan_file)
{
    return &plan_file->document;
}

void plan_file_write(const struct plan_file *plan_file, enum plan_form form, struct buffer *out)
{
    if (form == PLAN_FORM_JSON)
        plan_json(&plan_file->document, out);
    else
        sheet(&plan_file->document, out);
}
