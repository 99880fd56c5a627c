/* freeze_bench.c - the few settings that go with a batch, as lines of a name and a value. */
#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/number.h"
#include "work/freeze.h"

static const char *const units[] = {[MASS_G] = "g", [MASS_OZ] = "oz", [MASS_LB] = "lb"};

void freeze_bench(const struct settings *settings, struct buffer *out)
{
    char number[NUMBER_BYTES];

    number_write_short(number, settings->superfat_most, 9);
    buffer_add(out, "mass_unit %s\n", units[settings->mass_unit]);
    buffer_add(out, "temperature_unit %s\n", settings->fahrenheit ? "F" : "C");
    buffer_add(out, "superfat_most %s\n", number);
}

/* The value of a line that begins with that name; false where there is none. */
static bool value_of(const char *text, const char *name, const char **value, size_t *n)
{
    size_t length = strlen(name);

    for (; *text; text += strcspn(text, "\n"), text += *text == '\n')
        if (strncmp(text, name, length) == 0 && text[length] == ' ') {
            *value = text + length + 1;
            *n = strcspn(*value, "\n");
            return true;
        }
    return false;
}

static bool is(const char *value, size_t n, const char *word)
{
    return strlen(word) == n && strncmp(value, word, n) == 0;
}

enum lw_status freeze_bench_read(const char *text, struct settings *settings, struct lw_error *error)
{
    const char *value;
    size_t n;
    bool good = value_of(text, "mass_unit", &value, &n);

    for (int i = 0; good && i < (int)(sizeof units / sizeof *units); i++)
        if (is(value, n, units[i]))
            settings->mass_unit = (enum mass_unit)i;
    good = good && value_of(text, "temperature_unit", &value, &n);
    if (good)
        settings->fahrenheit = is(value, n, "F");
    good = good && value_of(text, "superfat_most", &value, &n) && number_read(value, n, &settings->superfat_most);
    return good ? LW_OK : lw_fail(error, LW_CORRUPT, "The settings of a batch cannot be read; restore a backup.");
}
