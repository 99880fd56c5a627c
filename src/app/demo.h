/* demo.h - the demo scenario, built into the program from sample-data/ so that it is there wherever the program is. */
#ifndef APP_DEMO_H
#define APP_DEMO_H

#include <stddef.h>

/* Where the demo's records were made ready on: the first second of 2026-05-28 UTC. Dates of the demo are so many days before or after
 * this one, which becomes today when the demo is opened; what is on its bench was said last at this second, which becomes now. */
#define DEMO_DAY_S 1779926400

/* Bytes of a store that the recipes of sample-data were brought into and its batches made in; *n of them. */
const char *demo_store(size_t *n);

#endif
