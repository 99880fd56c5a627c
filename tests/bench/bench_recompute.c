/* bench_recompute.c - a whole plan against the least that it could cost: the weighted sums of the fatty acids alone.
 *
 * The recipe is as large as a real one gets: 12 oils, 8 portions with colour, 4 fragrances. The targets are 20 times the floor,
 * 10 microseconds, and no allocation.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench/measure.h"
#include "lyeway/facts.h"
#include "lyeway/plan.h"

enum { OILS = 12, PORTIONS = 8, SCENTS = 4, BOUNDS = 3 };
static const double ratio_most = 20, most_us = 10;

struct subject {
    struct recipe recipe;
    struct recipe_facts facts;
    struct bench bench;
    struct plan plan;
};

/* The floor's own numbers, so that it depends on nothing. */
struct sums {
    double share[OILS], acid[OILS][ACIDS][BOUNDS], sum[ACIDS][BOUNDS];
};

static void need(int found, int wanted, const char *what)
{
    if (found >= wanted)
        return;
    fprintf(stderr, "The reference has %d %s, the benchmark needs %d.\n", found, what, wanted);
    exit(1);
}

static void add_oils(struct subject *subject)
{
    struct recipe *recipe = &subject->recipe;
    size_t rows;
    const struct oil_fact *oil = facts_oils(&rows);

    for (size_t i = 0; i < rows && recipe->oils < OILS; i++) {
        if (!oil[i].has_acids)
            continue;
        recipe->oil[recipe->oils] = (struct recipe_oil){.id = (uint32_t)recipe->oils + 1, .amount = 1.0 / OILS};
        snprintf(recipe->oil[recipe->oils].name, LW_NAME_BYTES, "%s", oil[i].key);
        subject->facts.oil[recipe->oils++] = &oil[i];
    }
    need(recipe->oils, OILS, "oils with fatty acids");
}

static void add_fragrances(struct subject *subject)
{
    struct recipe *recipe = &subject->recipe;
    size_t rows;
    const struct fragrance_fact *fragrance = facts_fragrances(&rows);

    for (size_t i = 0; i < rows && recipe->fragrances < SCENTS; i++) {
        if (fragrance[i].constituents == 0)
            continue;
        recipe->fragrance[recipe->fragrances] = (struct recipe_fragrance){
            .id = (uint32_t)recipe->fragrances + 1, .by = FRAGRANCE_OF_OILS, .value = 0.005};
        snprintf(recipe->fragrance[recipe->fragrances].name, LW_NAME_BYTES, "%s", fragrance[i].key);
        subject->facts.fragrance[recipe->fragrances++] = &fragrance[i];
    }
    need(recipe->fragrances, SCENTS, "fragrances with constituents");
}

static void add_portions(struct subject *subject)
{
    struct recipe *recipe = &subject->recipe;
    size_t rows;
    const struct colourant_fact *colourant = facts_colourants(&rows);

    need((int)rows, PORTIONS, "colourants");
    for (size_t i = 0; i < PORTIONS; i++) {
        struct recipe_portion *portion = &recipe->portion[recipe->portions++];
        portion->id = (uint32_t)i + 1;
        portion->demand = i == 0 ? DEMAND_REST : DEMAND_SHARE;
        portion->amount = i == 0 ? 0 : 0.1;
        portion->scented = true;
        portion->technique = TECHNIQUE_SWIRL;
        portion->colourants = 1;
        portion->colourant[0] = (struct recipe_colourant){.id = 1, .by = COLOUR_PER_KG_OILS, .value = 4};
        subject->facts.colourant[i][0] = &colourant[i];
    }
}

static void make_recipe(struct subject *subject)
{
    struct recipe *recipe = &subject->recipe;

    memset(subject, 0, sizeof *subject);
    recipe->oils_by = OILS_BY_SHARE;
    recipe->size = (struct recipe_size){.by = SIZE_OILS, .grams = 1000};
    recipe->superfat = 0.05;
    recipe->water = (struct recipe_water){.by = WATER_STRENGTH, .value = 0.33, .temp_c = 20};
    add_oils(subject);
    add_fragrances(subject);
    add_portions(subject);
    subject->bench = plan_bench_common();
}

static void recompute(void *context, size_t times)
{
    struct subject *subject = context;
    const struct plan_input in = {&subject->recipe, &subject->facts, facts_reference(), &subject->bench};

    for (size_t i = 0; i < times; i++)
        plan_compute(&in, &subject->plan);
}

static void make_sums(struct sums *sums)
{
    unsigned seed = 1;

    for (size_t oil = 0; oil < OILS; oil++) {
        sums->share[oil] = 1.0 / OILS;
        for (size_t acid = 0; acid < ACIDS; acid++) {
            for (size_t bound = 0; bound < BOUNDS; bound++) {
                seed = seed * 1103515245U + 12345U;
                sums->acid[oil][acid][bound] = (double)(seed >> 16) / 65536;
            }
        }
    }
}

static void add_up(void *context, size_t times)
{
    struct sums *sums = context;

    for (size_t i = 0; i < times; i++) {
        memset(sums->sum, 0, sizeof sums->sum);
        for (size_t oil = 0; oil < OILS; oil++) {
            for (size_t acid = 0; acid < ACIDS; acid++) {
                for (size_t bound = 0; bound < BOUNDS; bound++)
                    sums->sum[acid][bound] += sums->share[oil] * sums->acid[oil][acid][bound];
            }
        }
        /* The next time counts on this one, so that none is left out. */
        sums->share[i % OILS] += sums->sum[i % ACIDS][0] * 1e-18;
    }
}

int main(void)
{
    static struct subject subject;
    static struct sums sums;

    make_recipe(&subject);
    make_sums(&sums);
    recompute(&subject, 1);
    if (!subject.plan.split_valid || subject.plan.portions != PORTIONS) {
        fprintf(stderr, "The plan that is measured is not a whole one.\n");
        return 1;
    }

    size_t before = allocations();
    struct ratio result = measure(&(struct work){recompute, &subject, 100}, &(struct work){add_up, &sums, 3000});
    size_t allocated = allocations() - before;

    printf(
        "recompute a plan: %.2f us, floor %.3f us, ratio %.1f (at most %.0f, and %.0f us), allocations %zu (none)%s\n",
        result.subject_us, result.floor_us, result.ratio, ratio_most, most_us, allocated,
        result.ratio > ratio_most || result.subject_us > most_us ? "  MISSED" : "");
    return allocated == 0 ? 0 : 1;
}
