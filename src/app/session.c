/* session.c - the maker's records, or the demo's. */
#include "app/session.h"

#include "app/demo.h"
#include "app/files.h"
#include "app/machine.h"
#include "base/error.h"
#include "work/records.h"

enum { PATH_BYTES = 4096 };

enum command_exit session_exit(enum lw_status status)
{
    switch (status) {
    case LW_OK:
        return COMMAND_DONE;
    case LW_NOT_FOUND:
    case LW_INVALID:
        return COMMAND_REFUSED;
    case LW_CONFLICT:
    case LW_BUSY:
    case LW_FULL:
    case LW_IO:
    case LW_CORRUPT:
        break;
    }
    return COMMAND_RECORDS;
}

enum lw_status session_path(const struct command_call *call, char *out, size_t size, struct lw_error *error)
{
    return machine_records(call->db, out, size, error);
}

/* The demo's recipes are brought into records that have none yet. */
static enum lw_status fill_demo(struct workshop *workshop, struct lw_error *error)
{
    size_t n = 0;
    const char *text = demo_recipes(&n);
    struct records_count count;

    return records_import(workshop, &(struct records_source){"demo", text, n}, 1, &count, error);
}

static enum lw_status open_records(const struct command_call *call, bool create, struct workshop **workshop,
                                   struct lw_error *error)
{
    char path[PATH_BYTES];
    struct workshop_options options = {.path = path, .store = {.random = machine_random}, .now = machine_now};
    bool fresh = call->demo && !call->db;
    enum lw_status status = LW_OK;

    if (fresh)
        options.store.how = STORE_IMAGE; /* of nothing: a throw-away store in memory */
    else {
        options.store.how = create || call->demo ? STORE_CREATE : STORE_EXISTING;
        status = session_path(call, path, sizeof path, error);
        fresh = status == LW_OK && call->demo && !files_exist(path);
    }
    if (status == LW_OK)
        status = workshop_open(&options, workshop, error);
    if (status != LW_OK || !fresh)
        return status;
    status = fill_demo(*workshop, error);
    if (status != LW_OK) {
        workshop_close(*workshop, NULL);
        *workshop = NULL;
    }
    return status;
}

enum command_exit session_open(const struct command_call *call, bool create, struct workshop **workshop)
{
    struct lw_error error = {""};
    enum lw_status status = open_records(call, create, workshop, &error);

    if (status == LW_OK)
        return COMMAND_DONE;
    if (status == LW_NOT_FOUND && !create)
        return command_fail(call, COMMAND_REFUSED, &error);
    return command_fail(call, COMMAND_RECORDS, &error);
}

enum command_exit session_close(const struct command_call *call, struct workshop *workshop, enum command_exit exit)
{
    struct lw_error error = {""};

    if (workshop_close(workshop, &error) == LW_OK)
        return exit;
    return command_fail(call, COMMAND_RECORDS, &error);
}
