/* dates.c - civil dates from seconds, by counting days of 400-year cycles from 1 March of year 0. */
#include "ui/screens/dates.h"

#include <stdio.h>

enum { DAY_S = 86400, CYCLE_DAYS = 146097, EPOCH_DAYS = 719468 };

void date_of(char out[DATE_BYTES], int64_t utc_s, int32_t offset_s)
{
    int64_t local = utc_s + offset_s;
    int64_t days = local / DAY_S - (local % DAY_S < 0) + EPOCH_DAYS;
    int64_t cycle = days / CYCLE_DAYS - (days % CYCLE_DAYS < 0);
    int day = (int)(days - cycle * CYCLE_DAYS);
    int year = (day - day / 1460 + day / 36524 - day / 146096) / 365;
    int of_year = day - (365 * year + year / 4 - year / 100);
    int month = (5 * of_year + 2) / 153; /* March is 0 */

    unsigned of_month = (unsigned)(of_year - (153 * month + 2) / 5 + 1);
    unsigned civil_month = (unsigned)(month < 10 ? month + 3 : month - 9);

    snprintf(out, DATE_BYTES, "%04u-%02u-%02u", (unsigned)(year + cycle * 400 + (month >= 10)) % 10000u,
             civil_month % 100u, of_month % 100u);
}
