/* measure.c - medians of interleaved rounds, by the steady clock. */
#include "bench/measure.h"

#include <stdlib.h>
#include <time.h>

enum { ROUNDS = 60, WARM_UP = 10 };

static double now_us(void)
{
    struct timespec now;

    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec * 1e6 + (double)now.tv_nsec / 1e3;
}

static double once_us(const struct work *work)
{
    double begin = now_us();

    work->run(work->context, work->times);
    return (now_us() - begin) / (double)work->times;
}

static int by_value(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

double measure_median(double value[], size_t n)
{
    qsort(value, n, sizeof value[0], by_value);
    return (value[(n - 1) / 2] + value[n / 2]) / 2;
}

struct ratio measure(const struct work *subject, const struct work *floor)
{
    double of_subject[ROUNDS], of_floor[ROUNDS];

    for (int i = -WARM_UP; i < ROUNDS; i++) {
        double a = once_us(subject), b = once_us(floor);
        if (i >= 0) {
            of_subject[i] = a;
            of_floor[i] = b;
        }
    }
    struct ratio result = {.subject_us = measure_median(of_subject, ROUNDS),
                           .floor_us = measure_median(of_floor, ROUNDS)};
    result.ratio = result.subject_us / result.floor_us;
    return result;
}
