/* top.h - the screens that number keys lead to, and the actions that all of them share. */
#ifndef SCREENS_TOP_H
#define SCREENS_TOP_H

#include "ui/kit/desk.h"
#include "work/board.h"
#include "work/workshop.h"

/* The batches on the bench, as all screens know them. */
struct running {
    struct board board;
    int64_t last; /* the batch that was on the screen last; 0: none */
};

/* What every top-level screen's state begins with. */
struct top {
    struct desk *desk;
    struct workshop *workshop;
    bool demo;
    struct running *running; /* the shell's */
};

/* Leaves for another top-level screen if the key is its number, or asks to leave the program on q. True if it was such a key. */
bool top_key(struct top *top, const struct key *key);

void today_open(const struct top *top);
void recipes_open(const struct top *top);
void book_open(const struct top *top);
void settings_open(const struct top *top);

/* Opens the bench on that batch; 0: the one that was on it last. */
void bench_open(const struct top *top, int64_t batch);

/* Opens the record of a batch: what was planned and done, and what is said of it after. */
void batch_open(const struct top *top, int64_t batch);

/* Asks how a batch of the recipe is to be made, and starts it. revision 0: the recipe as it is now. */
void start_open(const struct top *top, int64_t recipe, int revision);

/* Reads the batches and timers anew; says so if it cannot. */
void top_read_board(const struct top *top);

/* Opens a recipe and says so if it cannot be. */
void top_open_recipe(const struct top *top, int64_t id);

/* Likewise, with its findings listed over it, the worst one marked. */
void top_open_findings(const struct top *top, int64_t id);

/* Makes a recipe of that name and opens it. */
void top_new_recipe(const struct top *top, const char *name);

#endif
