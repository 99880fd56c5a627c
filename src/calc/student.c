/* student.c - the sum of two Student variables by its moments. */
#include "calc/student.h"

static double variance(const struct student *s)
{
    return s->scale_squared * s->degrees / (s->degrees - 2.0);
}

/* The excess kurtosis of one is 6 / (degrees - 4); in a sum excesses count by the squares of the variances. */
struct student student_sum(const struct student *a, const struct student *b)
{
    double va = variance(a), vb = variance(b), v = va + vb;
    double excess = 6.0 * (va * va / (a->degrees - 4.0) + vb * vb / (b->degrees - 4.0)) / (v * v);
    double degrees = 4.0 + 6.0 / excess;

    return (struct student){a->middle + b->middle, v * (degrees - 2.0) / degrees, degrees};
}
