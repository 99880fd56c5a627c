/* book_compare.c - batches side by side: a row for whatever is known of any of them. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/day.h"
#include "base/error.h"
#include "base/mass.h"
#include "base/text.h"
#include "lyeway/names.h"
#include "work/book.h"
#include "work/book_causes.h"
#include "work/run_inside.h"
#include "work/words_speech.h"

enum { STAGES = 8 };

/* The row of that name, made where there is none; NULL without room. */
static struct compare_row *row_named(struct compare *compare, const char *name)
{
    struct compare_row *row;

    for (int i = 0; i < compare->rows; i++)
        if (strcmp(compare->row[i].name, name) == 0)
            return &compare->row[i];
    if (compare->rows == COMPARE_ROWS)
        return NULL;
    row = &compare->row[compare->rows++];
    memset(row, 0, sizeof *row);
    text_copy(row->name, sizeof row->name, name);
    return row;
}

static void put(struct compare *compare, int batch, const char *name, const char *value)
{
    struct compare_row *row = row_named(compare, name);

    if (row)
        text_copy(row->value[batch], sizeof row->value[batch], value);
}

/* ---- what is compared */

static void put_head(struct compare *compare, int batch)
{
    const struct book_line *line = &compare->line[batch];
    struct day day = day_of(line->started_s, line->offset_s);
    char value[48] = "";

    put(compare, batch, "recipe", line->name);
    text_add(value, sizeof value, "%d", line->revision);
    put(compare, batch, "revision", value);
    value[0] = '\0';
    text_add(value, sizeof value, "%04d-%02d-%02d", day.year, day.month, day.day);
    put(compare, batch, "made", value);
    put(compare, batch, "outcome", name_of_outcome(line->outcome));
    put(compare, batch, "learning", line->teaches ? "counts" : line->left_out ? "left out" : "does not count");
    put(compare, batch, "technique", name_of_technique(line->technique));
}

static void put_figures(struct workshop *workshop, struct compare *compare, int batch)
{
    for (int figure = 0; figure < BOOK_FIGURE_COUNT; figure++) {
        char value[32];

        book_figure_cell(&compare->line[batch], (enum book_figure)figure, workshop_settings(workshop), true, value,
                         sizeof value);
        put(compare, batch, book_figure_name((enum book_figure)figure), value);
    }
}

static void put_stages(const struct run *run, struct compare *compare, int batch)
{
    const struct batch *state = run_batch(run);

    for (int stage = 1; stage < STAGES; stage++) {
        char name[64] = "", value[32] = "";

        if (!state->stage_s[stage] || state->stage_s[stage] < state->combined_s)
            continue;
        text_add(name, sizeof name, "trace: %s", run_stage_name(stage));
        text_add(value, sizeof value, "%d min", (int)((state->stage_s[stage] - state->combined_s + 30) / 60));
        put(compare, batch, name, value);
    }
}

/* Shares and doses as weighed, so that batches of different sizes can be told apart by what was done. */
static void put_oils(const struct run *run, struct compare *compare, int batch)
{
    const struct plan_input *input = run_input(run);
    double all = mass_g(run->charged.oils_ug);

    for (int i = 0; i < input->recipe->oils && all > 0; i++) {
        char name[64] = "";

        text_add(name, sizeof name, "%s", document_name(input, (struct part_ref){PART_OIL, (int16_t)i, 0}));
        put(compare, batch, name, speech_percent(mass_g(run->charged.oil[i].rounded_ug) / all).text);
    }
}

static void put_doses(const struct run *run, struct compare *compare, int batch)
{
    const struct plan_input *input = run_input(run);

    for (int p = 0; p < input->recipe->portions; p++)
        for (int c = 0; c < input->recipe->portion[p].colourants; c++) {
            const struct charge *weighed = &run->batch.colourant[p][c];
            int64_t ug = weighed->has ? weighed->mass_ug : run->charged.portion[p].colourant[c].colourant.rounded_ug;
            double oils = run->charged.portion[p].oils_g;
            char name[64] = "", value[32] = "";

            text_add(name, sizeof name, "%s, %s", input->recipe->portion[p].name,
                     document_name(input, (struct part_ref){PART_COLOURANT, (int16_t)p, (int16_t)c}));
            text_add(value, sizeof value, "%s g/kg oils",
                     speech_number(oils > 0 ? 1000 * mass_g(ug) / oils : 0, 2).text);
            put(compare, batch, name, value);
        }
}

static void put_fragrances(const struct run *run, struct compare *compare, int batch)
{
    const struct plan_input *input = run_input(run);
    double all = mass_g(run->charged.oils_ug);

    for (int i = 0; i < input->recipe->fragrances && all > 0; i++) {
        char name[64] = "", value[32] = "";

        text_add(name, sizeof name, "%s", document_name(input, (struct part_ref){PART_FRAGRANCE, (int16_t)i, 0}));
        text_add(value, sizeof value, "%s of oils",
                 speech_percent(mass_g(run->charged.fragrance[i].rounded_ug) / all).text);
        put(compare, batch, name, value);
    }
}

static void put_answers(const struct run *run, struct compare *compare, int batch)
{
    for (int i = 0; i < run->events; i++) {
        const struct batch_event *event = &run->event[i];
        int question = (int)event->number[0];

        if (event->kind == EVENT_ANSWER && !event->taken_back && question >= 0 && question < QUESTIONS)
            put(compare, batch, run_questions()[question].text, event->text);
    }
}

/* ---- all of it */

static enum lw_status put_batch(struct workshop *workshop, struct run *const run[], struct compare *compare, int batch,
                                struct lw_error *error)
{
    enum lw_status status = book_line(workshop_store(workshop), run[batch]->id, &compare->line[batch], error);

    if (status != LW_OK)
        return status;
    put_head(compare, batch);
    put_figures(workshop, compare, batch);
    put(compare, batch, "superfat asked", speech_percent(run_input(run[batch])->recipe->superfat).text);
    put_stages(run[batch], compare, batch);
    put_oils(run[batch], compare, batch);
    put_fragrances(run[batch], compare, batch);
    put_doses(run[batch], compare, batch);
    put_answers(run[batch], compare, batch);
    return LW_OK;
}

static void mark_differing(struct compare *compare)
{
    for (int i = 0; i < compare->rows; i++) {
        struct compare_row *row = &compare->row[i];

        for (int b = 0; b < compare->batches; b++) {
            if (!row->value[b][0])
                text_copy(row->value[b], sizeof row->value[b], "-");
            row->differs |= strcmp(row->value[b], row->value[0]) != 0;
        }
    }
}

/* A figure that none of them has is no row. */
static void drop_empty(struct compare *compare)
{
    int kept = 0;

    for (int i = 0; i < compare->rows; i++) {
        bool any = false;

        for (int b = 0; b < compare->batches; b++)
            any |= strcmp(compare->row[i].value[b], "-") != 0;
        if (any)
            compare->row[kept++] = compare->row[i];
    }
    compare->rows = kept;
}

enum lw_status book_compare(struct workshop *workshop, const int64_t id[], int n, enum book_figure about,
                            struct compare *compare, struct lw_error *error)
{
    struct run *run[BOOK_COMPARED] = {NULL};
    enum lw_status status = LW_OK;

    memset(compare, 0, sizeof *compare);
    if (n < 2 || n > BOOK_COMPARED)
        return lw_fail(error, LW_INVALID, "Two to %d batches are compared; mark them first.", BOOK_COMPARED);
    status = workshop_learn(workshop, error);
    if (status == LW_CORRUPT) /* of another batch, or it fails again below */
        status = LW_OK;
    compare->batches = n;
    for (int i = 0; i < n && status == LW_OK; i++)
        status = run_open(workshop, id[i], &run[i], error);
    for (int i = 0; i < n && status == LW_OK; i++)
        status = put_batch(workshop, run, compare, i, error);
    if (status == LW_OK) {
        mark_differing(compare);
        drop_empty(compare);
        book_find_causes(workshop, (const struct run *const *)run, about, compare);
    }
    for (int i = 0; i < n; i++)
        run_free(run[i]);
    return status;
}
