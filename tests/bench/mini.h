/* mini.h - the least that a full-screen program can do: the floor that the workbench is compared with. */
#ifndef BENCH_MINI_H
#define BENCH_MINI_H

/* Fills the screen with the lines of the file by plain ncurses, one of them marked; Down and Up move the mark and paint all anew, as
 * simple programs do; q ends it. Returns the exit status. */
int mini_run(const char *file);

#endif
