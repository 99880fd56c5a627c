/* size.c - another way of sizing: each line, and each text while it is typed, shows what the recipe would become. */
#include <stdio.h>

#include "base/mass.h"
#include "base/text.h"
#include "ui/kit/ask.h"
#include "ui/screens/recipe/state.h"
#include "ui/screens/show.h"

static const char *const keys[WAYS] = {
    [WAY_OILS] = "o",    [WAY_BATTER] = "b",     [WAY_BOX] = "m",        [WAY_CYLINDER] = "c",
    [WAY_VOLUME] = "v",  [WAY_CAVITIES] = "k",   [WAY_WATER] = "w",      [WAY_PIECES] = "p",
    [WAY_ONE_OIL] = "1", [WAY_WHOLE_LESS] = "-", [WAY_WHOLE_MORE] = "+",
};

static bool change_of(const struct sizing *sizing, enum size_way way, const char *text, struct change *change,
                      struct lw_error *error)
{
    const struct recipe_screen *screen = sizing->screen;

    change_begin(editor_recipe(screen->editor), CHANGE_HEAD, 0, change);
    return sizing_read(editor_document(screen->editor), workshop_settings(screen->top.workshop), way, sizing->oil, text,
                       &change->after.head.size, error) == LW_OK;
}

static void mass_text(const struct sizing *sizing, int64_t ug, char out[SHOW_BYTES])
{
    const struct settings *settings = workshop_settings(sizing->screen->top.workshop);

    show_mass(out, ug, 10000, settings);
    text_add(out, SHOW_BYTES, "%s%s", show_unit(settings)[0] ? " " : "", show_unit(settings));
}

/* What that text would make of the recipe, or why it cannot. */
static bool outcome(const struct sizing *sizing, enum size_way way, const char *text, char oils[SHOW_BYTES],
                    char batter[SHOW_BYTES], struct lw_error *error)
{
    struct editor *editor = sizing->screen->editor;
    struct change change;

    if (!change_of(sizing, way, text, &change, error) || editor_preview(editor, &change, 1, error) != LW_OK)
        return false;
    mass_text(sizing, editor_document(editor)->plan->oils_ug, oils);
    mass_text(sizing, editor_document(editor)->plan->batter_ug, batter);
    editor_preview_end(editor);
    return true;
}

static bool check(void *context, const char *text, char *note, size_t size)
{
    const struct sizing *sizing = context;
    char oils[SHOW_BYTES], batter[SHOW_BYTES];
    struct lw_error error = {""};

    if (outcome(sizing, sizing->way, text, oils, batter, &error)) {
        snprintf(note, size, "This makes %s of oils, %s of batter.", oils, batter);
        return true;
    }
    text_copy(note, size, error.text);
    return false;
}

static void take(struct sizing *sizing, const char *text)
{
    struct change change;
    struct lw_error error = {""};

    if (change_of(sizing, sizing->way, text, &change, &error))
        state_apply(sizing->screen, &change, 1);
    else
        desk_say(sizing->screen->top.desk, STYLE_PLAIN, "%s", error.text);
}

static void typed(void *context, const char *text)
{
    take(context, text);
}

static void present_text(const struct sizing *sizing, enum size_way way, char out[SIZING_BYTES])
{
    const struct recipe_screen *screen = sizing->screen;

    sizing_text(editor_document(screen->editor), workshop_settings(screen->top.workshop), way, sizing->oil, out);
}

static void chosen(void *context, int index)
{
    struct sizing *sizing = context;
    char text[SIZING_BYTES];

    if (index < 0)
        return;
    sizing->way = (enum size_way)index;
    if (!sizing_typed(sizing->way)) {
        take(sizing, "");
        return;
    }
    present_text(sizing, sizing->way, text);
    ask_line(sizing->screen->top.desk, "Size", sizing_question(sizing->way), text, SIZING_BYTES - 1, check, typed,
             sizing);
}

/* "batter (now)              855.00 g oils, 1225.34 g batter". */
static void write_line(struct sizing *sizing, enum size_way way)
{
    char text[SIZING_BYTES], oils[SHOW_BYTES], batter[SHOW_BYTES];
    struct lw_error error = {""};
    const char *now = way == sizing_now(editor_recipe(sizing->screen->editor)) ? " (now)" : "";
    char name[SHOW_BYTES];

    present_text(sizing, way, text);
    if (sizing_typed(way) && text[0] == '\0')
        snprintf(oils, sizeof oils, "not given yet");
    else if (outcome(sizing, way, text, oils, batter, &error)) {
        text_add(oils, sizeof oils, " oils, ");
        text_add(oils, sizeof oils, "%s batter", batter);
    } else
        snprintf(oils, sizeof oils, "no such size near by");
    snprintf(name, sizeof name, "%s%s", sizing_name(way), now);
    snprintf(sizing->line[way], sizeof sizing->line[way], "%-25s %s", name, oils);
    sizing->choices[way] = (struct choice){keys[way], sizing->line[way]};
}

void size_open(struct recipe_screen *screen)
{
    const struct line *line = state_line(screen);
    struct sizing *sizing = &screen->sizing;

    sizing->screen = screen;
    sizing->oil = line && line->removable && line->part == CHANGE_OIL ? line->index : 0;
    for (int way = 0; way < WAYS; way++)
        write_line(sizing, (enum size_way)way);
    ask_choice(screen->top.desk, "Size", "By what is this recipe sized? Each line says what it comes to as it stands.",
               sizing->choices, WAYS, chosen, sizing);
}
