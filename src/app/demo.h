/* demo.h - the demo scenario, built into the program from sample-data/ so that it is there wherever the program is. */
#ifndef APP_DEMO_H
#define APP_DEMO_H

#include <stddef.h>

/* Bytes of sample-data/recipes.json; *n of them, and a NUL behind. */
const char *demo_recipes(size_t *n);

#endif
