/* measure.h - how a benchmark compares itself with a floor that is measured in the same run.
 *
 * Rounds of the two take turns, so that whatever else the machine does falls on both; of each, the median is taken after rounds
 * that only warm up. Figures are ratios: they carry over to another machine, microseconds do not.
 */
#ifndef BENCH_MEASURE_H
#define BENCH_MEASURE_H

#include <stddef.h>

/* What is measured: does its work `times` times. */
struct work {
    void (*run)(void *context, size_t times);
    void *context;
    size_t times; /* in one round, so many that a round takes about a millisecond */
};

struct ratio {
    double subject_us, floor_us; /* medians, of doing it once */
    double ratio;
};

struct ratio measure(const struct work *subject, const struct work *floor);

/* Sorts them, n > 0, and returns the one in the middle. */
double measure_median(double value[], size_t n);

/* Calls of malloc, calloc, realloc and free by our own libraries since the program began. */
size_t allocations(void);

#endif
