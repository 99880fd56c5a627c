/* top.h - the screens that number keys lead to, and the actions that all of them share. */
#ifndef SCREENS_TOP_H
#define SCREENS_TOP_H

#include "ui/kit/desk.h"
#include "work/workshop.h"

/* What every top-level screen's state begins with. */
struct top {
    struct desk *desk;
    struct workshop *workshop;
    bool demo;
};

/* Leaves for another top-level screen if the key is its number, or asks to leave the program on q. True if it was such a key. */
bool top_key(struct top *top, const struct key *key);

void today_open(const struct top *top);
void recipes_open(const struct top *top);
void settings_open(const struct top *top);

/* Opens a recipe and says so if it cannot be. */
void top_open_recipe(const struct top *top, int64_t id);

/* Makes a recipe of that name and opens it. */
void top_new_recipe(const struct top *top, const char *name);

#endif
