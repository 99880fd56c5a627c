/* exact.c - the fewest decimals that are enough, by trying them. */
#include "exchange/exact.h"

#include <string.h>

#include "base/number.h"

enum { MOST_DECIMALS = 15 };

/* Decimals at which `number * scale` reads back as `number`; the most there are where none does to the last bit. */
static int decimals_for(double number, double scale)
{
    for (int decimals = 0; decimals < MOST_DECIMALS; decimals++) {
        char text[NUMBER_BYTES];
        double read;

        number_write_short(text, number * scale, decimals);
        if (number_read(text, strlen(text), &read) && !(read / scale < number) && !(read / scale > number))
            return decimals;
    }
    return MOST_DECIMALS;
}

void json_exact(struct json_writer *writer, const char *name, double number)
{
    json_number(writer, name, number, decimals_for(number, 1));
}

void json_exact_percent(struct json_writer *writer, const char *name, double share)
{
    json_number(writer, name, share * 100, decimals_for(share, 100));
}

void json_exact_interval(struct json_writer *writer, const char *name, double lo, double hi, double scale)
{
    int from = decimals_for(lo, scale), to = decimals_for(hi, scale);

    json_interval(writer, name, lo * scale, hi * scale, from > to ? from : to);
}
