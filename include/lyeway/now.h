/* now.h - the time, as an argument: only app reads a clock. */
#ifndef LYEWAY_NOW_H
#define LYEWAY_NOW_H

#include <stdint.h>

struct lw_now {
    int64_t utc_s;     /* seconds since 1970 UTC */
    int64_t steady_ms; /* of a clock that never jumps, for timers */
    int32_t offset_s;  /* of the maker's local time from UTC */
};

#endif
