/* first_version.c - see the header. */
#include "support/first_version.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "store/inside.h"
#include "store/migrate.h"
#include "store/recipes.h"
#include "store/shelf.h"

/* Written as that version wrote them. */
static const char settings[] = "INSERT INTO setting (key, value) VALUES ('mass_unit', 'g'), ('fahrenheit', 1),"
                               "    ('currency', 'XTS'), ('superfat:skin', 0.07);"
                               "INSERT INTO scale VALUES (0, 'pocket', 10000, 500000000, 20000, 0);"
                               "INSERT INTO vessel VALUES (0, 'jug B', 212000000)";

static void did(enum lw_status status, const struct lw_error *error)
{
    if (status != LW_OK)
        fail_msg("%s", error->text);
}

struct store *old_version_open(struct scratch *scratch, size_t version)
{
    const struct migrations old = {migrations_all().sql, version};
    struct store_options options = scratch_options(scratch, STORE_CREATE);
    struct store *store = store_new(scratch->path, &options);
    struct lw_error error = {""};

    assert_non_null(store);
    assert_int_equal(sqlite3_open(scratch->path, &store->db), SQLITE_OK);
    did(migrate(store, &old, &error), &error);
    did(store_run(store, "PRAGMA journal_mode = WAL; PRAGMA foreign_keys = ON", &error), &error);
    return store;
}

int64_t first_version_make(struct scratch *scratch, const struct recipe *recipe)
{
    static const struct oil_fact own = {.key = "Own",
                                        .name = "Own",
                                        .inci = "",
                                        .inci_soap = "",
                                        .sap_lo = 180,
                                        .sap_hi = 190,
                                        .sap_nominal = 185,
                                        .sap_source = "lot",
                                        .acid_source = "",
                                        .note = ""};
    struct store *store = old_version_open(scratch, 1);
    struct lw_error error = {""};
    int64_t id;
    int number;

    did(recipes_create(store, recipe, &scratch->now, &id, &error), &error);
    did(recipes_seal(store, id, &scratch->now, &number, &error), &error);
    did(shelf_put_oil(store, &own, &scratch->now, &error), &error);
    did(store_run(store, settings, &error), &error);
    store_free(store);
    return id;
}
