/* windows.h - two windows on one recipe of one file: an editor and a store of its own each. */
#ifndef WORK_TESTS_WINDOWS_H
#define WORK_TESTS_WINDOWS_H

#include "support/scratch.h"
#include "work/editor.h"

struct windows {
    struct scratch *scratch;
    struct shelf shelf; /* empty */
    struct settings settings;
    int64_t id;
    struct store *store[2];
    struct editor *editor[2];
    struct recipe first; /* as it was opened */
};

/* With the recipe of table.h. As cmocka wants them: *state becomes a struct windows. */
int windows_set_up(void **state);
int windows_tear_down(void **state);

/* The editor holds these very bytes. */
void recipe_is(const struct editor *editor, const struct recipe *recipe);

/* The draft in the file. */
void load_draft(struct windows *windows, struct recipe *recipe);

/* The test fails where the change cannot be made, or what waits cannot be saved at once. */
void editor_applies(struct editor *editor, const struct change *change);
void editor_saves(struct windows *windows, struct editor *editor);

struct change superfat_change(const struct editor *editor, double share);
struct change new_oil_change(const struct editor *editor, int index, const char *name);
struct change removed_oil_change(const struct editor *editor, int index);

/* Applies one step of several random changes. */
void random_walk(struct chance *chance, struct editor *editor);

#endif
