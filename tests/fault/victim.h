/* victim.h - a program that is killed while it works. */
#ifndef FAULT_VICTIM_H
#define FAULT_VICTIM_H

#include "support/random_recipe.h"

enum { VICTIM_ROUNDS = 25, VICTIM_ROUNDS_MOST = 20 /* times as many */, VICTIM_LEAST_MS = 2, VICTIM_MORE_MS = 40 };

/* How often to do it: VICTIM_ROUNDS, or what LYEWAY_TORTURE says. */
int victim_rounds(void);

/* Whether there is to be another round: until all that were asked are over, and on a busy machine on until as much was done
 * (`done` numbers told so far). */
bool victim_goes_on(int round, int done);

/* Waits up to `most` milliseconds, at random. */
void victim_wait(struct chance *chance, int least_ms, int most_ms);

/* Runs `work` in a child, which goes on without end and tells each number that is done by writing it to `acknowledge`, and kills it
 * at a random moment. Returns the last number told, `last` where there was none; the test fails where it stopped by itself. */
int victim_kill(struct chance *chance, void (*work)(void *context, int acknowledge), void *context, int last);

/* In the child: tells `number`; false where nobody hears it. */
bool victim_tell(int acknowledge, int number);

#endif
