/* demo_image.h - the demo's records as they were made while building, opened in memory on the day of the demo. */
#ifndef WORK_TESTS_DEMO_IMAGE_H
#define WORK_TESTS_DEMO_IMAGE_H

#include "work/run.h"

/* The first second of the demo's day, when all that is on its bench was said. */
enum { DEMO_IMAGE_S = 1779926400 };

/* As cmocka wants its setup and teardown: *state becomes a struct workshop, which has learned of its book. */
int demo_image_setup(void **state);
int demo_image_teardown(void **state);

/* The batch of that number; the test fails where there is none. To be freed by run_free. */
struct run *demo_image_run(struct workshop *workshop, const char *number);

#endif
