/* machine.c - clock, randomness, environment. */
#define _DEFAULT_SOURCE /* tm_gmtoff, getentropy */
#include "app/machine.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "base/error.h"
#include "base/number.h"
#include "base/text.h"

enum { ENTROPY_MOST = 256 };

/* An empty variable counts as unset. */
static const char *variable(const char *name)
{
    const char *value = getenv(name);

    return value && value[0] ? value : NULL;
}

void machine_now(void *context, struct lw_now *now)
{
    struct timespec day, steady;
    const char *fixed = variable("LYEWAY_NOW");
    double seconds;
    struct tm local;

    (void)context;
    clock_gettime(CLOCK_REALTIME, &day);
    clock_gettime(CLOCK_MONOTONIC, &steady);
    if (fixed && number_read(fixed, strlen(fixed), &seconds))
        day.tv_sec = (time_t)seconds;
    now->utc_s = day.tv_sec;
    now->steady_ms = (int64_t)steady.tv_sec * 1000 + steady.tv_nsec / 1000000;
    now->offset_s = localtime_r(&day.tv_sec, &local) ? (int32_t)local.tm_gmtoff : 0;
}

void machine_random(void *context, uint8_t *bytes, size_t n)
{
    (void)context;
    while (n > 0) {
        size_t some = n < ENTROPY_MOST ? n : ENTROPY_MOST;

        if (getentropy(bytes, some) != 0)
            abort();
        bytes += some;
        n -= some;
    }
}

static enum lw_status put(char *out, size_t size, const char *folder, const char *rest, struct lw_error *error)
{
    out[0] = '\0';
    if (text_add(out, size, "%s%s", folder, rest))
        return LW_OK;
    return lw_fail(error, LW_INVALID, "The path of the records is too long; name a shorter one with --db.");
}

enum lw_status machine_records(const char *given, char *out, size_t size, struct lw_error *error)
{
    const char *named = given ? given : variable("LYEWAY_DB");
    const char *data = variable("XDG_DATA_HOME"), *home = variable("HOME");

    if (named)
        return put(out, size, named, "", error);
    /* A relative path in it is to be ignored: XDG Base Directory Specification. */
    if (data && data[0] == '/')
        return put(out, size, data, "/lyeway/lyeway.db", error);
    if (home)
        return put(out, size, home, "/.local/share/lyeway/lyeway.db", error);
    return lw_fail(error, LW_NOT_FOUND, "There is no home folder to keep records in; name a file with --db.");
}

bool machine_no_colour(void)
{
    return variable("NO_COLOR") != NULL;
}
