/* top.c - going from one top-level screen to another. */
#include "ui/screens/top.h"

#include "ui/screens/recipe/recipe.h"

bool top_key(struct top *top, const struct key *key)
{
    struct top copy = *top; /* a screen that is left takes its own with it */

    if (key_is(key, '1'))
        desk_switch(copy.desk, NULL, NULL);
    else if (key_is(key, '2'))
        recipes_open(&copy);
    else if (key_is(key, '3'))
        bench_open(&copy, 0);
    else if (key_is(key, '4'))
        book_open(&copy);
    else if (key_is(key, 'S'))
        settings_open(&copy);
    else if (key_is(key, 'q') || key_named(key, "Ctrl-c"))
        desk_leave(copy.desk);
    else
        return false;
    return true;
}

void top_read_board(const struct top *top)
{
    struct lw_now now = workshop_now(top->workshop);
    struct lw_error error = {""};

    if (board_read(&top->running->board, top->workshop, &now, &error) != LW_OK)
        desk_say(top->desk, STYLE_STOP, "%s", error.text);
}

void top_open_recipe(const struct top *top, int64_t id)
{
    struct lw_error error = {""};

    if (recipe_screen_open(top, id, &error) != LW_OK)
        desk_say(top->desk, STYLE_STOP, "%s", error.text);
}

void top_open_findings(const struct top *top, int64_t id)
{
    struct lw_error error = {""};

    if (recipe_screen_open_findings(top, id, &error) != LW_OK)
        desk_say(top->desk, STYLE_STOP, "%s", error.text);
}

void top_new_recipe(const struct top *top, const char *name)
{
    struct lw_now now = workshop_now(top->workshop);
    struct recipe recipe;
    struct lw_error error = {""};
    int64_t id;

    workshop_new_recipe(top->workshop, name, &recipe);
    if (recipes_create(workshop_store(top->workshop), &recipe, &now, &id, &error) != LW_OK) {
        desk_say(top->desk, STYLE_STOP, "%s", error.text);
        return;
    }
    top_open_recipe(top, id);
}
