/* day.c - civil dates by counting days of 400-year cycles from 1 March of year 0. */
#include "base/day.h"

#include <stdbool.h>

enum { CYCLE_DAYS = 146097, EPOCH_DAYS = 719468 };

static int64_t floor_div(int64_t a, int64_t b)
{
    return a / b - (a % b < 0);
}

int64_t day_number(int64_t utc_s, int32_t offset_s)
{
    return floor_div(utc_s + offset_s, DAY_S);
}

static bool leap(int64_t year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

/* Days of the year before the first of a month, 1 to 12. */
static int days_before(int month, bool leap_year)
{
    static const int days[] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};

    return days[month - 1] + (month > 2 && leap_year);
}

int64_t day_count(int year, int month, int day)
{
    int64_t from_march = month > 2 ? year : (int64_t)year - 1, cycle = floor_div(from_march, 400);
    int64_t in_cycle = from_march - cycle * 400;

    return cycle * CYCLE_DAYS + in_cycle * 365 + in_cycle / 4 - in_cycle / 100 +
           (153 * (month > 2 ? month - 3 : month + 9) + 2) / 5 + day - 1 - EPOCH_DAYS;
}

struct day day_of(int64_t utc_s, int32_t offset_s)
{
    int64_t days = day_number(utc_s, offset_s) + EPOCH_DAYS, cycle = floor_div(days, CYCLE_DAYS);
    int second = (int)(utc_s + offset_s - day_number(utc_s, offset_s) * DAY_S);
    int day = (int)(days - cycle * CYCLE_DAYS);
    int year = (day - day / 1460 + day / 36524 - day / 146096) / 365;
    int since_march = day - (365 * year + year / 4 - year / 100);
    int month = (5 * since_march + 2) / 153; /* March is 0 */
    struct day out = {.year = (int)(year + cycle * 400 + (month >= 10)),
                      .month = month < 10 ? month + 3 : month - 9,
                      .day = since_march - (153 * month + 2) / 5 + 1,
                      .hour = second / 3600,
                      .minute = second / 60 % 60,
                      .second = second % 60};

    out.of_year = days_before(out.month, leap(out.year)) + out.day;
    return out;
}
