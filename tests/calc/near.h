/* near.h - compares doubles as doubles: cmocka's own comparison narrows them to float. */
#ifndef TESTS_NEAR_H
#define TESTS_NEAR_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static inline void near_at(double found, double expected, double tolerance, const char *file, int line)
{
    if (fabs(found - expected) <= tolerance)
        return;
    print_error("%.17g is not %.17g within %g\n", found, expected, tolerance);
    _fail(file, line);
}

#define assert_near(found, expected, tolerance) near_at(found, expected, tolerance, __FILE__, __LINE__)

#endif
