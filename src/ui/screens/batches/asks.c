/* asks.c - what the screens of the book ask for: a figure, a word to find by, a new batch, a reason. */
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "lyeway/names.h"
#include "ui/kit/ask.h"
#include "ui/kit/picker.h"
#include "ui/screens/batches/batches.h"
#include "work/run.h"

enum { NAMES_MOST = 500, REASON_BYTES = 256 };

static void no_memory(const struct top *top)
{
    desk_say(top->desk, STYLE_STOP, "There is no memory left to ask.");
}

/* The matches of a filter by part of a name, in the order of the list. */
static size_t find_names(const char *(*name)(const void *list, int index), const void *list, int n, const char *filter,
                         int index[], size_t most)
{
    size_t found = 0;

    for (int i = 0; i < n && found < most; i++)
        if (text_has(name(list, i), filter))
            index[found++] = i;
    return found;
}

/* ---- a figure */

struct figure_question {
    bool day;
    void (*taken)(void *context, int figure);
    void *context;
};

const char *figure_name(int figure)
{
    return figure == BOOK_FIGURE_COUNT ? "day made" : book_figure_name((enum book_figure)figure);
}

static const char *figure_at(const void *list, int index)
{
    (void)list;
    return figure_name(index);
}

/* The day comes first, where it is offered. */
static size_t find_figures(void *context, const char *filter, int index[], size_t most)
{
    const struct figure_question *question = context;
    size_t found = 0;

    if (question->day && text_has(figure_name(BOOK_FIGURE_COUNT), filter))
        index[found++] = BOOK_FIGURE_COUNT;
    return found + find_names(figure_at, NULL, BOOK_FIGURE_COUNT, filter, index + found, most - found);
}

static void figure_row(void *context, int index, char *name, size_t name_size, char *remark, size_t remark_size)
{
    (void)context;
    text_copy(name, name_size, figure_name(index));
    remark[0] = '\0';
    (void)remark_size;
}

static void figure_taken(void *context, int index)
{
    const struct figure_question *question = context;

    question->taken(question->context, index);
}

void figure_ask(const struct top *top, const char *title, bool day, void (*taken)(void *context, int figure),
                void *context)
{
    static const struct picker_source source = {
        .find = find_figures, .row = figure_row, .taken = figure_taken, .closed = free};
    struct figure_question *question = malloc(sizeof *question);

    if (!question) {
        no_memory(top);
        return;
    }
    *question = (struct figure_question){day, taken, context};
    picker_open(top->desk, title, &source, question);
}

/* ---- a word to find by */

struct filter_question {
    struct top top;
    char text[FILTER_BYTES];
    enum book_in in;
    int names;
    char name[NAMES_MOST][LW_NAME_BYTES];
    void (*taken)(void *context, const char *text);
    void *context;
};

static bool take_name(void *context, const char *name)
{
    struct filter_question *question = context;

    text_copy(question->name[question->names++], LW_NAME_BYTES, name);
    return question->names < NAMES_MOST;
}

static const char *name_at(const void *list, int index)
{
    return ((const struct filter_question *)list)->name[index];
}

static size_t find_words(void *context, const char *filter, int index[], size_t most)
{
    const struct filter_question *question = context;

    return find_names(name_at, question, question->names, filter, index, most);
}

static void word_row(void *context, int index, char *name, size_t name_size, char *remark, size_t remark_size)
{
    text_copy(name, name_size, name_at(context, index));
    remark[0] = '\0';
    (void)remark_size;
}

static void word_taken(void *context, int index)
{
    struct filter_question *question = context;

    book_filter_add(question->text, sizeof question->text, question->in, question->name[index]);
    question->taken(question->context, question->text);
}

static enum lw_status read_names(struct filter_question *question, struct lw_error *error)
{
    if (question->in != BOOK_IN_OUTCOME)
        return book_names(workshop_store(question->top.workshop), question->in, NAMES_MOST, take_name, question, error);
    for (int i = 0; i < BOOK_OUTCOMES; i++)
        take_name(question, name_of_outcome((enum book_outcome)i));
    return LW_OK;
}

static void in_taken(void *context, int index)
{
    static const struct picker_source source = {
        .find = find_words, .row = word_row, .taken = word_taken, .closed = free};
    static const struct {
        enum book_in in;
        const char *title;
    } place[] = {{BOOK_IN_RECIPE, "Which recipe?"},
                 {BOOK_IN_COLOURANT, "Which colourant?"},
                 {BOOK_IN_FRAGRANCE, "Which fragrance?"},
                 {BOOK_IN_OUTCOME, "Which outcome?"}};
    struct filter_question *question = context;
    struct lw_error error = {""};

    if (index < 0) {
        free(question);
        return;
    }
    question->in = place[index].in;
    if (read_names(question, &error) != LW_OK || question->names == 0) {
        desk_say(question->top.desk, STYLE_PLAIN, "%s",
                 error.text[0] ? error.text : "No batch has any on record; / finds by words.");
        free(question);
        return;
    }
    picker_open(question->top.desk, place[index].title, &source, question);
}

void filter_ask(const struct top *top, const char *text, void (*taken)(void *context, const char *text), void *context)
{
    static const struct choice choices[] = {
        {"r", "a recipe"}, {"c", "a colourant"}, {"s", "a fragrance"}, {"o", "an outcome"}};
    struct filter_question *question = calloc(1, sizeof *question);

    if (!question) {
        no_memory(top);
        return;
    }
    question->top = *top;
    question->taken = taken;
    question->context = context;
    text_copy(question->text, sizeof question->text, text);
    ask_choice(top->desk, "Finding batches",
               "By what? It is added to the words that are there; / takes words and dates.", choices,
               sizeof choices / sizeof *choices, in_taken, question);
}

/* ---- a new batch from one */

struct again_question {
    struct top top;
    int64_t recipe;
    int revision;
};

static void again_taken(void *context, int index)
{
    struct again_question *question = context;

    if (index >= 0)
        start_open(&question->top, question->recipe, index == 0 ? 0 : question->revision);
    free(question);
}

void again_ask(const struct top *top, int64_t batch)
{
    static const struct choice choices[] = {{"n", "the recipe as it is now"},
                                            {"r", "the revision that this batch was made of"}};
    struct again_question *question = calloc(1, sizeof *question);
    struct book_line line;
    struct lw_error error = {""};

    if (!question) {
        no_memory(top);
        return;
    }
    if (book_line(workshop_store(top->workshop), batch, &line, &error) != LW_OK) {
        desk_say(top->desk, STYLE_STOP, "%s", error.text);
        free(question);
        return;
    }
    *question = (struct again_question){*top, line.recipe_id, line.revision};
    ask_choice(top->desk, "A new batch", "Of what?", choices, sizeof choices / sizeof *choices, again_taken, question);
}

/* ---- left out, or counted again */

/* `why` NULL: it counts again. */
static void leave_out(struct left_out *question, struct run *run, const char *why)
{
    struct lw_now now = workshop_now(question->top.workshop);
    struct lw_error error = {""};
    enum lw_status status = why ? run_leave_out(run, &now, why, &error) : run_count_again(run, &now, &error);

    if (status == LW_OK)
        status = run_save(run, &error);
    if (status == LW_OK)
        question->done(question->context);
    if (status != LW_OK)
        desk_say(question->top.desk, STYLE_STOP, "%s", error.text);
    else if (why)
        desk_say(question->top.desk, STYLE_PLAIN, "Batch %s teaches nothing from here on.",
                 run_batch(run)->head.number);
    else
        desk_say(question->top.desk, STYLE_PLAIN, "Batch %s counts again.", run_batch(run)->head.number);
}

static struct run *open_run(struct left_out *question)
{
    struct run *run = NULL;
    struct lw_error error = {""};

    if (run_open(question->top.workshop, question->batch, &run, &error) != LW_OK)
        desk_say(question->top.desk, STYLE_STOP, "%s", error.text);
    return run;
}

static bool good_reason(void *context, const char *text, char *note, size_t size)
{
    (void)context;
    text_copy(note, size,
              text[0] ? "The reason stays with the batch." : "A reason is wanted; it stays with the batch.");
    return text[0] != '\0';
}

static void reason_taken(void *context, const char *text)
{
    struct run *run = open_run(context);

    if (run)
        leave_out(context, run, text);
    run_free(run);
}

void left_out_ask(struct left_out *question)
{
    struct run *run = open_run(question);

    if (!run)
        return;
    if (run_batch(run)->left_out)
        leave_out(question, run, NULL);
    else
        ask_line(question->top.desk, "Leave out of what is learned", "Why?", "", REASON_BYTES - 1, good_reason,
                 reason_taken, question);
    run_free(run);
}
