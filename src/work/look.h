/* look.h - colours in words, so that nobody has to see one: "pale pink"; and how a portion looks, now and later.
 *
 * A hint, and it says so: a screen's colours are judged by eye (calculations, section 17).
 */
#ifndef WORK_LOOK_H
#define WORK_LOOK_H

#include <stddef.h>

#include "lyeway/plan.h"

/* What most people would call that colour, 0xRRGGBB in sRGB, in one to three words: "cream", "pale pink", "grey-green". The bounds
 * between names are the program's own, by hue, lightness and colourfulness. */
const char *look_word(unsigned rgb);

/* "hint: pale pink"; where a colourant shifts, what it looks like now and what becomes of it: "hint: red-brown now, comes back to yellow by about day 3". Where the colour is not known, that. */
void look_of_portion(const struct plan_input *input, const struct plan *plan, int portion, char *out, size_t size);

#endif
