/* shell.h - the workbench: top-level screens under number keys, the frame's timers, and what is saved when. */
#ifndef SCREENS_SHELL_H
#define SCREENS_SHELL_H

#include "work/workshop.h"

struct shell_options {
    bool colour;
    bool demo; /* the tour is shown on Today */
};

/* Runs the workbench on the terminal until the maker leaves. Returns 0, or the signal that ended it; LW_NOT_FOUND where there is
 * no terminal to run on. */
enum lw_status shell_run(struct workshop *workshop, const struct shell_options *options, int *ended_by,
                         struct lw_error *error);

#endif
