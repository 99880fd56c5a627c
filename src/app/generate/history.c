/* history.c - rows of the table, and the two batches of today. */
#include "history.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/mass.h"
#include "base/number.h"
#include "base/text.h"

static const char *const stories[STORY_OVER] = {"plain",  "early", "warm", "cool",     "slip",  "out",
                                                "seized", "aside", "hold", "rejected", "brown", "complaint"};

static void refuse(const char *line)
{
    fprintf(stderr, "history: this line is not days, recipe, story and note: %.*s\n", (int)strcspn(line, "\n"), line);
    exit(1);
}

/* The next cell of a line, up to a tab or its end. */
static void read_cell(const char **at, char *out, size_t size)
{
    size_t n = strcspn(*at, "\t\n");

    out[0] = '\0';
    text_add(out, size, "%.*s", (int)n, *at);
    *at += n;
    *at += **at == '\t';
}

static enum story story_named(const char *name, const char *line)
{
    for (int i = 0; i < STORY_OVER; i++)
        if (strcmp(stories[i], name) == 0)
            return (enum story)i;
    refuse(line);
    return STORY_PLAIN;
}

bool history_next(const char **text, struct happening *happening)
{
    while (**text == '#' || strncmp(*text, "days\t", 5) == 0)
        *text += strcspn(*text, "\n") + 1;
    if (!**text)
        return false;

    const char *line = *text;
    char days[16], story[16];
    double number = 0;

    read_cell(text, days, sizeof days);
    read_cell(text, happening->recipe, sizeof happening->recipe);
    read_cell(text, story, sizeof story);
    read_cell(text, happening->note, sizeof happening->note);
    happening->days = 0;
    if (number_read(days, strlen(days), &number))
        happening->days = (int)number;
    happening->story = story_named(story, line);
    if (happening->days <= 0 || !happening->recipe[0] || **text != '\n')
        refuse(line);
    ++*text;
    return true;
}

/* ---- today */

enum { GOOD = 31, REJECTS = 2, MORE = 9, GOOD_BEFORE = 22, SECONDS = 22, BASE_BEFORE_S = 1800 };

static void count(struct maker *maker, struct run *run, enum event_kind kind, int n)
{
    struct lw_error error = {""};

    for (int i = 0; i < n; i++) {
        maker->now.utc_s += SECONDS;
        must(run_count(run, &maker->now, kind, 1, &error), &error);
    }
}

/* The mass left in the bags by which the bench reckons with so many pieces more; g. */
static double mass_for(struct maker *maker, const struct run *run, int more)
{
    const struct plan_document *planned = run_planned(run);
    struct batch *batch = malloc(sizeof *batch);
    struct batch_pieces *pieces;

    if (!batch)
        exit(1);
    *batch = *run_batch(run);
    pieces = &batch->pieces[run_kind(run)];
    pieces->left_weighed = true;
    pieces->good_then = pieces->good + pieces->rejects - pieces->scraped;
    for (int g = 150; g > 0; g--) {
        struct piping piping;

        pieces->left_ug = (int64_t)g * UG_PER_G;
        piping_now(planned->input, run_charged(run), batch, run_kind(run), maker->now.utc_s, &piping);
        if (piping.more == more) {
            free(batch);
            return g;
        }
    }
    fprintf(stderr, "history: no mass leaves %d more pieces\n", more);
    exit(1);
}

static void pieces_of_today(struct maker *maker)
{
    struct run *run = maker_begin(maker, "Blossoms and leaves", STORY_OVER, STEP_PIPE, PART_PORTION);
    struct lw_error error = {""};

    count(maker, run, EVENT_PIECES, GOOD_BEFORE);
    count(maker, run, EVENT_REJECTS, REJECTS);
    count(maker, run, EVENT_PIECES, GOOD - GOOD_BEFORE);
    must(run_left(run, &maker->now, mass_ug(mass_for(maker, run, MORE)), true, &error), &error);
    must(run_save(run, &error), &error);
    run_free(run);
}

static void base_of_today(struct maker *maker)
{
    struct run *run = maker_begin(maker, "Quince Orchard base", STORY_PLAIN, STEP_WEIGH, PART_ALKALI);
    struct lw_error error = {""};

    must(run_save(run, &error), &error);
    run_free(run);
}

int64_t history_present(struct maker *maker)
{
    int64_t last_s;

    pieces_of_today(maker);
    last_s = maker->now.utc_s;
    maker->now.utc_s -= BASE_BEFORE_S;
    base_of_today(maker);
    return last_s > maker->now.utc_s ? last_s : maker->now.utc_s;
}
