/* after.h - runs while building: what the invented maker says of a batch when it is made, and in the weeks after. */
#ifndef GENERATE_AFTER_H
#define GENERATE_AFTER_H

#include "maker.h"

/* The closing questions. */
void after_answers(struct maker *maker, struct run *run, enum story story);

/* Residues, density, cure weighings, tests, outcome and the note, up to maker->end_s. */
void after_said(struct maker *maker, struct run *run, enum story story, const char *note);

/* Pieces on the shelf now, the oldest first; how many kinds. */
int after_shelf(struct maker *maker, struct pieces_line lines[], int most);

#endif
