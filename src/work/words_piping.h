/* words_piping.h - the lines of the bench while pieces are piped, in the maker's units. */
#ifndef WORK_WORDS_PIPING_H
#define WORK_WORDS_PIPING_H

#include "calc/piping.h"
#include "lyeway/document.h"

enum { PIPING_LINE_BYTES = 160 };

struct piping_words {
    char left[PIPING_LINE_BYTES]; /* "left in the bag about 36 g: 9 more" */
    /* "workable for 14 to 40 more minutes (8 times in 10)": how far it may differ from the clock, which runs on by what was foreseen at
     * the last stamp. */
    char workable[PIPING_LINE_BYTES];
    char need[PIPING_LINE_BYTES]; /* "13 more take about 9"; "" where none is to go */
    char help
        [PIPING_LINE_BYTES]; /* "four short: scrape rejects back (+2) and 2.2 g each (+2) / dress 20 bars"; "" where it is enough.
                                         A second batter is named too where
                                         the pieces that the others bring are fewer than are missing. */
};

/* Masses of which a maker reads the scale are rounded to what helps; a mass a piece is rounded down, so that it is enough. */
void words_of_piping(const struct piping *piping, const struct piping_help *help, enum mass_unit unit,
                     struct piping_words *words);

/* "petals: (163.83 filled - 7 cup and squeeze - 12.5 in 1 bag - 43.5 left) / 43 made = 2.64 g": how a mass a piece comes about, without the bags
 * where none was emptied. In grams, as the book has that mass; each term to 0.01 g, 0 at its end left out. */
void words_of_own_mass(const struct piping_terms *terms, const char *part, char *out, size_t size);

#endif
