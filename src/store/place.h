/* place.h - files and folders around a store, without SQLite. */
#ifndef STORE_PLACE_H
#define STORE_PLACE_H

#include <stdbool.h>
#include <stdint.h>

#include "lyeway/status.h"

enum place_kind { PLACE_MISSING, PLACE_FOLDER, PLACE_FILE, PLACE_OTHER };

struct place {
    enum place_kind kind;
    int64_t bytes; /* of a file */
};

/* What stands at the path, by looking only: nothing is opened. LW_IO where it is not allowed to look. */
enum lw_status place_look(const char *path, struct place *place, struct lw_error *error);

/* A new string "path" + suffix; NULL without memory. To be freed. */
char *place_beside(const char *path, const char *suffix);

/* The same with "-2", "-3" ... behind it if something stands there already, so that no older copy is lost. */
char *place_free_beside(const char *path, const char *suffix);

/* Something that is not empty stands at path + suffix. */
bool place_has_beside(const char *path, const char *suffix);

/* LW_IO unless files can be made in the folder of the path. */
enum lw_status place_folder_writable(const char *path, struct lw_error *error);

/* Makes the folders above the path that are missing, for the maker alone (0700). */
enum lw_status place_make_folders(const char *path, struct lw_error *error);

/* Makes an empty file for the maker alone (0600); one that is there stays as it is. */
enum lw_status place_make_file(const char *path, struct lw_error *error);

/* Makes a new empty file (0600) beside the path under a name that nobody has; *name is to be freed. */
enum lw_status place_make_temporary(const char *path, char **name, struct lw_error *error);

/* Sees that the bytes of a file outlast a power cut. */
enum lw_status place_sync_file(const char *path, struct lw_error *error);

/* Copies the bytes of a file into one that is there, and sees that they last. */
enum lw_status place_copy(const char *from, const char *to, struct lw_error *error);

/* Puts `from` at `to` in one step, replacing what is there, and sees that this outlasts a power cut. */
enum lw_status place_move(const char *from, const char *to, struct lw_error *error);

#endif
