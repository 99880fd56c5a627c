/* choices.c - how a batch is to be made: size, order, vessels, number; what it would be, and what stands against it. */
#include <stdio.h>
#include <stdlib.h>

#include "base/mass.h"
#include "base/text.h"
#include "ui/kit/ask.h"
#include "ui/kit/field.h"
#include "ui/kit/numbered.h"
#include "ui/screens/show.h"
#include "ui/screens/top.h"
#include "work/quantity.h"
#include "work/run.h"
#include "work/version.h"
#include "work/words.h"

enum { NAME_COL = 3, VALUE_COL = 22, LINE_BYTES = 256 };

struct start {
    struct top top;
    struct run_choice choice;
    struct version *version; /* what it would be; NULL where that cannot be told */
    int revision;            /* that it is made of; 0: that cannot be told */
    bool kept;               /* it is a revision already */
    bool stopped, reason_wanted;
    struct lw_error why;
};

static void look(struct start *start)
{
    struct lw_error error = {""};

    if (run_revision(start->top.workshop, &start->choice, &start->revision, &start->kept, &error) != LW_OK)
        start->revision = 0;
    version_free(start->version);
    start->version = NULL;
    start->why.text[0] = '\0';
    start->stopped = start->reason_wanted = false;
    run_preview(start->top.workshop, &start->choice, &start->version, &start->stopped, &start->reason_wanted,
                &start->why);
    if (start->reason_wanted && !start->why.text[0] && start->version)
        text_copy(start->why.text, sizeof start->why.text, version_document(start->version)->words[0].what);
}

static void where(void *state, char *out, size_t size)
{
    const struct start *start = state;

    text_copy(out, size, "Bench > start a batch");
    if (start->version)
        text_add(out, size, " of %s", version_recipe(start->version)->name);
}

/* ---- the lines, each under its digit */

static void show_size(const struct start *start, char *out, size_t size)
{
    static const char *const by[] = {"as the recipe has it", "by its oils", "by its batter"};
    enum mass_unit unit = workshop_settings(start->top.workshop)->mass_unit;
    char oils[SHOW_BYTES], batter[SHOW_BYTES];

    text_copy(out, size, by[start->choice.size.by]);
    if (!start->version)
        return;
    words_of_mass(mass_g(version_document(start->version)->plan->oils_ug), 0, unit, oils, sizeof oils);
    words_of_mass(mass_g(version_document(start->version)->plan->batter_ug), 0, unit, batter, sizeof batter);
    text_add(out, size, ": %s of oils, %s of batter", oils, batter);
}

static void show_order(const struct start *start, char *out, size_t size)
{
    text_copy(out, size,
              start->choice.order == ORDER_OILS_FIRST ? "oils first, then the lye"
                                                      : "dissolve first: lye cools while the oils melt");
}

static void show_vessel(const struct start *start, int vessel, char *out, size_t size)
{
    const struct settings *settings = workshop_settings(start->top.workshop);
    char empty[SHOW_BYTES];

    if (vessel < 0 || vessel >= settings->vessels) {
        text_copy(out, size, "any: the scale is tared with it");
        return;
    }
    words_of_mass(mass_g(settings->vessel[vessel].empty_ug), 0, settings->mass_unit, empty, sizeof empty);
    text_copy(out, size, "");
    text_add(out, size, "%s, %s empty", settings->vessel[vessel].name, empty);
}

static void show_lye_vessel(const struct start *start, char *out, size_t size)
{
    show_vessel(start, start->choice.lye_vessel, out, size);
}

static void show_jug(const struct start *start, char *out, size_t size)
{
    show_vessel(start, start->choice.jug, out, size);
}

static void show_batch_number(const struct start *start, char *out, size_t size)
{
    text_copy(out, size, start->choice.number);
}

static void show_reason(const struct start *start, char *out, size_t size)
{
    text_copy(out, size,
              start->choice.reason[0] ? start->choice.reason
              : start->reason_wanted  ? "wanted"
                                      : "not wanted");
}

static void size_typed(void *context, const char *text)
{
    struct start *start = context;
    struct lw_error error = {""};

    if (quantity_mass(text, "g", &start->choice.size.grams, &error) != LW_OK)
        start->choice.size.by = PLAN_SIZE_OWN;
    look(start);
}

static bool good_size(void *context, const char *text, char *note, size_t size)
{
    struct start *start = context;
    struct plan_size trial = start->choice.size;
    struct lw_error error = {""};

    text_copy(note, size, "Enter takes it; without a unit it is grams.");
    if (quantity_mass(text, "g", &trial.grams, &error) == LW_OK && plan_size_check(&trial, &error) == LW_OK)
        return true;
    text_copy(note, size, error.text);
    return false;
}

static void size_taken(void *context, int index)
{
    struct start *start = context;

    if (index < 0)
        return;
    start->choice.size.by = index == 0 ? PLAN_SIZE_OWN : index == 1 ? PLAN_SIZE_OILS : PLAN_SIZE_BATTER;
    if (index == 0)
        look(start);
    else
        ask_line(start->top.desk, "Size", index == 1 ? "How much oil?" : "How much batter?", "", BATCH_NUMBER_BYTES - 1,
                 good_size, size_typed, start);
}

static void change_size(struct start *start)
{
    struct numbered lines = {0};

    numbered_add(&lines, "as the recipe has it");
    numbered_add(&lines, "so much oil");
    numbered_add(&lines, "so much batter");
    numbered_open(start->top.desk, "Size", "How large is the batch?", &lines, size_taken, start);
}

static void change_order(struct start *start)
{
    start->choice.order = start->choice.order == ORDER_OILS_FIRST ? ORDER_DISSOLVE_FIRST : ORDER_OILS_FIRST;
    look(start);
}

/* Goes round the vessels of the settings; after the last none. */
static void change_vessel(struct start *start, int *vessel)
{
    int vessels = workshop_settings(start->top.workshop)->vessels;

    if (vessels == 0) {
        desk_say(start->top.desk, STYLE_PLAIN,
                 "No vessel is in the settings; S on Today adds one with its empty mass.");
        return;
    }
    *vessel = *vessel + 1 < vessels ? *vessel + 1 : -1;
    look(start);
}

static void change_lye_vessel(struct start *start)
{
    change_vessel(start, &start->choice.lye_vessel);
}

static void change_jug(struct start *start)
{
    change_vessel(start, &start->choice.jug);
}

static void number_typed(void *context, const char *text)
{
    struct start *start = context;

    text_copy(start->choice.number, sizeof start->choice.number, text);
    look(start);
}

static bool has_text(void *context, const char *text, char *note, size_t size)
{
    (void)context;
    text_copy(note, size, text[0] ? "Enter takes it." : "It must not be empty.");
    return text[0] != '\0';
}

static void change_number(struct start *start)
{
    ask_line(start->top.desk, "Batch number", "What is the batch called on its label?", start->choice.number,
             BATCH_NUMBER_BYTES - 1, has_text, number_typed, start);
}

static void reason_typed(void *context, const char *text)
{
    struct start *start = context;

    text_copy(start->choice.reason, sizeof start->choice.reason, text);
    look(start);
}

static void change_reason(struct start *start)
{
    if (!start->reason_wanted && !start->choice.reason[0]) {
        desk_say(start->top.desk, STYLE_PLAIN, "No reason is wanted for this batch.");
        return;
    }
    ask_line(start->top.desk, "Why it may be made all the same", start->why.text, start->choice.reason, FIELD_BYTES - 1,
             has_text, reason_typed, start);
}

static const struct line {
    const char *name;
    void (*show)(const struct start *start, char *out, size_t size);
    void (*change)(struct start *start);
} lines[] = {
    {"size", show_size, change_size},
    {"order", show_order, change_order},
    {"vessel of the lye", show_lye_vessel, change_lye_vessel},
    {"jug", show_jug, change_jug},
    {"batch number", show_batch_number, change_number},
    {"reason", show_reason, change_reason},
};
enum {
    LINES = sizeof lines / sizeof *lines,
    LINES_ROW = 4,
    MARGIN_ROW = LINES_ROW + LINES + 1,
    WHY_ROW = MARGIN_ROW + 2
};

static void paint_recipe(const struct start *start, const struct canvas *body, int row)
{
    char line[LINE_BYTES] = "", strength[SHOW_BYTES];

    if (!start->version || start->revision == 0)
        return;
    show_percent(strength, version_document(start->version)->plan->water.strength, 1);
    if (start->kept)
        text_add(line, sizeof line, "revision %d of %s", start->revision, version_recipe(start->version)->name);
    else
        text_add(line, sizeof line, "the recipe as it is now (it becomes revision %d)", start->revision);
    text_add(line, sizeof line, ", lye strength %s %%", strength);
    canvas_span(body, row, 1, body->cols - 2, STYLE_PLAIN, line);
}

static void paint_margin(const struct start *start, const struct canvas *body, int row)
{
    const struct plan_document *document = start->version ? version_document(start->version) : NULL;
    char nominal[SHOW_BYTES], low[SHOW_BYTES], high[SHOW_BYTES];

    if (!document)
        return;
    show_percent(nominal, document->plan->margin.nominal, 1);
    show_percent(low, document->plan->margin.likely.lo, 1);
    show_percent(high, document->plan->margin.likely.hi, 1);
    canvas_print(body, row, 1, STYLE_STRONG, "superfat %s %%   likely %s to %s   %s", nominal, low, high,
                 document->margin_word);
}

static void paint(void *state, const struct canvas *body)
{
    const struct start *start = state;
    struct canvas text = canvas_part(body, WHY_ROW, 1, body->rows - WHY_ROW, body->cols - 2);
    char value[LINE_BYTES];

    canvas_text(body, 1, 1, STYLE_TITLE, "How is it to be made?");
    paint_recipe(start, body, 2);
    for (int i = 0; i < LINES; i++) {
        canvas_print(body, LINES_ROW + i, 1, STYLE_STRONG, "%d", i + 1);
        canvas_text(body, LINES_ROW + i, NAME_COL, STYLE_PLAIN, lines[i].name);
        lines[i].show(start, value, sizeof value);
        canvas_span(body, LINES_ROW + i, VALUE_COL, body->cols - VALUE_COL - 1, STYLE_PLAIN, value);
    }
    paint_margin(start, body, MARGIN_ROW);
    canvas_wrap(&text, 0, text.rows, start->stopped ? STYLE_STOP : STYLE_CAUTION, start->why.text);
}

static bool take_key(void *state, const struct key *key)
{
    struct start *start = state;

    if (key->code != KEY_CHARACTER || key->alt || key->point < '1' || key->point > '0' + LINES)
        return false;
    lines[key->point - '1'].change(start);
    return true;
}

static bool once(void *state, const struct key *key)
{
    (void)state;
    return key->code == KEY_RETURN || key->code == KEY_ESCAPE || key->code == KEY_CHARACTER;
}

static const char *stands_against(void *state)
{
    struct start *start = state;

    if (start->stopped || !start->version)
        return start->why.text;
    return start->reason_wanted && !start->choice.reason[0] ? "Type a reason first: 6." : NULL;
}

static void begin(void *state, const struct key *key)
{
    struct start *start = state;
    struct top top = start->top;
    struct lw_error error = {""};
    int64_t batch = 0;

    (void)key;
    if (run_start(top.workshop, &start->choice, &batch, &error) == LW_OK)
        bench_open(&top, batch);
    else
        desk_say(top.desk, STYLE_STOP, "%s", error.text);
}

static void leave(void *state, const struct key *key)
{
    (void)key;
    desk_pop(((struct start *)state)->top.desk);
}

static const struct action *actions_of(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"Enter", "start", "Starts the batch: its steps are laid out on the bench.", begin, stands_against},
        {"1-6", "change", "Changes the line of that number.", NULL, NULL},
        {"Esc -", "back", "Goes back; nothing is started.", leave, NULL},
    };

    (void)state;
    *count = sizeof actions / sizeof *actions;
    return actions;
}

static void closed(void *state)
{
    version_free(((struct start *)state)->version);
    free(state);
}

void start_open(const struct top *top, int64_t recipe, int revision)
{
    static const struct view_ops ops = {.title = "Starting a batch",
                                        .where = where,
                                        .paint = paint,
                                        .key = take_key,
                                        .once = once,
                                        .actions = actions_of,
                                        .closed = closed};
    struct start *start = calloc(1, sizeof *start);
    struct lw_error error = {""};

    if (!start || run_choose(top->workshop, recipe, &start->choice, &error) != LW_OK) {
        desk_say(top->desk, STYLE_STOP, "%s", error.text[0] ? error.text : "There is no memory left to start a batch.");
        free(start);
        return;
    }
    start->top = *top;
    start->choice.revision = revision;
    look(start);
    desk_push(top->desk, &ops, start);
}
