/* The book as a maker uses it: rows that keep up with the records, found, listed, compared, plotted, explained, learned from. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/day.h"
#include "base/mass.h"
#include "calc/learn.h"
#include "kitchen_bench.h"
#include "work/book.h"
#include "work/figures.h"
#include "work/lessons.h"
#include "work/run_inside.h"

#define TEST(name) cmocka_unit_test_setup_teardown(name, kitchen_setup, kitchen_teardown)

/* How one batch of blossoms went. */
struct story {
    double lye_c, oil_c;
    int from_min, until_min; /* 0: never too stiff */
    int good, rejects;
    double each_g; /* of the petals */
};

static void must(enum lw_status status, const struct lw_error *error)
{
    if (status != LW_OK)
        fail_msg("%s", error->text);
}

static void stamp(struct kitchen *kitchen, struct run *run, int minutes, int stage)
{
    struct lw_error error = {""};

    kitchen->now.utc_s = run_batch(run)->combined_s + minutes * 60;
    must(run_stage(run, &kitchen->now, stage, &error), &error);
}

/* What is then left in the bags, so that the mean mass a piece is as told: by piping.h the losses are the cup, the first squeeze and a
 * bag emptied, less what is left. */
static void left_for(struct kitchen *kitchen, struct run *run, const struct story *story)
{
    const struct plan_input *input = run_input(run);
    int part = piping_part(input, run_charged(run), run_batch(run), 0);
    double filled = run_charged(run)->portion[part].filled_g;
    const struct practice *practice = input->reference->practice;
    double left = filled - practice->cup_residue_g - practice->first_squeeze_g -
                  (story->good + story->rejects) * story->each_g;
    struct lw_error error = {""};

    must(run_left(run, &kitchen->now, mass_ug(left), true, &error), &error);
}

/* Pipes at the step at hand, a count a piece. */
static void pipe_all(struct kitchen *kitchen, struct run *run, const struct story *story)
{
    struct lw_error error = {""};

    for (int i = 0; i < story->good + story->rejects; i++) {
        kitchen_wait(kitchen, 10);
        must(run_count(run, &kitchen->now, i < story->good ? EVENT_PIECES : EVENT_REJECTS, 1, &error), &error);
    }
}

static int64_t make(struct kitchen *kitchen, const struct story *story)
{
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error = {""};
    int64_t id = run_batch(run)->head.id;

    kitchen_until(kitchen, run, STEP_COMBINE);
    must(run_combine(run, &kitchen->now, story->lye_c, story->oil_c, &error), &error);
    kitchen_until(kitchen, run, STEP_STAND);
    stamp(kitchen, run, story->from_min, 5);
    kitchen_until(kitchen, run, STEP_PIPE);
    pipe_all(kitchen, run, story);
    left_for(kitchen, run, story);
    if (story->until_min)
        stamp(kitchen, run, story->until_min, 6);
    while (run_at(run) >= 0)
        kitchen_step(kitchen, run);
    must(run_finish(run, &kitchen->now, &error), &error);
    must(run_save(run, &error), &error);
    run_free(run);
    kitchen_wait(kitchen, DAY_S);
    return id;
}

static const struct story cool = {30, 32, 50, 81, 20, 1, 2.70};
static const struct story warm = {46, 46, 24, 38, 18, 4, 2.90};

static struct book_line line_of(struct kitchen *kitchen, int64_t id)
{
    struct book_line line;
    struct lw_error error = {""};

    must(workshop_learn(kitchen->workshop, &error), &error);
    must(book_line(workshop_store(kitchen->workshop), id, &line, &error), &error);
    return line;
}

static void near_to(double found, double expected, double within)
{
    if (!(fabs(found - expected) <= within))
        fail_msg("%.9g is not %.9g", found, expected);
}

static void a_row_has_what_the_record_comes_to(void **state)
{
    struct kitchen *kitchen = *state;
    struct book_line line = line_of(kitchen, make(kitchen, &cool));

    assert_string_equal(line.name, BLOSSOMS);
    assert_int_equal(line.outcome, BOOK_MADE);
    assert_int_equal(line.technique, TECHNIQUE_PIPE);
    assert_false(line.until_least);
    near_to(line.figure[BOOK_FROM], 50, 1e-9);
    near_to(line.figure[BOOK_UNTIL], 81, 1e-9);
    near_to(line.figure[BOOK_WINDOW], 31, 1e-9);
    near_to(line.figure[BOOK_TEMP], 31, 1e-9);
    near_to(line.figure[BOOK_EACH], 2.70, 1e-5);
    near_to(line.figure[BOOK_SECONDS], 10, 1e-9);
    near_to(line.figure[BOOK_OILS], 190, 1e-9);
    assert_true(isnan(line.figure[BOOK_CURE_LOSS]));
    assert_true(isnan(line.figure[BOOK_JUG_RESIDUE]));
}

/* What is found in the jug beyond what was foreseen, 4.2 g, the 21 petals that stayed in it did not get: 2.70 - 4.2 / 21 = 2.50 g each. */
static void what_was_found_in_the_jug_makes_the_row_anew(void **state)
{
    struct kitchen *kitchen = *state;
    int64_t id = make(kitchen, &cool);
    struct lw_error error = {""};
    struct run *run;

    near_to(line_of(kitchen, id).figure[BOOK_EACH], 2.70, 1e-5);
    must(run_open(kitchen->workshop, id, &run, &error), &error);
    must(run_residue(run, &kitchen->now, RESIDUE_JUG, run_charged(run)->residue_ug + mass_ug(4.2), 1, &error), &error);
    must(run_save(run, &error), &error);
    run_free(run);
    near_to(line_of(kitchen, id).figure[BOOK_EACH], 2.50, 1e-5);
}

/* checks: good ones and rejects after lifting are those of kitchen_bench.c (44 and 2). */
static void counts_are_those_after_lifting(void **state)
{
    struct kitchen *kitchen = *state;
    struct book_line line = line_of(kitchen, make(kitchen, &cool));

    assert_true(line.figure[BOOK_GOOD] >= 44);
    near_to(line.figure[BOOK_REJECTS], (line.figure[BOOK_PIECES] - line.figure[BOOK_GOOD]) / line.figure[BOOK_PIECES],
            1e-12);
}

/* 20 good ones and 4 rejects, one every 10 s; then, as long after the last, all 4 are scraped back. One breaks when they are lifted. The bench,
 * the book and what is learned from it agree that 20 pieces were made; that of a flower on a nail Beta(3, 22) is known before is common
 * practice. From the first to the last it was 23 times 10 s, and 10 s to scrape. */
static void a_reject_scraped_back_counts_nowhere(void **state)
{
    struct kitchen *kitchen = *state;
    struct story story = {.good = 20, .rejects = 4, .each_g = 2.7};
    struct run *run = kitchen_start(kitchen, BLOSSOMS);
    struct lw_error error = {""};
    struct piping piping;
    struct book_row row;

    kitchen_until(kitchen, run, STEP_PIPE);
    pipe_all(kitchen, run, &story);
    run_piping(run, &kitchen->now, &piping);
    near_to(piping.reject_a, 3 + 4, 1e-9);
    kitchen_wait(kitchen, 10);
    must(run_count(run, &kitchen->now, EVENT_SCRAPED, 4, &error), &error);
    run_piping(run, &kitchen->now, &piping);
    assert_int_equal(piping.rejects, 0);
    near_to(piping.reject_a, 3, 1e-9);
    near_to(piping.reject_b, 22 + 20, 1e-9);
    story.rejects = 0;
    left_for(kitchen, run, &story);
    kitchen_until(kitchen, run, STEP_RECOUNT);
    must(run_recount(run, &kitchen->now, 19, 1, &error), &error);
    figures_of(run, &row);
    assert_int_equal(row.pieces[0].good, 19);
    assert_int_equal(row.pieces[0].rejects, 1);
    assert_int_equal(row.pieces[0].made, 20);
    near_to(row.pieces[0].each_g, 2.7, 1e-6);
    near_to(row.figure[BOOK_PIECES], 20, 0);
    near_to(row.figure[BOOK_REJECTS], 1.0 / 20, 1e-12);
    near_to(row.figure[BOOK_SECONDS], 240.0 / 19, 1e-9);
    run_free(run);
}

static void finished_while_still_workable_says_at_least(void **state)
{
    struct kitchen *kitchen = *state;
    struct story story = cool;
    struct book_line line;
    char text[48];

    story.until_min = 0;
    line = line_of(kitchen, make(kitchen, &story));
    assert_true(line.until_least);
    assert_true(line.figure[BOOK_UNTIL] > 50);
    book_figure_text(&line, BOOK_UNTIL, workshop_settings(kitchen->workshop), true, text, sizeof text);
    assert_non_null(strstr(text, "at least "));
    book_figure_cell(&line, BOOK_UNTIL, workshop_settings(kitchen->workshop), true, text, sizeof text);
    assert_ptr_equal(strstr(text, ">= "), text);
    book_figure_cell(&line, BOOK_UNTIL, workshop_settings(kitchen->workshop), false, text, sizeof text);
    assert_in_range(strlen(text), 4, 5); /* ">=", two digits or three, no unit */
    assert_int_equal(strspn(text + 2, "0123456789"), strlen(text) - 2);
    book_figure_cell(&line, BOOK_TEMP, workshop_settings(kitchen->workshop), true, text, sizeof text);
    assert_null(strchr(text, '>'));
}

static void a_row_is_found_anew_when_the_record_grows(void **state)
{
    struct kitchen *kitchen = *state;
    int64_t id = make(kitchen, &cool);
    struct lw_error error = {""};
    struct run *run;

    assert_false(line_of(kitchen, id).left_out);
    run = kitchen_open(kitchen, id);
    must(run_leave_out(run, &kitchen->now, "the thermometer was broken", &error), &error);
    must(run_save(run, &error), &error);
    run_free(run);
    assert_true(line_of(kitchen, id).left_out);
}

/* What a line says is what is done: after each change the count of the lessons' batches, those of the pace of piping, agrees. */
static void teaches(struct kitchen *kitchen, int64_t id, bool it_does)
{
    struct lessons *lessons = malloc(sizeof *lessons);
    struct lw_error error = {""};

    assert_non_null(lessons);
    assert_int_equal(line_of(kitchen, id).teaches, it_does);
    must(lessons_read(kitchen->workshop, lessons, &error), &error);
    assert_int_equal(lessons->pace_batches, it_does);
    free(lessons);
}

static void a_line_says_whether_its_batch_is_learned_from(void **state)
{
    struct kitchen *kitchen = *state;
    int64_t id = make(kitchen, &cool);
    struct lw_error error = {""};
    struct run *run = kitchen_open(kitchen, id);

    teaches(kitchen, id, true);
    must(run_leave_out(run, &kitchen->now, "the thermometer was broken", &error), &error);
    must(run_save(run, &error), &error);
    teaches(kitchen, id, false);
    run_free(run);
    run = kitchen_start(kitchen, BLOSSOMS);
    id = run_batch(run)->head.id;
    kitchen_until(kitchen, run, STEP_STAND);
    stamp(kitchen, run, 50, 5);
    stamp(kitchen, run, 80, 6);
    must(run_save(run, &error), &error);
    assert_int_equal(line_of(kitchen, id).outcome, BOOK_RUNNING);
    teaches(kitchen, id, false);
    must(run_set_aside(run, &kitchen->now, "it seized", &error), &error);
    must(run_save(run, &error), &error);
    assert_int_equal(line_of(kitchen, id).outcome, BOOK_SET_ASIDE);
    teaches(kitchen, id, false);
    run_free(run);
}

/* ---- finding */

static void reads(const char *typed, int terms, enum book_in in, bool whole, const char *text)
{
    struct book_filter filter;
    struct lw_error error = {""};

    must(book_filter_read(typed, 3600, &filter, &error), &error);
    assert_int_equal(filter.terms, terms);
    if (terms == 0)
        return;
    assert_int_equal(filter.term[terms - 1].in, in);
    assert_int_equal(filter.term[terms - 1].whole, whole);
    assert_string_equal(filter.term[terms - 1].text, text);
}

static void what_is_typed_is_read_term_by_term(void **state)
{
    struct book_filter filter;
    struct lw_error error = {""};

    (void)state;
    reads("", 0, BOOK_ANYWHERE, false, "");
    reads("  rose  gold ", 2, BOOK_ANYWHERE, false, "gold");
    reads("\"on hold\"", 1, BOOK_ANYWHERE, true, "on hold");
    reads("\"on ho", 1, BOOK_ANYWHERE, false, "on ho"); /* still being typed */
    reads("outcome:rel", 1, BOOK_IN_OUTCOME, false, "rel");
    reads("fragrance:\"orange sweet\" x", 2, BOOK_ANYWHERE, false, "x");
    reads("2026-03", 1, BOOK_IN_DAY, true, "2026-03");
    reads("2026-3", 1, BOOK_ANYWHERE, false, "2026-3");
    reads("2026-13", 1, BOOK_ANYWHERE, false, "2026-13");
    must(book_filter_read("from:2026-03 to:2026-03-14 rose", 3600, &filter, &error), &error);
    assert_int_equal(filter.terms, 1);
    /* date -u -d 2026-03-01 +%s is 1772323200, 2026-03-15 1773532800; the maker's clock is an hour ahead. */
    assert_int_equal(filter.from_s, 1772323200 - 3600);
    assert_int_equal(filter.before_s, 1773532800 - 3600);
    must(book_filter_read("to:2024-12 from:2024", 0, &filter, &error), &error);
    assert_int_equal(filter.before_s, 1735689600); /* 2025-01-01 */
    assert_int_equal(filter.from_s, 1704067200);   /* 2024-01-01 */
}

static int found(struct kitchen *kitchen, const char *words)
{
    struct book_list *list = calloc(1, sizeof *list);
    struct lw_error error = {""};
    int count;

    assert_non_null(list);
    must(workshop_learn(kitchen->workshop, &error), &error);
    must(book_filter_read(words, 0, &list->filter, &error), &error);
    must(book_list_first(kitchen->workshop, list, &error), &error);
    count = list->count;
    free(list);
    return count;
}

/* Each is told, and finds nothing rather than everything. */
static void what_cannot_be_understood_is_told(void **state)
{
    static const char *const typed[][2] = {
        {"rose from:banana", "\"from:banana\" names no day"},
        {"from:2026-13", "names no day"},
        {"to:", "names no day"},
        {"counts:no", "counts:yes finds"},
        {"outcome:good", "there are on the bench, made, released, on hold, rejected, set aside."},
        {"from:2026-02-30", "names no day"},
        {"colour:rose", "\"colour:rose\": before a colon stand recipe"},
        {"from:2026-05 to:2026-04", "lies before"},
        {"a b c d e f g h i j k l m", "\"m\" is one too many"},
        {"colour:rose from:banana", "\"colour:rose\""}, /* the first of two */
    };
    struct kitchen *kitchen = *state;

    make(kitchen, &cool);
    assert_int_equal(found(kitchen, "Recipe:blos FROM:2026 to:2026"), 1);
    assert_int_equal(found(kitchen, "counts:yes blossoms"), 1);
    assert_int_equal(found(kitchen, "\"colour:rose\""), 0); /* in quotes it is a text as any */
    for (size_t i = 0; i < sizeof typed / sizeof *typed; i++) {
        struct book_filter filter;
        struct lw_error error = {""};
        int n = -1;

        kitchen_refuses(book_filter_read(typed[i][0], 0, &filter, &error), &error, typed[i][1]);
        must(book_count(workshop_store(kitchen->workshop), &filter, 9, &n, &error), &error);
        assert_int_equal(n, 0);
    }
}

static void a_term_from_a_list_is_read_back_as_it_is(void **state)
{
    struct book_filter filter;
    struct lw_error error = {""};
    char text[128] = "rose";

    (void)state;
    book_filter_add(text, sizeof text, BOOK_IN_FRAGRANCE, "Sweet orange oil");
    must(book_filter_read(text, 0, &filter, &error), &error);
    assert_int_equal(filter.terms, 2);
    assert_int_equal(filter.term[1].in, BOOK_IN_FRAGRANCE);
    assert_true(filter.term[1].whole);
    assert_string_equal(filter.term[1].text, "Sweet orange oil");
}

static void batches_are_found_by_what_is_known_of_them(void **state)
{
    struct kitchen *kitchen = *state;
    struct lw_error error = {""};
    struct run *run;

    make(kitchen, &cool);
    make(kitchen, &warm);
    run = kitchen_start(kitchen, "Hedge Rose base");
    must(run_note(run, &kitchen->now, "brown mica came back by day 3", &error), &error);
    must(run_save(run, &error), &error);
    run_free(run);
    assert_int_equal(found(kitchen, ""), 3);
    assert_int_equal(found(kitchen, "blos"), 2);
    assert_int_equal(found(kitchen, "recipe:hedge"), 1);
    assert_int_equal(found(kitchen, "mica back"), 1);
    assert_int_equal(found(kitchen, "outcome:\"on the bench\""), 1);
    assert_int_equal(found(kitchen, "outcome:made"), 2);
    assert_int_equal(found(kitchen, "counts:yes"), 2); /* what is on the bench does not */
    assert_int_equal(found(kitchen, "2026-03"), 3);
    assert_int_equal(found(kitchen, "2025"), 0);
    assert_int_equal(found(kitchen, "from:2026-03-15"), 2);
    assert_int_equal(found(kitchen, "fragrance:geran"), 1);
    assert_int_equal(found(kitchen, "colourant:geran"), 0);
    assert_int_equal(found(kitchen, "blossoms \" OR recipe:*"), 0);
}

static void what_is_found_is_sorted_and_what_lacks_the_figure_left_out(void **state)
{
    struct kitchen *kitchen = *state;
    struct book_list *list = calloc(1, sizeof *list);
    struct lw_error error = {""};
    int64_t cool_id = make(kitchen, &cool), warm_id = make(kitchen, &warm);

    assert_non_null(list);
    run_free(kitchen_start(kitchen, BLOSSOMS));
    must(workshop_learn(kitchen->workshop, &error), &error);
    for (int with_words = 0; with_words < 2; with_words++) {
        must(book_filter_read(with_words ? "blossoms" : "", 0, &list->filter, &error), &error);
        list->order = BOOK_BY_WINDOW;
        must(book_list_first(kitchen->workshop, list, &error), &error);
        assert_int_equal(list->count, 2);
        assert_int_equal(list->line[0].id, warm_id);
        assert_int_equal(list->line[1].id, cool_id);
    }
    free(list);
}

/* ---- comparing and explaining */

static const struct compare_row *row_of(const struct compare *compare, const char *name)
{
    for (int i = 0; i < compare->rows; i++)
        if (strcmp(compare->row[i].name, name) == 0)
            return &compare->row[i];
    fail_msg("there is no row %s", name);
    return NULL;
}

static void two_batches_are_compared_and_the_warm_one_is_explained(void **state)
{
    struct kitchen *kitchen = *state;
    struct compare *compare = calloc(1, sizeof *compare);
    int64_t id[] = {make(kitchen, &cool), make(kitchen, &warm)};
    struct lw_error error = {""};

    assert_non_null(compare);
    must(book_compare(kitchen->workshop, id, 2, BOOK_FROM, compare, &error), &error);
    assert_true(row_of(compare, "temperature combined")->differs);
    assert_string_equal(row_of(compare, "temperature combined")->value[0], "31 C");
    assert_string_equal(row_of(compare, "temperature combined")->value[1], "46 C");
    assert_string_equal(row_of(compare, "trace: piping")->value[0], "50 min");
    assert_false(row_of(compare, "recipe")->differs);
    assert_true(compare->causes >= 1);
    assert_non_null(strstr(compare->cause[0].text, "combined at 31 C against 46 C"));
    assert_non_null(strstr(compare->summary, "Only 2 of your batches speak yet"));
    assert_non_null(strstr(compare->summary, "That is times 2.08;")); /* 50 / 24 */
    must(book_compare(kitchen->workshop, (int64_t[]){id[1], id[0]}, 2, BOOK_FROM, compare, &error), &error);
    assert_non_null(strstr(compare->cause[0].text, "combined at 46 C against 31 C"));
    assert_non_null(strstr(compare->summary, "That is times 0.48;"));
    kitchen_refuses(book_compare(kitchen->workshop, id, 1, BOOK_FROM, compare, &error), &error, "Two to 4");
    free(compare);
}

/* Too stiff 31 and 4 minutes after it could be piped; used up while it still could, after 2 minutes and 10 s a piece: 21 of them 5.5,
 * 33 of them 7.5. So 31 / 5.5 = 5.64 is the most that the ratio can be, 5.5 / 4 = 1.38 the least. */
static void a_window_cut_short_is_a_bound_in_the_ratio(void **state)
{
    static const struct story quick = {46, 46, 24, 28, 2, 1, 2.90}, cut = {31, 32, 40, 0, 20, 1, 2.70},
                              cut_later = {31, 32, 40, 0, 32, 1, 2.70};
    const struct {
        const struct story *story[2];
        const char *said;
    } pair[] = {{{&cool, &quick}, "That is times 7.75;"},
                {{&cool, &cut}, "That is at most times 5.64;"},
                {{&cut, &quick}, "That is at least times 1.38;"},
                {{&cut, &cut_later}, "their ratio is not known;"}};
    struct kitchen *kitchen = *state;
    struct compare *compare = calloc(1, sizeof *compare);
    struct lw_error error = {""};

    assert_non_null(compare);
    for (size_t i = 0; i < sizeof pair / sizeof *pair; i++) {
        int64_t id[2] = {make(kitchen, pair[i].story[0]), make(kitchen, pair[i].story[1])};

        line_of(kitchen, id[1]);
        must(book_compare(kitchen->workshop, id, 2, BOOK_WINDOW, compare, &error), &error);
        if (!strstr(compare->summary, pair[i].said))
            fail_msg("\"%s\" is not in \"%s\"", pair[i].said, compare->summary);
    }
    free(compare);
}

/* The line would be a share of a degree: the figures beside each other say nothing, the count says that something differs. */
static void an_input_that_hardly_differs_is_counted_not_listed(void **state)
{
    static const struct story as_cool = {30.5, 32, 50, 70, 20, 1, 2.70};
    struct kitchen *kitchen = *state;
    struct compare *compare = calloc(1, sizeof *compare);
    int64_t id[2] = {make(kitchen, &cool), make(kitchen, &as_cool)};
    struct lw_error error = {""};

    assert_non_null(compare);
    line_of(kitchen, id[1]);
    must(book_compare(kitchen->workshop, id, 2, BOOK_FROM, compare, &error), &error);
    assert_int_equal(compare->causes, 0); /* both could be piped after 50 minutes */
    must(book_compare(kitchen->workshop, id, 2, BOOK_WINDOW, compare, &error), &error);
    assert_int_equal(compare->causes, 1);
    assert_string_equal(compare->cause[0].text, "1 differs and moves it by less than 3 in 100");
    free(compare);
}

static void a_superfat_is_explained_by_the_weighing_that_moved_it(void **state)
{
    struct kitchen *kitchen = *state;
    struct compare *compare = calloc(1, sizeof *compare);
    struct run *run[2];
    int64_t id[2];
    struct lw_error error = {""};

    assert_non_null(compare);
    for (int i = 0; i < 2; i++) {
        run[i] = kitchen_start(kitchen, BLOSSOMS);
        id[i] = run_batch(run[i])->head.id;
        while (kitchen_at(run[i])->kind != STEP_WEIGH || kitchen_at(run[i])->what.part != PART_ALKALI)
            kitchen_step(kitchen, run[i]);
        kitchen_weigh(kitchen, run[i], kitchen_asked(kitchen, run[i]).reading_ug - (i == 1 ? mass_ug(0.3) : 0));
        kitchen_until(kitchen, run[i], STEP_COMBINE);
        must(run_combine(run[i], &kitchen->now, 35, 35, &error), &error);
        must(run_save(run[i], &error), &error);
    }
    must(book_compare(kitchen->workshop, id, 2, BOOK_SUPERFAT, compare, &error), &error);
    /* s = 1 - n / D: 0.3 g of some 25.3 g less alkali is 0.3 / 25.3 * 0.95 of the demand. */
    double moved = run_charged(run[1])->margin.nominal - run_charged(run[0])->margin.nominal;

    near_to(moved,
            0.3 / mass_g(run_batch(run[0])->charges.alkali[ALKALI_NAOH].mass_ug) *
                (1 - run_charged(run[0])->margin.nominal),
            1e-9);
    assert_true(compare->causes >= 1);
    assert_non_null(strstr(compare->cause[0].text, "NaOH"));
    assert_string_equal(compare->cause[0].text, "26-002: NaOH 26.01 g, planned 26.31 g: +1.08 points");
    run_free(run[0]);
    run_free(run[1]);
    free(compare);
}

static void one_figure_against_another_with_its_line(void **state)
{
    struct kitchen *kitchen = *state;
    struct book_filter filter = {0};
    struct lw_error error = {""};
    struct points points;
    int64_t last = 0;
    struct run *run;

    for (int i = 0; i < 4; i++) {
        struct story story = cool;

        story.lye_c = story.oil_c = 30 + 4 * i;
        story.from_min = 60 - 6 * i;
        story.until_min = i < 3 ? story.until_min : 0;
        last = make(kitchen, &story);
    }
    run = kitchen_open(kitchen, make(kitchen, &warm));
    must(run_leave_out(run, &kitchen->now, "odd", &error), &error);
    must(run_save(run, &error), &error);
    run_free(run);
    run_free(kitchen_start(kitchen, BLOSSOMS));
    must(workshop_learn(kitchen->workshop, &error), &error);
    must(book_points(kitchen->workshop, &filter, BOOK_TEMP, BOOK_FROM, &points, &error), &error);
    assert_int_equal(points.n, 5);
    assert_int_equal(points.left_out, 1);
    assert_int_equal(points.without, 1);
    assert_int_equal(points.least_of, 0); /* of from nothing is a bound */
    assert_false(points.one_x);
    assert_true(points.line.known);
    assert_int_equal(points.line.n, 4); /* the one left out does not pull at it */
    near_to(points.line.slope, -1.5, 1e-9);
    near_to(points.line.at_0 + 30 * points.line.slope, 60, 1e-9);
    near_to(points.line.sd, 0, 1e-9);
    near_to(points.median_y, 51, 1e-9);
    for (int i = 1; i < points.n; i++)
        assert_true(points.x[i - 1] <= points.x[i]);
    points_free(&points);

    must(book_points(kitchen->workshop, &filter, BOOK_OILS, BOOK_WINDOW, &points, &error), &error);
    assert_int_equal(points.n, 5);
    assert_true(points.one_x); /* all of 190 g */
    assert_false(points.line.known);
    assert_int_equal(points.least_of, 1); /* the last of the four was used up while it could be piped */
    for (int i = 0; i < points.n; i++)
        assert_int_equal(points.least[i], points.id[i] == last);
    points_free(&points);
}

/* ---- learning */

static const struct lesson_pieces *petals(const struct lessons *lessons)
{
    for (int i = 0; i < lessons->pieces; i++)
        if (strcmp(lessons->piece[i].part, "petals") == 0)
            return &lessons->piece[i];
    fail_msg("nothing was learned of petals");
    return NULL;
}

static const struct plan_portion *planned_petals(struct kitchen *kitchen, struct version **version)
{
    struct run_choice choice = kitchen_choice(kitchen, BLOSSOMS);
    struct lw_error error = {""};
    bool stopped, reason;

    must(workshop_learn(kitchen->workshop, &error), &error);
    must(run_preview(kitchen->workshop, &choice, version, &stopped, &reason, &error), &error);
    return &version_document(*version)->plan->portion[0];
}

/* Welford by hand: 2.6, 2.8, 2.9 have mean 2.7666..., sd sqrt(0.0466.../2) = 0.152753. */
static void grams_a_piece_are_learned_and_the_next_plan_uses_them(void **state)
{
    static const double each[] = {2.6, 2.8, 2.9};
    struct kitchen *kitchen = *state;
    struct version *version;
    const struct plan_portion *portion = planned_petals(kitchen, &version);
    const struct learned_pieces *learned;
    struct lesson_line line[64];
    double before_until = portion->pace.until.median;
    int n;

    assert_int_equal(portion->pace.batches, 0);
    version_free(version);
    for (int i = 0; i < 3; i++) {
        struct story story = cool;

        story.each_g = each[i];
        make(kitchen, &story);
    }
    portion = planned_petals(kitchen, &version);
    learned = &petals(workshop_lessons(kitchen->workshop))->learned;
    assert_int_equal(learned->weighed, 3);
    near_to(learned->mass_g, 8.3 / 3, 1e-5);
    near_to(learned->between_g, 0.152753, 1e-5);
    assert_int_equal(portion->pieces.mass_batches, 3);
    near_to(portion->pieces.mass_g, learned->mass_g, 1e-12);
    assert_int_equal(portion->pace.batches, 3);
    assert_true(portion->pace.until.median != before_until);
    version_free(version);
    n = lessons_lines(workshop_lessons(kitchen->workshop), line, 64);
    assert_true(n >= 3);
    assert_non_null(strstr(line[0].name, "petals: mass a piece"));
    assert_string_equal(line[0].value, "2.77 g");
    assert_non_null(strstr(line[0].spread, "0.15 g from batch to batch"));
    assert_true(line[0].used);
    assert_int_equal(line[0].batches, 3);
}

static void a_portion_named_like_its_pieces_is_named_once(void **state)
{
    static const char *const names[][3] = {{"rosette", "rosettes", "rosette: mass a piece"},
                                           {"puck", "Puck", "puck: mass a piece"},
                                           {"leaf", "leaves", "leaf: mass a piece"},
                                           {"daisy", "daisies", "daisy: mass a piece"},
                                           {"rose", "rosettes", "rose, rosettes: mass a piece"},
                                           {"leaf", "stems", "leaf, stems: mass a piece"},
                                           {"", "s", "pieces, s: mass a piece"},
                                           {"", "petals", "pieces, petals: mass a piece"}};
    static struct lessons lessons;
    struct lesson_line line[16];

    (void)state;
    lessons.pieces = sizeof names / sizeof *names;
    for (int i = 0; i < lessons.pieces; i++) {
        strcpy(lessons.piece[i].kind, names[i][0]);
        strcpy(lessons.piece[i].part, names[i][1]);
        lessons.piece[i].learned.weighed = LEARNED_LEAST;
    }
    assert_int_equal(lessons_lines(&lessons, line, 16), lessons.pieces);
    for (int i = 0; i < lessons.pieces; i++)
        assert_string_equal(line[i].name, names[i][2]);
}

static void a_batch_left_out_teaches_nothing(void **state)
{
    struct kitchen *kitchen = *state;
    struct lw_error error = {""};
    struct run *run;
    int64_t id;

    make(kitchen, &cool);
    id = make(kitchen, &warm);
    must(workshop_learn(kitchen->workshop, &error), &error);
    assert_int_equal(petals(workshop_lessons(kitchen->workshop))->learned.weighed, 2);
    run = kitchen_open(kitchen, id);
    must(run_leave_out(run, &kitchen->now, "a new thermometer", &error), &error);
    must(run_save(run, &error), &error);
    must(workshop_learn(kitchen->workshop, &error), &error);
    assert_int_equal(petals(workshop_lessons(kitchen->workshop))->learned.weighed, 1);
    near_to(petals(workshop_lessons(kitchen->workshop))->learned.mass_g, 2.7, 1e-5);
    must(run_count_again(run, &kitchen->now, &error), &error);
    must(run_save(run, &error), &error);
    run_free(run);
    must(workshop_learn(kitchen->workshop, &error), &error);
    assert_int_equal(petals(workshop_lessons(kitchen->workshop))->learned.weighed, 2);
}

/* The plan that a batch began with is found again bit for bit, whatever is learned after. */
static void a_batch_keeps_what_it_was_taught(void **state)
{
    struct kitchen *kitchen = *state;
    struct plan *before = malloc(sizeof *before);
    struct run *run;
    int64_t id;

    assert_non_null(before);
    for (int i = 0; i < 3; i++)
        make(kitchen, i == 1 ? &warm : &cool);
    assert_int_equal(workshop_learn(kitchen->workshop, NULL), LW_OK);
    run = kitchen_start(kitchen, BLOSSOMS);
    id = run_batch(run)->head.id;
    *before = *run_planned(run)->plan;
    assert_int_equal(before->portion[0].pace.batches, 3);
    run_free(run);
    make(kitchen, &warm);
    kitchen_reopen(kitchen);
    assert_int_equal(workshop_learn(kitchen->workshop, NULL), LW_OK);
    run = kitchen_open(kitchen, id);
    assert_true(run_planned(run)->plan->portion[0].pace.until.low == before->portion[0].pace.until.low);
    assert_true(run_planned(run)->plan->portion[0].pieces.mass_g == before->portion[0].pieces.mass_g);
    assert_int_equal(run_planned(run)->plan->portion[0].batter_ug, before->portion[0].batter_ug);
    run_free(run);
    free(before);
}

static void lessons_in_disorder_are_refused(void **state)
{
    static const char *const text[] = {
        "learned_jug\n",
        "learned_jug\t3\t400\t4000000000000000\n",
        "learned_jug\t-1\t4000000000000000\t4000000000000000\n",
        "learned_jug\t3\t4000000000000000\t400000000000000g\n",
        "learned_jug\t3\t4000000000000000\t4000000000000000\tmore\n",
        "learned_pieces\tonly\n",
        "learned_from\t4000000000000000\n",
    };
    struct lessons *lessons = malloc(sizeof *lessons);
    struct lw_error error = {""};

    (void)state;
    assert_non_null(lessons);
    for (size_t i = 0; i < sizeof text / sizeof *text; i++)
        assert_int_equal(lessons_thaw(text[i], lessons, &error), LW_CORRUPT);
    assert_int_equal(lessons_thaw("mass_unit g\nlearned_jug\t3\t4000000000000000\t4000000000000000", lessons, &error),
                     LW_OK);
    assert_int_equal(lessons->jug_residue_g.batches, 3);
    assert_true(lessons->jug_residue_g.mean == 2);
    free(lessons);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_row_has_what_the_record_comes_to),
        TEST(what_was_found_in_the_jug_makes_the_row_anew),
        TEST(counts_are_those_after_lifting),
        TEST(a_reject_scraped_back_counts_nowhere),
        TEST(finished_while_still_workable_says_at_least),
        TEST(a_row_is_found_anew_when_the_record_grows),
        TEST(a_line_says_whether_its_batch_is_learned_from),
        cmocka_unit_test(what_is_typed_is_read_term_by_term),
        TEST(what_cannot_be_understood_is_told),
        cmocka_unit_test(a_term_from_a_list_is_read_back_as_it_is),
        TEST(batches_are_found_by_what_is_known_of_them),
        TEST(what_is_found_is_sorted_and_what_lacks_the_figure_left_out),
        TEST(two_batches_are_compared_and_the_warm_one_is_explained),
        TEST(a_window_cut_short_is_a_bound_in_the_ratio),
        TEST(an_input_that_hardly_differs_is_counted_not_listed),
        TEST(a_superfat_is_explained_by_the_weighing_that_moved_it),
        TEST(one_figure_against_another_with_its_line),
        TEST(grams_a_piece_are_learned_and_the_next_plan_uses_them),
        cmocka_unit_test(a_portion_named_like_its_pieces_is_named_once),
        TEST(a_batch_left_out_teaches_nothing),
        TEST(a_batch_keeps_what_it_was_taught),
        cmocka_unit_test(lessons_in_disorder_are_refused),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
