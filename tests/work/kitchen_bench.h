/* kitchen_bench.h - a workshop on the demo's recipes, and a clock that only moves when told. */
#ifndef WORK_TESTS_KITCHEN_BENCH_H
#define WORK_TESTS_KITCHEN_BENCH_H

#include "support/scratch.h"
#include "work/run.h"

struct kitchen {
    struct scratch *scratch;
    struct workshop *workshop;
    struct lw_now now;
};

/* As cmocka wants its setup and teardown: *state becomes a struct kitchen with the demo's recipes in it. */
int kitchen_setup(void **state);
int kitchen_teardown(void **state);

/* Closes the records and opens them again, as after the program was ended. */
void kitchen_reopen(struct kitchen *kitchen);

void kitchen_wait(struct kitchen *kitchen, int seconds);

/* Starts the recipe of that name as it is, with no vessel chosen, and opens the batch; the test fails where that fails. */
struct run *kitchen_start(struct kitchen *kitchen, const char *name);
struct run *kitchen_open(struct kitchen *kitchen, int64_t id);

/* The choice that kitchen_start begins with. */
struct run_choice kitchen_choice(struct kitchen *kitchen, const char *name);

/* Does the step at hand as the plan wants it, whatever it is. */
void kitchen_step(struct kitchen *kitchen, struct run *run);

/* Goes on like that until a step of that kind is at hand; the test fails where none comes. */
void kitchen_until(struct kitchen *kitchen, struct run *run, enum step_kind kind);

/* The step at hand. */
const struct step *kitchen_at(const struct run *run);

/* Both stand at the same: steps, charges, times, pieces, timers, margin; by members, since what lies between them is nothing. */
void kitchen_same(const struct run *one, const struct run *two);

/* Types a reading at the step at hand. */
void kitchen_weigh(struct kitchen *kitchen, struct run *run, int64_t reading_ug);

#endif
