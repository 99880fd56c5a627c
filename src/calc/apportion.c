/* apportion.c - the largest-remainder method on whole divisions. */
#include "calc/apportion.h"

#include <math.h>
#include <stdbool.h>

/* Remainders are compared in steps of a thousand-millionth of a division and weights in steps of a million-millionth of
 * their sum: closer ones are a tie, so that the noise of floating point does not decide where the rule should. */
#define REMAINDER_STEPS 1e9
#define WEIGHT_STEPS    1e12

struct claim {
    size_t part;
    int64_t weight, divisions, remainder;
};

static bool weights_usable(size_t n, const double weight[], double *sum)
{
    *sum = 0;
    for (size_t i = 0; i < n; i++) {
        if (!(weight[i] >= 0))
            return false;
        *sum += weight[i];
    }
    return *sum > 0 && isfinite(*sum);
}

/* Gives each part the whole divisions of its exact share and notes the remainder. Returns what was given in all. */
static int64_t grant_floors(size_t n, const double weight[], double sum, int64_t divisions, struct claim claim[])
{
    int64_t granted = 0;

    for (size_t i = 0; i < n; i++) {
        double share = weight[i] / sum * (double)divisions;
        double whole = floor(share);

        claim[i] = (struct claim){i, llround(weight[i] / sum * WEIGHT_STEPS), (int64_t)whole,
                                  llround((share - whole) * REMAINDER_STEPS)};
        granted += claim[i].divisions;
    }
    return granted;
}

static bool goes_before(const struct claim *a, const struct claim *b)
{
    if (a->remainder != b->remainder)
        return a->remainder > b->remainder;
    if (a->weight != b->weight)
        return a->weight > b->weight;
    return a->part < b->part;
}

static void sort_by_remainder(size_t n, struct claim claim[])
{
    for (size_t i = 1; i < n; i++) {
        struct claim moved = claim[i];
        size_t at = i;

        for (; at > 0 && goes_before(&moved, &claim[at - 1]); at--)
            claim[at] = claim[at - 1];
        claim[at] = moved;
    }
}

enum lw_status apportion(size_t n, const double weight[], int64_t whole_ug, int64_t division_ug, int64_t part_ug[])
{
    struct claim claim[APPORTION_MAX] = {0};
    double sum;

    if (n > APPORTION_MAX)
        return LW_FULL;
    if (division_ug <= 0 || whole_ug < 0 || whole_ug % division_ug != 0 || !weights_usable(n, weight, &sum))
        return LW_INVALID;

    int64_t divisions = whole_ug / division_ug;
    int64_t left = divisions - grant_floors(n, weight, sum, divisions, claim);

    sort_by_remainder(n, claim);
    for (size_t i = 0; left > 0; i = (i + 1) % n, left--)
        claim[i].divisions++;
    /* Beyond 2^53 divisions a double no longer counts by ones and the floors can come out too large. */
    for (size_t i = 0; left < 0; i = (i + 1) % n)
        if (claim[i].divisions > 0) {
            claim[i].divisions--;
            left++;
        }
    for (size_t i = 0; i < n; i++)
        part_ug[claim[i].part] = claim[i].divisions * division_ug;
    return LW_OK;
}
