/* revisions.c - the revisions that were kept, and what differs between one of them and the draft. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "ui/kit/box.h"
#include "ui/kit/list.h"
#include "ui/screens/dates.h"
#include "ui/screens/recipe/state.h"
#include "work/compare.h"
#include "work/version.h"

enum { REVISIONS_MOST = 256, DIFFERENCES_MOST = 128 };

struct revisions_view {
    struct recipe_screen *screen;
    struct list list;
    struct revision_line line[REVISIONS_MOST];
    int compared; /* number of the revision whose differences are below, 0: none yet */
    int differences;
    struct difference difference[DIFFERENCES_MOST];
};

static bool take_line(void *context, const struct revision_line *line)
{
    struct revisions_view *view = context;

    view->line[view->list.count++] = *line;
    return view->list.count < REVISIONS_MOST;
}

/* Plans the chosen revision as the draft is planned, so that shares and margins can be compared. */
static void compare(struct revisions_view *view)
{
    const struct plan_document *draft = editor_document(view->screen->editor);
    struct version *version = NULL;
    struct lw_error error;
    int number = view->line[view->list.selected].number;

    if (number == view->compared)
        return;
    view->compared = number;
    view->differences = 0;
    if (version_open(workshop_store(view->screen->top.workshop), editor_id(view->screen->editor), number,
                     workshop_shelf(view->screen->top.workshop), workshop_settings(view->screen->top.workshop),
                     workshop_lessons(view->screen->top.workshop), &version, &error) != LW_OK) {
        desk_say(view->screen->top.desk, STYLE_STOP, "%s", error.text);
        return;
    }
    view->differences = compare_recipes(version_document(version)->input, version_document(version)->plan, draft->input,
                                        draft->plan, view->difference, DIFFERENCES_MOST);
    version_free(version);
}

static void paint_row(void *context, int index, bool selected, const struct canvas *line)
{
    const struct revisions_view *view = context;
    char day[DATE_BYTES];

    (void)selected;
    date_of(day, view->line[index].sealed_s, workshop_now(view->screen->top.workshop).offset_s);
    canvas_print(line, 0, 0, STYLE_PLAIN, "revision %-4d kept %s", view->line[index].number, day);
}

static void paint_differences(struct revisions_view *view, const struct canvas *canvas)
{
    canvas_print(canvas, 0, 0, STYLE_TITLE, "From revision %d to the draft", view->compared);
    if (view->differences == 0)
        canvas_text(canvas, 1, 0, STYLE_PLAIN, "Nothing differs.");
    for (int i = 0; i < view->differences && i < DIFFERENCES_MOST && i + 1 < canvas->rows; i++) {
        const struct difference *difference = &view->difference[i];

        canvas_span(canvas, i + 1, 0, 30, STYLE_PLAIN, difference->what);
        canvas_print(canvas, i + 1, 31, STYLE_PLAIN, "%s -> %s", difference->before[0] ? difference->before : "none",
                     difference->after[0] ? difference->after : "none");
    }
}

static void paint(void *state, const struct canvas *body)
{
    struct revisions_view *view = state;
    struct canvas inside = box_paint(body, body->rows, body->cols, "Revisions");
    int rows = inside.rows / 3;
    struct canvas list = canvas_part(&inside, 0, 0, rows, inside.cols);
    struct canvas below = canvas_part(&inside, rows + 1, 1, inside.rows - rows - 1, inside.cols - 2);

    if (view->list.count == 0) {
        canvas_wrap(
            &inside, 0, inside.rows, STYLE_PLAIN,
            "No revision was kept yet. k keeps the recipe as it is; it is kept too when a batch is started from it.");
        return;
    }
    compare(view);
    list_paint(&view->list, &list, paint_row, view);
    paint_differences(view, &below);
}

static bool take_key(void *state, const struct key *key)
{
    return list_key(&((struct revisions_view *)state)->list, key);
}

static void close_view(void *state, const struct key *key)
{
    (void)key;
    desk_pop(((struct revisions_view *)state)->screen->top.desk);
}

static const struct action *actions_of(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"Up", "choose", "Chooses a revision; what differs from the draft stands below. Down likewise.", NULL, NULL},
        {"Esc r", "close", "Closes the list.", close_view, NULL},
    };

    (void)state;
    *count = sizeof actions / sizeof *actions;
    return actions;
}

void revisions_open(struct recipe_screen *screen)
{
    static const struct view_ops ops = {
        .title = "Revisions", .paint = paint, .key = take_key, .actions = actions_of, .closed = free, .overlay = true};
    struct revisions_view *view = calloc(1, sizeof *view);
    struct lw_error error;

    if (!view)
        return;
    view->screen = screen;
    if (recipes_revisions(workshop_store(screen->top.workshop), editor_id(screen->editor), take_line, view, &error) !=
        LW_OK) {
        desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
        free(view);
        return;
    }
    desk_push(screen->top.desk, &ops, view);
}
