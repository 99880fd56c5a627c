/* safety.h - the notes that stand wherever lye is worked with: sheet, bench, first aid. Whole sentences, NULL-ended lists. */
#ifndef BASE_SAFETY_H
#define BASE_SAFETY_H

const char *const *safety_notes(void);     /* for working with lye and powders */
const char *const *safety_first_aid(void); /* on skin, in an eye, swallowed, breathed in */
const char *const *safety_limits(void);    /* slips to look out for, and what the program does not say */

#endif
