/* settings_store.h - settings in the store. */
#ifndef STORE_SETTINGS_STORE_H
#define STORE_SETTINGS_STORE_H

#include "lyeway/settings.h"
#include "store/store.h"

/* What was never set comes from settings_common. */
enum lw_status settings_load(struct store *store, struct settings *settings, struct lw_error *error);

/* Writes all in one transaction. LW_INVALID where a value is out of its range. */
enum lw_status settings_save(struct store *store, const struct settings *settings, struct lw_error *error);

#endif
