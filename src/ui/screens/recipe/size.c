/* size.c - another way of sizing: each line shows what the recipe would become before it is taken. */
#include <stdio.h>
#include <string.h>

#include "base/mass.h"
#include "base/text.h"
#include "ui/kit/ask.h"
#include "ui/screens/recipe/state.h"
#include "ui/screens/show.h"
#include "work/quantity.h"

static const struct choice ways[WAYS] = {
    [WAY_OILS] = {"o", "by oils: so many grams of them"},
    [WAY_BATTER] = {"b", "by batter: so many grams in the jug"},
    [WAY_BOX] = {"m", "by mould: length x width x height in mm"},
    [WAY_PIECES] = {"p", "by pieces: so many good ones of a mass"},
    [WAY_ONE_OIL] = {"1", "all of one oil that is left: its grams"},
    [WAY_WHOLE_LESS] = {"-", "a little less oil, so that the alkali is whole divisions"},
    [WAY_WHOLE_MORE] = {"+", "a little more oil, so that the alkali is whole divisions"},
};

/* Numbers of "300 x 250 x 25" or "44 x 2.6". */
static bool read_numbers(const char *text, double number[], int count, struct lw_error *error)
{
    char part[QUANTITY_MOST_BYTES + 1];

    for (int i = 0; i < count; i++) {
        size_t length = strcspn(text, "xX");
        bool last = i == count - 1;

        if (length >= sizeof part || (!last && text[length] == '\0') || (last && text[length] != '\0')) {
            snprintf(error->text, sizeof error->text, "Write %d numbers with an x between them.", count);
            return false;
        }
        memcpy(part, text, length);
        part[length] = '\0';
        if (quantity_number(part, &number[i], error) != LW_OK)
            return false;
        if (!(number[i] > 0)) {
            snprintf(error->text, sizeof error->text, "Every number is above 0.");
            return false;
        }
        text += length + !last;
    }
    return true;
}

static bool read_box(const char *text, struct recipe_size *size, struct lw_error *error)
{
    double mm[3];

    if (!read_numbers(text, mm, 3, error))
        return false;
    size->by = SIZE_MOULD;
    size->has_mould = true;
    size->mould = (struct mould){
        .shape = MOULD_BOX, .length_mm = mm[0], .width_mm = mm[1], .height_mm = mm[2], .fill = 1};
    return true;
}

static bool read_pieces(const char *text, struct recipe_size *size, struct lw_error *error)
{
    double number[2];

    if (!read_numbers(text, number, 2, error))
        return false;
    if (number[0] > 2000) {
        snprintf(error->text, sizeof error->text, "At most 2000 pieces in one batch.");
        return false;
    }
    size->by = SIZE_PIECES;
    size->pieces.count = (int)number[0];
    size->pieces.mass_g = number[1];
    return true;
}

/* Reads what was typed for that way into the size of the recipe. */
static bool read_way(const struct sizing *sizing, const char *text, struct recipe_size *size, struct lw_error *error)
{
    const struct plan *plan = editor_document(sizing->screen->editor)->plan;
    double g = 0;

    if (sizing->way == WAY_BOX)
        return read_box(text, size, error);
    if (sizing->way == WAY_PIECES)
        return read_pieces(text, size, error);
    if (quantity_mass(text, "g", &g, error) != LW_OK)
        return false;
    if (!(g > 0 && g <= 1e6)) {
        snprintf(error->text, sizeof error->text, "A mass above 0 and at most 1000 kg is expected.");
        return false;
    }
    size->by = sizing->way == WAY_BATTER ? SIZE_BATTER : SIZE_OILS;
    size->grams = sizing->way == WAY_ONE_OIL ? g / plan->oil_share[sizing->oil] : g;
    return true;
}

static bool changes_of(const struct sizing *sizing, const char *text, struct change *change, struct lw_error *error)
{
    change_begin(editor_recipe(sizing->screen->editor), CHANGE_HEAD, 0, change);
    return read_way(sizing, text, &change->after.head.size, error);
}

static bool check(void *context, const char *text, char *note, size_t size)
{
    struct sizing *sizing = context;
    struct change change;
    struct lw_error error = {""};
    const struct plan *plan;
    char oils[SHOW_BYTES], alkali[SHOW_BYTES], batter[SHOW_BYTES];

    if (!changes_of(sizing, text, &change, &error) ||
        editor_preview(sizing->screen->editor, &change, 1, &error) != LW_OK) {
        text_copy(note, size, error.text);
        return false;
    }
    plan = editor_document(sizing->screen->editor)->plan;
    show_number(oils, mass_g(plan->oils_ug), 2);
    show_number(alkali, plan->alkali[ALKALI_NAOH].alkali.exact_g + plan->alkali[ALKALI_KOH].alkali.exact_g, 2);
    show_number(batter, mass_g(plan->batter_ug), 2);
    snprintf(note, size, "This makes %s g of oils, %s g of alkali, %s g of batter.", oils, alkali, batter);
    editor_preview_end(sizing->screen->editor);
    return true;
}

static void taken(void *context, const char *text)
{
    struct sizing *sizing = context;
    struct change change;
    struct lw_error error = {""};

    if (changes_of(sizing, text, &change, &error))
        state_apply(sizing->screen, &change, 1);
}

/* The sizes that division-coarse found; its numbers 4 and 5 are the oils of a little less and a little more. */
static void whole_divisions(struct recipe_screen *screen, bool more)
{
    const struct plan *plan = editor_document(screen->editor)->plan;
    struct change change;

    for (int i = 0; i < plan->findings; i++) {
        const struct finding *finding = &plan->finding[i];
        double oils_g = finding->number[more ? 5 : 4];

        if (finding->code != FINDING_DIVISION_COARSE || oils_g <= 0)
            continue;
        change_begin(editor_recipe(screen->editor), CHANGE_HEAD, 0, &change);
        change.after.head.size.by = SIZE_OILS;
        change.after.head.size.grams = oils_g;
        state_apply(screen, &change, 1);
        return;
    }
    desk_say(screen->top.desk, STYLE_PLAIN, "The scale is fine enough for this size; there is nothing to round.");
}

static void chosen(void *context, int index)
{
    static const char *const questions[WAYS] = {
        [WAY_OILS] = "How much oil in all? (500 g, 1 lb 3 oz, 250/3)",
        [WAY_BATTER] = "How much batter in the jug? (1.4 kg, 50 oz)",
        [WAY_BOX] = "Inside of the mould up to the height to fill, in mm: 300 x 165 x 25",
        [WAY_PIECES] = "How many good pieces, and grams in each: 44 x 2.6",
        [WAY_ONE_OIL] = "How much is left of the oil the cursor was on?",
    };
    struct sizing *sizing = context;
    const struct line *line = state_line(sizing->screen);

    if (index < 0)
        return;
    sizing->way = (enum size_way)index;
    sizing->oil = line && line->removable && line->part == CHANGE_OIL ? line->index : 0;
    if (index == WAY_WHOLE_LESS || index == WAY_WHOLE_MORE)
        whole_divisions(sizing->screen, index == WAY_WHOLE_MORE);
    else
        ask_line(sizing->screen->top.desk, "Size", questions[index], "", QUANTITY_MOST_BYTES, check, taken, sizing);
}

void size_open(struct recipe_screen *screen)
{
    screen->sizing.screen = screen;
    ask_choice(screen->top.desk, "Size", "How is this recipe sized?", ways, WAYS, chosen, &screen->sizing);
}
