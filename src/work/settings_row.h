/* settings_row.h - the settings as rows of a name and a value in words, and back from words. */
#ifndef WORK_SETTINGS_ROW_H
#define WORK_SETTINGS_ROW_H

#include <stdbool.h>
#include <stddef.h>

#include "lyeway/settings.h"
#include "lyeway/status.h"

enum settings_kind {
    SETTING_MASS_UNIT,
    SETTING_TEMPERATURE,
    SETTING_CURRENCY,
    SETTING_MAKER,
    SETTING_ADDRESS,
    SETTING_SUPERFAT,
    SETTING_STRENGTH, /* index: purpose */
    SETTING_SCALE,    /* index: scale; one more is a new one */
    SETTING_VESSEL,   /* index: vessel; likewise */
    SETTING_BATCH_PATTERN,
    SETTING_LYE_ORDER,
    SETTING_SUPERFAT_MOST,
    SETTING_KEY /* index: key of the bench; likewise */
};

struct settings_row {
    enum settings_kind kind;
    int index;
};

enum { SETTINGS_ROWS = 64, SETTING_BYTES = 256 };

/* All rows of these settings, in the order they are shown. */
int settings_rows(const struct settings *settings, struct settings_row rows[SETTINGS_ROWS]);

void settings_row_name(const struct settings *settings, struct settings_row row, char *out, size_t size);

/* In words, as a maker would type it again: "0.01 g up to 200 g, accurate to 0.01 g, vessel 0 g". */
void settings_row_value(const struct settings *settings, struct settings_row row, char *out, size_t size);

/* How it is typed, in a sentence. */
const char *settings_row_hint(enum settings_kind kind);

/* Reads words into the settings; empty words take a scale, vessel or key out. LW_INVALID with a sentence. */
enum lw_status settings_row_read(struct settings *settings, struct settings_row row, const char *text,
                                 struct lw_error *error);

/* A row with only a few values goes to the next one; false for others. */
bool settings_row_next(struct settings *settings, struct settings_row row);

#endif
