/* settings_store.c - settings by name, scales and vessels in their order. */
#include "store/settings_store.h"

#include <string.h>

#include "store/member.h"

static const char *const mass_unit[] = {"g", "oz", "lb"};
static const struct member_words mass_units = {3, mass_unit};

#define TEXT(name)                                                                               \
    {                                                                                            \
        MEMBER_TEXT, offsetof(struct settings, name), sizeof(((struct settings *)0)->name), NULL \
    }
#define REAL(name)                                            \
    {                                                         \
        MEMBER_REAL, offsetof(struct settings, name), 0, NULL \
    }

/* The single values, by the keys they have in the store. */
static const struct {
    const char *key;
    struct member member;
} values[] = {
    {"mass_unit", {MEMBER_WORD, offsetof(struct settings, mass_unit), 0, &mass_units}},
    {"fahrenheit", {MEMBER_BOOL, offsetof(struct settings, fahrenheit), 0, NULL}},
    {"currency", TEXT(currency)},
    {"maker_name", TEXT(maker_name)},
    {"maker_address", TEXT(maker_address)},
    {"tour_seen", {MEMBER_BOOL, offsetof(struct settings, tour_seen), 0, NULL}},
    {"skin_superfat", REAL(purpose[PURPOSE_SKIN].superfat)},
    {"skin_strength", REAL(purpose[PURPOSE_SKIN].water_strength)},
    {"shaving_superfat", REAL(purpose[PURPOSE_SHAVING].superfat)},
    {"shaving_strength", REAL(purpose[PURPOSE_SHAVING].water_strength)},
    {"cleaning_superfat", REAL(purpose[PURPOSE_CLEANING].superfat)},
    {"cleaning_strength", REAL(purpose[PURPOSE_CLEANING].water_strength)},
    {"liquid_superfat", REAL(purpose[PURPOSE_LIQUID].superfat)},
    {"liquid_strength", REAL(purpose[PURPOSE_LIQUID].water_strength)},
};
enum { VALUES = sizeof values / sizeof *values };

static const struct member scale_member[] = {
    {MEMBER_TEXT, offsetof(struct scale, name), LW_NAME_BYTES, NULL},
    {MEMBER_INT64, offsetof(struct scale, division_ug), 0, NULL},
    {MEMBER_INT64, offsetof(struct scale, capacity_ug), 0, NULL},
    {MEMBER_INT64, offsetof(struct scale, accuracy_ug), 0, NULL},
    {MEMBER_INT64, offsetof(struct scale, vessel_ug), 0, NULL},
};
static const struct members scale_members = {scale_member, sizeof scale_member / sizeof *scale_member};

static const struct member vessel_member[] = {
    {MEMBER_TEXT, offsetof(struct vessel, name), LW_NAME_BYTES, NULL},
    {MEMBER_INT64, offsetof(struct vessel, empty_ug), 0, NULL},
};
static const struct members vessel_members = {vessel_member, sizeof vessel_member / sizeof *vessel_member};

static enum lw_status read_value(struct store *store, int i, struct settings *settings, bool *found,
                                 struct lw_error *error)
{
    const struct members one = {&values[i].member, 1};
    struct query query;

    query_begin(&query, store, SQL_SETTING_SELECT);
    query_bind_text(&query, values[i].key);
    *found = query_row(&query);
    if (*found)
        members_read(&query, &one, settings);
    return query_end(&query, error);
}

/* Rows of a list, each with its position first. */
static enum lw_status read_list(struct store *store, enum sql sql, const struct members *members, void *first,
                                size_t size, int most, int *count, struct lw_error *error)
{
    struct query query;

    *count = 0;
    query_begin(&query, store, sql);
    while (query_row(&query)) {
        if (query_int(&query) != *count || *count == most) {
            query_corrupt(&query);
            break;
        }
        members_read(&query, members, (char *)first + (size_t)*count * size);
        (*count)++;
    }
    return query_end(&query, error);
}

static enum lw_status read_all(struct store *store, struct settings *settings, struct lw_error *error)
{
    struct settings read;
    bool found = false, any = false;
    enum lw_status status = LW_OK;

    settings_common(&read);
    for (int i = 0; i < VALUES && status == LW_OK; i++) {
        status = read_value(store, i, &read, &found, error);
        any = any || found;
    }
    /* Nothing was ever saved: the scales of common practice stand too. */
    if (status != LW_OK || !any) {
        *settings = read;
        return status;
    }
    memset(read.scale, 0, sizeof read.scale);
    status = read_list(store, SQL_BENCH_SCALE_SELECT, &scale_members, read.scale, sizeof read.scale[0], RECIPE_SCALES,
                       &read.scales, error);
    if (status == LW_OK)
        status = read_list(store, SQL_VESSEL_SELECT, &vessel_members, read.vessel, sizeof read.vessel[0],
                           SETTINGS_VESSELS, &read.vessels, error);
    *settings = read;
    return status;
}

enum lw_status settings_load(struct store *store, struct settings *settings, struct lw_error *error)
{
    enum lw_status status = store_read_begin(store, error);

    if (status != LW_OK)
        return status;
    return store_read_end(store, read_all(store, settings, error), error);
}

static enum lw_status delete_all(struct store *store, struct lw_error *error)
{
    static const enum sql deletes[] = {SQL_SETTING_DELETE, SQL_BENCH_SCALE_DELETE, SQL_VESSEL_DELETE};
    enum lw_status status = LW_OK;

    for (size_t i = 0; i < sizeof deletes / sizeof *deletes && status == LW_OK; i++) {
        struct query query;

        query_begin(&query, store, deletes[i]);
        status = query_run(&query, error);
    }
    return status;
}

static enum lw_status write_value(struct store *store, int i, const struct settings *settings, struct lw_error *error)
{
    const struct members one = {&values[i].member, 1};
    struct query query;

    query_begin(&query, store, SQL_SETTING_INSERT);
    query_bind_text(&query, values[i].key);
    members_bind(&query, &one, settings);
    return query_run(&query, error);
}

static enum lw_status write_list(struct store *store, enum sql sql, const struct members *members, const void *first,
                                 size_t size, int count, struct lw_error *error)
{
    enum lw_status status = LW_OK;

    for (int i = 0; i < count && status == LW_OK; i++) {
        struct query query;

        query_begin(&query, store, sql);
        query_bind_int(&query, i);
        members_bind(&query, members, (const char *)first + (size_t)i * size);
        status = query_run(&query, error);
    }
    return status;
}

static enum lw_status write_all(struct store *store, const struct settings *settings, struct lw_error *error)
{
    enum lw_status status = delete_all(store, error);

    for (int i = 0; i < VALUES && status == LW_OK; i++)
        status = write_value(store, i, settings, error);
    if (status == LW_OK)
        status = write_list(store, SQL_BENCH_SCALE_INSERT, &scale_members, settings->scale, sizeof settings->scale[0],
                            settings->scales, error);
    if (status == LW_OK)
        status = write_list(store, SQL_VESSEL_INSERT, &vessel_members, settings->vessel, sizeof settings->vessel[0],
                            settings->vessels, error);
    return status;
}

enum lw_status settings_save(struct store *store, const struct settings *settings, struct lw_error *error)
{
    enum lw_status status = store_begin(store, error);

    if (status != LW_OK)
        return status;
    return store_end(store, write_all(store, settings, error), error);
}
