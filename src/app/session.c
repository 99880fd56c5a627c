/* session.c - the maker's records, or the demo's. */
#include "app/session.h"

#include <stdio.h>
#include <unistd.h>

#include "app/demo.h"
#include "app/machine.h"
#include "base/error.h"
#include "work/book.h"

enum { PATH_BYTES = 4096, DAY_S = 86400, WORTH_SHOWING = 100 /* batches; less is over before it is read */ };

void session_progress(void *words, int done, int all)
{
    if (isatty(STDERR_FILENO) && all > 0)
        fprintf(stderr, "\r%s%3d %%%s", (const char *)words, (int)(100.0 * done / all), done == all ? "\n" : "");
}

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

/* The demo's records, with the day they were made ready for moved to today by the maker's clock, and the bench to this minute. */
static void use_demo(struct store_options *options)
{
    struct lw_now now;

    machine_now(NULL, &now);
    options->image = (const unsigned char *)demo_store(&options->image_bytes);
    options->image_running_shift_s = (now.utc_s + now.offset_s) % DAY_S;
    options->image_offset_s = now.offset_s; /* the demo's days were those of UTC */
    options->image_shift_s = now.utc_s - options->image_running_shift_s - DEMO_DAY_S;
}

static enum lw_status open_records(const struct command_call *call, bool create, struct workshop **workshop,
                                   struct lw_error *error)
{
    char path[PATH_BYTES];
    struct workshop_options options = {.path = path, .store = {.random = machine_random}, .now = machine_now};
    enum lw_status status = LW_OK;

    if (call->demo)
        use_demo(&options.store);
    if (call->demo && !call->db)
        options.store.how = STORE_IMAGE; /* thrown away after */
    else {
        options.store.how = create || call->demo ? STORE_CREATE : STORE_EXISTING;
        status = session_path(call, path, sizeof path, error);
    }
    return status == LW_OK ? workshop_open(&options, workshop, error) : status;
}

/* Records of an older version, or copied in, have batches that the book has not read: with many of them that takes its time. What
 * goes wrong is told where the book is used. */
static void catch_up(struct workshop *workshop)
{
    int waiting;

    if (book_due_count(workshop_store(workshop), &waiting, NULL) == LW_OK && waiting >= WORTH_SHOWING)
        book_catch_up(workshop, session_progress, "Reading what was made into the book: ", NULL);
}

enum command_exit session_open(const struct command_call *call, bool create, struct workshop **workshop)
{
    struct lw_error error = {""};
    enum lw_status status = open_records(call, create, workshop, &error);

    if (status == LW_OK) {
        catch_up(*workshop);
        return COMMAND_DONE;
    }
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
