/* near.h - closeness of two doubles for tests; cmocka's own comparison is one of floats. Include after cmocka.h. */
#ifndef TESTS_NEAR_H
#define TESTS_NEAR_H

#include <math.h>

static inline void near_check(double value, double expected, double tolerance, const char *file, int line)
{
    if (fabs(value - expected) <= tolerance)
        return;
    print_error("%.10g is not within %g of %.10g\n", value, tolerance, expected);
    _fail(file, line);
}

#define assert_near(value, expected, tolerance) near_check(value, expected, tolerance, __FILE__, __LINE__)

#endif
