/* dates.h - days for people. */
#ifndef SCREENS_DATES_H
#define SCREENS_DATES_H

#include <stdint.h>

enum { DATE_BYTES = 16 };

/* "2026-03-14", in the maker's local time (ISO 8601; proleptic Gregorian). */
void date_of(char out[DATE_BYTES], int64_t utc_s, int32_t offset_s);

#endif
