/* dates.c - days as they are written. */
#include "ui/screens/dates.h"

#include <stdio.h>

#include "base/day.h"

void date_of(char out[DATE_BYTES], int64_t utc_s, int32_t offset_s)
{
    struct day day = day_of(utc_s, offset_s);

    snprintf(out, DATE_BYTES, "%04u-%02u-%02u", (unsigned)day.year % 10000u, (unsigned)day.month % 100u,
             (unsigned)day.day % 100u);
}
