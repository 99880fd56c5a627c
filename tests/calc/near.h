/* near.h - cmocka with all that it wants included before it, and the closeness of doubles. */
#ifndef TESTS_CALC_NEAR_H
#define TESTS_CALC_NEAR_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "../near.h"

#endif
