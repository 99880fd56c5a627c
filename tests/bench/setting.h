/* setting.h - what benchmarks on a terminal share: a store with many recipes, a file with the screen that the floor fills, and opening
 * each of the programs. */
#ifndef BENCH_SETTING_H
#define BENCH_SETTING_H

#include <stdbool.h>

#include "terminal/driver.h"

enum { SETTING_PATH_BYTES = 128, SETTING_RECIPES = 2000 };

struct setting {
    char folder[SETTING_PATH_BYTES], store[SETTING_PATH_BYTES + 16], screen[SETTING_PATH_BYTES + 16];
};

enum subject { SUBJECT_LYEWAY, SUBJECT_DEMO, SUBJECT_MINI, SUBJECT_MINIDB, SUBJECTS };

struct view {
    int rows, cols;
    bool blind;
};

/* Makes the folder and what is in it, ends the program where that fails. setting_end removes it. */
void setting_begin(struct setting *setting);
void setting_end(const struct setting *setting);

/* Opens the workbench of the view and leaves its screen for the floor to fill. */
void setting_take_screen(const struct setting *setting, const struct view *view, const char *keys);

/* Started, and its first screen complete. */
struct driver *setting_open(const struct setting *setting, enum subject subject, const struct view *view);

/* Ends the program with a sentence unless `sound`. */
void setting_need(bool sound, const char *what);

#endif
