/* findings.c - all findings with what to do; Enter takes the proposal of those that have one, h hushes a remark. */
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "ui/kit/box.h"
#include "ui/kit/list.h"
#include "ui/screens/recipe/state.h"

struct findings_view {
    struct recipe_screen *screen;
    struct list list;
};

static const struct plan *plan_of(const struct findings_view *view)
{
    return editor_document(view->screen->editor)->plan;
}

static const struct finding *chosen(const struct findings_view *view)
{
    const struct plan *plan = plan_of(view);

    return view->list.selected < plan->findings ? &plan->finding[view->list.selected] : NULL;
}

static void paint_row(void *context, int index, bool selected, const struct canvas *line)
{
    static const char *const levels[] = {"STOP", "caution", "remark"};
    static const uint16_t styles[] = {STYLE_STOP, STYLE_CAUTION, STYLE_REMARK};
    const struct findings_view *view = context;
    const struct plan_document *document = editor_document(view->screen->editor);
    const struct finding *finding = &document->plan->finding[index];

    (void)selected;
    canvas_span(line, 0, 0, 8, styles[finding->level], levels[finding->level]);
    canvas_span(line, 0, 9, line->cols - 9, STYLE_PLAIN, document->words[index].what);
}

static void paint(void *state, const struct canvas *body)
{
    struct findings_view *view = state;
    const struct plan_document *document = editor_document(view->screen->editor);
    struct canvas inside = box_paint(body, body->rows, body->cols, "Findings");
    int under = 9, rows = inside.rows - under;
    struct canvas list = canvas_part(&inside, 0, 0, rows, inside.cols);
    struct canvas text = canvas_part(&inside, rows + 1, 1, under - 1, inside.cols - 2);
    int used;

    list_count(&view->list, document->plan->findings);
    if (document->plan->findings == 0) {
        canvas_text(&inside, 0, 1, STYLE_PLAIN, "Nothing to point out.");
        return;
    }
    list_paint(&view->list, &list, paint_row, view);
    used = canvas_wrap(&text, 0, text.rows, STYLE_STRONG, document->words[view->list.selected].what);
    text = canvas_part(&text, used, 0, text.rows - used, text.cols);
    canvas_wrap(&text, 0, text.rows, STYLE_PLAIN, document->words[view->list.selected].todo);
}

static bool take_key(void *state, const struct key *key)
{
    return list_key(&((struct findings_view *)state)->list, key);
}

/* Proposals that are one number of the recipe: taken as an ordinary change. */
static bool proposal(const struct findings_view *view, const struct finding *finding, struct change *change)
{
    const struct recipe *recipe = editor_recipe(view->screen->editor);

    change_begin(recipe, CHANGE_HEAD, 0, change);
    if (finding->code == FINDING_DIVISION_COARSE && (finding->number[4] > 0 || finding->number[5] > 0)) {
        change->after.head.size.by = SIZE_OILS;
        change->after.head.size.grams = finding->number[5] > 0 ? finding->number[5] : finding->number[4];
        return true;
    }
    if (finding->code == FINDING_PORTIONS_SHORT && finding->number[1] > 0) {
        change->after.head.size.by = SIZE_OILS;
        change->after.head.size.grams = finding->number[1];
        return true;
    }
    if (finding->code == FINDING_STRENGTH_HIGH || finding->code == FINDING_STRENGTH_LOW) {
        change->after.head.water_by = WATER_STRENGTH;
        change->after.head.water_value = 0.33;
        return true;
    }
    return false;
}

static void to_cell(struct recipe_screen *screen, const struct finding *finding)
{
    static const struct {
        enum part part;
        enum region region;
    } places[] = {{PART_OIL, REGION_OILS},           {PART_ADDITIVE, REGION_OILS},     {PART_ALKALI, REGION_LYE},
                  {PART_WATER, REGION_LYE},          {PART_LIQUID, REGION_LYE},        {PART_PORTION, REGION_PORTIONS},
                  {PART_COLOURANT, REGION_PORTIONS}, {PART_FRAGRANCE, REGION_PORTIONS}};

    for (size_t i = 0; i < sizeof places / sizeof *places; i++)
        if (places[i].part == finding->about.part)
            screen->spot = (struct spot){places[i].region, finding->about.index + 1, 0};
}

static void enter(void *state, const struct key *key)
{
    struct findings_view *view = state;
    struct recipe_screen *screen = view->screen;
    const struct finding *finding = chosen(view);
    struct change change;

    (void)key;
    if (!finding)
        return;
    if (proposal(view, finding, &change)) {
        if (state_apply(screen, &change, 1))
            desk_say(screen->top.desk, STYLE_GOOD, "Taken; u takes it back.");
        return;
    }
    to_cell(screen, finding);
    desk_pop(screen->top.desk);
}

static const char *no_remark(void *state)
{
    const struct finding *finding = chosen(state);

    if (!finding)
        return "There is nothing to hush.";
    return finding->level == LEVEL_REMARK ? NULL : "Only remarks can be hushed; stops and cautions always show.";
}

static void hush(void *state, const struct key *key)
{
    struct findings_view *view = state;
    struct change change;

    (void)key;
    change_begin(editor_recipe(view->screen->editor), CHANGE_HEAD, 0, &change);
    change.after.head.hushed |= 1u << chosen(view)->code;
    if (state_apply(view->screen, &change, 1))
        desk_say(view->screen->top.desk, STYLE_PLAIN, "Hushed for this recipe; u brings it back.");
}

static void undo(void *state, const struct key *key)
{
    struct findings_view *view = state;
    struct lw_error error;

    (void)key;
    if (editor_undo(view->screen->editor, &error) != LW_OK)
        desk_say(view->screen->top.desk, STYLE_PLAIN, "%s", error.text);
}

static void close_view(void *state, const struct key *key)
{
    (void)key;
    desk_pop(((struct findings_view *)state)->screen->top.desk);
}

static const struct action *actions_of(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"Enter", "take or go there", "Takes the proposal where there is one, else goes to what it is about.", enter,
         NULL},
        {"h", "hush", "Does not show this remark for this recipe any more.", hush, no_remark},
        {"u", "undo", "Takes the last change back.", undo, NULL},
        {"Esc f", "close", "Closes the list.", close_view, NULL},
    };

    (void)state;
    *count = sizeof actions / sizeof *actions;
    return actions;
}

void findings_open(struct recipe_screen *screen)
{
    static const struct view_ops ops = {
        .title = "Findings", .paint = paint, .key = take_key, .actions = actions_of, .closed = free, .overlay = true};
    struct findings_view *view = calloc(1, sizeof *view);

    if (!view)
        return;
    view->screen = screen;
    desk_push(screen->top.desk, &ops, view);
}
