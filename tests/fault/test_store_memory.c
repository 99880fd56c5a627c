/* Memory that runs out, in our own code and in SQLite: a sentence, no leak, and the store as it was. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "fault/faulty_memory.h"
#include "fault/maker.h"
#include "fault/weigher.h"
#include "store/book.h"
#include "store/inside.h"
#include "store/settings_store.h"
#include "store/shelf.h"

/* SQLite allocates some 20,000 times in a session: every point is visited only where LYEWAY_TORTURE is set. */
enum { POINTS_MOST = 100000, STRIDE = 101 };

struct session {
    struct scratch *scratch;
    struct maker *maker;
    struct weigher weigher;
    char *bytes; /* the store as each session finds it */
    size_t n;
};

static int stride(void)
{
    return getenv("LYEWAY_TORTURE") ? 1 : STRIDE;
}

/* Out of memory is told as such. SQLite sometimes says that a file cannot be opened where it had no memory to open it. */
static void told(enum lw_status status, const struct lw_error *error)
{
    if (status == LW_OK)
        return;
    if (status != LW_FULL && status != LW_IO)
        fail_msg("status %d: %s", (int)status, error->text);
    assert_true(error->text[0] != '\0' && error->text[strlen(error->text) - 1] == '.');
}

static bool count_line(void *context, const struct recipe_line *line)
{
    (void)line;
    ++*(int *)context;
    return true;
}

static void use_shelf(struct store *store, const struct lw_now *now)
{
    static const struct oil_fact oil = {.key = "Own",
                                        .name = "Own",
                                        .inci = "",
                                        .inci_soap = "",
                                        .sap_lo = 180,
                                        .sap_hi = 190,
                                        .sap_nominal = 185,
                                        .sap_source = "lot",
                                        .acid_source = "",
                                        .note = ""};
    struct lw_error error = {""};
    struct shelf *shelf = NULL;
    enum lw_status status;

    told(shelf_put_oil(store, &oil, now, &error), &error);
    status = shelf_load(store, facts_reference(), &shelf, &error);
    told(status, &error);
    assert_int_equal(shelf != NULL, status == LW_OK);
    shelf_free(shelf);
}

static void use_settings(struct store *store)
{
    struct lw_error error = {""};
    struct settings settings;

    told(settings_load(store, &settings, &error), &error);
    assert_int_equal(settings.scales, 2); /* those of common practice where they cannot be read */
    told(settings_save(store, &settings, &error), &error);
}

static void use_recipes(struct session *session, struct store *store)
{
    const struct lw_now *now = &session->scratch->now;
    struct maker *maker = session->maker;
    struct lw_error error = {""};
    int lines = 0, number;
    bool saved = false;
    enum lw_status status;

    maker->store = store;
    status = recipes_load(store, maker->id, 0, &maker->recipe, &maker->version, &error);
    told(status, &error);
    if (status == LW_OK) {
        maker->saved = (int)maker->recipe.residue;
        status = maker_save(maker, now, &error);
        told(status, &error);
        saved = status == LW_OK;
    }
    status = recipes_each(store, "leaves", false, RECIPES_BY_NAME, count_line, &lines, &error);
    told(status, &error);
    assert_true(status != LW_OK || lines == 1);
    status = recipes_seal(store, maker->id, now, &number, &error);
    if (saved || status != LW_CONFLICT) /* without a save there is nothing new to seal */
        told(status, &error);
    told(recipes_archive(store, maker->id, false, now, &error), &error);
}

static bool pass_step(void *context, const struct step *step)
{
    (void)context;
    return step->id > 0;
}

static void use_batches(struct session *session, struct store *store)
{
    struct weigher *weigher = &session->weigher;
    struct batch_head head;
    struct lw_error error = {""};
    char *frozen, *bench;
    int64_t found;
    enum lw_status status;

    weigher->store = store;
    told(weigher_append(weigher, &error), &error);
    status = batches_load(store, weigher->id, &head, &frozen, &bench, &error);
    told(status, &error);
    assert_int_equal(frozen != NULL, status == LW_OK);
    assert_int_equal(bench != NULL, status == LW_OK);
    free(frozen);
    free(bench);
    told(batches_steps(store, weigher->id, pass_step, NULL, &error), &error);
    told(batches_serial(store, "26-", "", &found, &error), &error);
    told(batches_acknowledged(store, &found, &error), &error);
}

static bool pass_line(void *context, const struct book_line *line)
{
    (void)context;
    return line->id > 0;
}

static void use_book(struct session *session, struct store *store)
{
    const struct book_words words = {"Orchard base", "moss", "rose", "held back"};
    const struct book_filter filter = {.terms = 2, .term = {{.text = "held"}, {.in = BOOK_IN_COLOURANT, .text = "m"}}};
    struct book_row row = {.batch_id = session->weigher.id, .kinds = 1};
    struct lw_error error = {""};
    int64_t due;
    int n;

    told(book_due(store, &due, 1, &n, &error), &error);
    told(book_write(store, &row, &words, &error), &error);
    told(book_page(store, &filter, BOOK_NEWEST, NULL, false, 1, pass_line, NULL, &error), &error);
    told(book_count(store, &filter, 1, &n, &error), &error);
}

static void use_store(struct session *session)
{
    struct store_options options = scratch_options(session->scratch, STORE_CREATE);
    struct lw_error error = {""};
    struct store *store;
    char copy[SCRATCH_PATH_BYTES];
    int found;
    enum lw_status status = store_open(session->scratch->path, &options, &store, &error);

    told(status, &error);
    if (status != LW_OK)
        return;
    use_recipes(session, store);
    use_batches(session, store);
    use_book(session, store);
    use_shelf(store, &session->scratch->now);
    use_settings(store);
    store_changed_elsewhere(store);
    told(store_verify(store, NULL, NULL, &found, &error), &error);
    snprintf(copy, sizeof copy, "%.200s.copy", session->scratch->path);
    told(store_backup(store, copy, true, NULL, NULL, &error), &error);
    status = store_close(store, &error);
    told(status, &error);
    if (status == LW_OK) /* else its log stands beside it */
        told(store_restore(copy, session->scratch->path, &error), &error);
    unlink(copy);
    snprintf(copy, sizeof copy, "%.200s.copy.before-restore", session->scratch->path);
    unlink(copy);
}

/* One session in which allocation `at` fails; false once none did. What was there before is there after, whole. */
static bool visit(struct session *session, struct faulty_memory *memory, int at, bool forever)
{
    int held = faulty_memory_sqlite_held();
    struct maker *maker = session->maker;
    struct store *store;

    scratch_write(session->scratch->path, session->bytes, session->n);
    maker->saved = 0;
    session->weigher.appended = 0;
    *memory = (struct faulty_memory){.at = at, .forever = forever};
    use_store(session);
    memory->at = 0;
    assert_int_equal(faulty_memory_sqlite_held(), held);
    store = scratch_open(session->scratch);
    assert_int_equal(maker_find(maker, store), maker->saved);
    assert_int_equal(weigher_find(&session->weigher, store), session->weigher.appended);
    scratch_verify(store);
    scratch_close(store);
    return memory->fired;
}

static void visit_all(struct scratch *scratch, struct faulty_memory *memory, int step)
{
    struct session session = {.scratch = scratch, .maker = calloc(1, sizeof *session.maker)};
    struct lw_error error = {""};
    struct store *store = scratch_open(scratch);

    assert_non_null(session.maker);
    assert_int_equal(maker_begin(session.maker, store, &scratch->now, &error), LW_OK);
    assert_int_equal(weigher_begin(&session.weigher, store, &scratch->now, &error), LW_OK);
    scratch_close(store);
    session.bytes = scratch_read(scratch->path, &session.n);
    for (int forever = 0; forever < 2; forever++) {
        int at = 1;

        while (at < POINTS_MOST && visit(&session, memory, at, forever))
            at += step;
        assert_true(at > 10); /* there was something to visit */
        assert_true(at < POINTS_MOST);
        print_message("%d allocations, one in %d failed%s, nothing lost\n", at, step, forever ? " for good" : "");
    }
    free(session.bytes);
    free(session.maker);
}

static void our_own_allocations_may_fail(void **state)
{
    visit_all(*state, faulty_memory_ours(), 1);
}

static void allocations_of_sqlite_may_fail(void **state)
{
    visit_all(*state, faulty_memory_sqlite(), stride());
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, scratch_setup, scratch_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(our_own_allocations_may_fail),
        TEST(allocations_of_sqlite_may_fail),
    };

    faulty_memory_sqlite();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
