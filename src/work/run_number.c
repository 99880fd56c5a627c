/* run_number.c - batch numbers by the maker's pattern: conversions of strftime for the day, '#' for the serial number. */
#include <string.h>

#include "base/day.h"
#include "base/text.h"
#include "store/batches.h"
#include "work/run_inside.h"

static void add_day(char *out, size_t size, char conversion, const struct day *day)
{
    switch (conversion) {
    case 'Y':
        text_add(out, size, "%04d", day->year);
        break;
    case 'y':
        text_add(out, size, "%02d", day->year % 100);
        break;
    case 'm':
        text_add(out, size, "%02d", day->month);
        break;
    case 'd':
        text_add(out, size, "%02d", day->day);
        break;
    case 'j':
        text_add(out, size, "%03d", day->of_year);
        break;
    default:
        text_add(out, size, "%c", conversion);
    }
}

/* The pattern's text before its '#' and after, for that day; returns how many '#' there are. */
static int split_pattern(const char *pattern, const struct day *day, char *before, char *after)
{
    int digits = 0;
    char *out = before;

    before[0] = after[0] = '\0';
    for (; *pattern; pattern++) {
        if (*pattern == '#') {
            digits++;
            out = after;
        } else if (*pattern == '%' && pattern[1])
            add_day(out, BATCH_NUMBER_BYTES, *++pattern, day);
        else
            text_add(out, BATCH_NUMBER_BYTES, "%c", *pattern);
    }
    return digits;
}

enum lw_status run_next_number(struct store *store, const char *pattern, const struct lw_now *now,
                               char number[BATCH_NUMBER_BYTES], struct lw_error *error)
{
    struct day day = day_of(now->utc_s, now->offset_s);
    char before[BATCH_NUMBER_BYTES], after[BATCH_NUMBER_BYTES];
    int digits = split_pattern(pattern, &day, before, after);
    int64_t serial = 0;
    enum lw_status status = batches_serial(store, before, after, &serial, error);

    if (status != LW_OK)
        return status;
    number[0] = '\0';
    text_add(number, BATCH_NUMBER_BYTES, "%s%0*lld%s", before, digits > 0 ? digits : 1, (long long)serial + 1, after);
    return LW_OK;
}
