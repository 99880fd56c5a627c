/* settings_store.c - settings as rows by name. What a row does not say stays as common practice has it. */
#include "store/settings_store.h"

#include <string.h>

#include "base/error.h"
#include "store/member.h"

/* clang-format off */
#define COUNT(array) ((int)(sizeof(array) / sizeof(array)[0]))
#define TEXT(member) {MEMBER_TEXT, offsetof(struct settings, member), sizeof(((struct settings *)0)->member), NULL}
#define REAL(member) {MEMBER_REAL, offsetof(struct settings, member), 0, NULL}
#define BOOL(member) {MEMBER_BOOL, offsetof(struct settings, member), 0, NULL}
/* clang-format on */

static const char *const unit[] = {[MASS_G] = "g", [MASS_OZ] = "oz", [MASS_LB] = "lb"};
static const char *const lye_order[] = {[ORDER_DISSOLVE_FIRST] = "dissolve first", [ORDER_OILS_FIRST] = "oils first"};
static const struct member_words units = {COUNT(unit), unit}, lye_orders = {COUNT(lye_order), lye_order};

struct setting {
    const char *key;
    struct member member;
};

static const struct setting settings_table[] = {
    {"mass_unit", {MEMBER_WORD, offsetof(struct settings, mass_unit), 0, &units}},
    {"fahrenheit", BOOL(fahrenheit)},
    {"currency", TEXT(currency)},
    {"maker_name", TEXT(maker_name)},
    {"maker_address", TEXT(maker_address)},
    {"superfat:skin", REAL(purpose[PURPOSE_SKIN].superfat)},
    {"superfat:shaving", REAL(purpose[PURPOSE_SHAVING].superfat)},
    {"superfat:cleaning", REAL(purpose[PURPOSE_CLEANING].superfat)},
    {"superfat:liquid", REAL(purpose[PURPOSE_LIQUID].superfat)},
    {"water_strength:skin", REAL(purpose[PURPOSE_SKIN].water_strength)},
    {"water_strength:shaving", REAL(purpose[PURPOSE_SHAVING].water_strength)},
    {"water_strength:cleaning", REAL(purpose[PURPOSE_CLEANING].water_strength)},
    {"water_strength:liquid", REAL(purpose[PURPOSE_LIQUID].water_strength)},
    {"tour_seen", BOOL(tour_seen)},
    {"batch_pattern", TEXT(batch_pattern)},
    {"lye_order", {MEMBER_WORD, offsetof(struct settings, lye_order), 0, &lye_orders}},
    {"superfat_most", REAL(superfat_most)},
};

static const struct member scale[] = {
    {MEMBER_TEXT, offsetof(struct scale, name), LW_NAME_BYTES, NULL},
    {MEMBER_INT64, offsetof(struct scale, division_ug), 0, NULL},
    {MEMBER_INT64, offsetof(struct scale, capacity_ug), 0, NULL},
    {MEMBER_INT64, offsetof(struct scale, accuracy_ug), 0, NULL},
    {MEMBER_INT64, offsetof(struct scale, vessel_ug), 0, NULL},
};
static const struct member vessel[] = {
    {MEMBER_TEXT, offsetof(struct vessel, name), LW_NAME_BYTES, NULL},
    {MEMBER_INT64, offsetof(struct vessel, empty_ug), 0, NULL},
};
static const struct member key[] = {
    {MEMBER_TEXT, offsetof(struct bench_key, action), sizeof((struct bench_key *)0)->action, NULL},
    {MEMBER_TEXT, offsetof(struct bench_key, key), sizeof((struct bench_key *)0)->key, NULL},
};

/* A list of the settings as its own table of rows, position first. */
struct list {
    size_t count, first, size; /* offsets in struct settings; bytes of an element */
    int most;
    struct members members;
    enum sql select, insert, remove;
};

static const struct list lists[] = {
    {offsetof(struct settings, scales),
     offsetof(struct settings, scale),
     sizeof(struct scale),
     RECIPE_SCALES,
     {scale, COUNT(scale)},
     SQL_BENCH_SCALE_SELECT,
     SQL_BENCH_SCALE_INSERT,
     SQL_BENCH_SCALE_DELETE},
    {offsetof(struct settings, vessels),
     offsetof(struct settings, vessel),
     sizeof(struct vessel),
     SETTINGS_VESSELS,
     {vessel, COUNT(vessel)},
     SQL_VESSEL_SELECT,
     SQL_VESSEL_INSERT,
     SQL_VESSEL_DELETE},
    {offsetof(struct settings, keys),
     offsetof(struct settings, key),
     sizeof(struct bench_key),
     SETTINGS_KEYS,
     {key, COUNT(key)},
     SQL_BENCH_KEY_SELECT,
     SQL_BENCH_KEY_INSERT,
     SQL_BENCH_KEY_DELETE},
};

static enum lw_status load_list(struct store *store, const struct list *list, struct settings *settings,
                                struct lw_error *error)
{
    char *first = (char *)settings + list->first;
    struct query query;
    int count = 0;

    memset(first, 0, (size_t)list->most * list->size);
    query_begin(&query, store, list->select);
    while (query_row(&query)) {
        if (count >= list->most || query_int(&query) != count) {
            query_corrupt(&query);
            break;
        }
        members_read(&query, &list->members, first + (size_t)count++ * list->size);
    }
    memcpy((char *)settings + list->count, &count, sizeof count);
    return query_end(&query, error);
}

static enum lw_status load_setting(struct store *store, const struct setting *setting, struct settings *settings,
                                   bool *any, struct lw_error *error)
{
    const struct members one = {&setting->member, 1};
    struct query query;

    query_begin(&query, store, SQL_SETTING_SELECT);
    query_bind_text(&query, setting->key);
    if (query_row(&query)) {
        members_read(&query, &one, settings);
        *any = true;
    }
    return query_end(&query, error);
}

static enum lw_status load(struct store *store, struct settings *settings, struct lw_error *error)
{
    enum lw_status status = LW_OK;
    bool any = false;

    for (int i = 0; status == LW_OK && i < COUNT(settings_table); i++)
        status = load_setting(store, &settings_table[i], settings, &any, error);
    /* Settings that were saved may well have no vessel, and no scale. */
    for (int i = 0; status == LW_OK && any && i < COUNT(lists); i++)
        status = load_list(store, &lists[i], settings, error);
    return status;
}

enum lw_status settings_load(struct store *store, struct settings *settings, struct lw_error *error)
{
    enum lw_status status = store_read_begin(store, error);

    settings_common(settings);
    if (status == LW_OK)
        status = store_read_end(store, load(store, settings, error), error);
    if (status != LW_OK)
        settings_common(settings);
    return status;
}

static enum lw_status run(struct store *store, enum sql sql, struct lw_error *error)
{
    struct query query;

    query_begin(&query, store, sql);
    return query_run(&query, error);
}

static enum lw_status save_setting(struct store *store, const struct setting *setting, const struct settings *settings,
                                   struct lw_error *error)
{
    const struct members one = {&setting->member, 1};
    struct query query;

    query_begin(&query, store, SQL_SETTING_INSERT);
    query_bind_text(&query, setting->key);
    members_bind(&query, &one, settings);
    return query_run(&query, error);
}

static enum lw_status save_list(struct store *store, const struct list *list, const struct settings *settings,
                                struct lw_error *error)
{
    const char *first = (const char *)settings + list->first;
    enum lw_status status = run(store, list->remove, error);
    int count;

    memcpy(&count, (const char *)settings + list->count, sizeof count);
    for (int i = 0; status == LW_OK && i < count && i < list->most; i++) {
        struct query query;

        query_begin(&query, store, list->insert);
        query_bind_int(&query, i);
        members_bind(&query, &list->members, first + (size_t)i * list->size);
        status = query_run(&query, error);
    }
    return status;
}

static enum lw_status save(struct store *store, const struct settings *settings, struct lw_error *error)
{
    enum lw_status status = run(store, SQL_SETTING_DELETE, error);

    for (int i = 0; status == LW_OK && i < COUNT(settings_table); i++)
        status = save_setting(store, &settings_table[i], settings, error);
    for (int i = 0; status == LW_OK && i < COUNT(lists); i++)
        status = save_list(store, &lists[i], settings, error);
    return status;
}

enum lw_status settings_save(struct store *store, const struct settings *settings, struct lw_error *error)
{
    enum lw_status status;

    if (!batch_pattern_valid(settings->batch_pattern))
        return lw_fail(error, LW_INVALID, "Batch numbers cannot be made as \"%s\"; nothing was saved.",
                       settings->batch_pattern);
    status = store_begin(store, error);
    return status == LW_OK ? store_end(store, save(store, settings, error), error) : status;
}
