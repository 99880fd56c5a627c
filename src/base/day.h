/* day.h - civil days from seconds, without the C library's clock or locale. */
#ifndef BASE_DAY_H
#define BASE_DAY_H

#include <stdint.h>

enum { DAY_S = 86400 };

/* Proleptic Gregorian (ISO 8601). */
struct day {
    int year, month, day; /* month and day from 1 */
    int of_year;          /* from 1 */
    int hour, minute, second;
};

/* The moment utc_s in local time. */
struct day day_of(int64_t utc_s, int32_t offset_s);

/* Whole days since 1970-01-01 in local time: what tells one day from another. */
int64_t day_number(int64_t utc_s, int32_t offset_s);

/* Days from 1970-01-01 to that civil day; month and day from 1. A day past the end of its month is so many days on. */
int64_t day_count(int year, int month, int day);

#endif
