/* settings_row.c - settings in words. */
#include "work/settings_row.h"

#include <stdio.h>
#include <string.h>

#include "base/error.h"
#include "base/mass.h"
#include "base/number.h"
#include "base/text.h"
#include "lyeway/names.h"
#include "work/quantity.h"
#include "work/settings_key.h"

enum { PART_BYTES = 128 };

static int add(struct settings_row rows[SETTINGS_ROWS], int n, enum settings_kind kind, int index)
{
    rows[n] = (struct settings_row){kind, index};
    return n + 1;
}

int settings_rows(const struct settings *settings, struct settings_row rows[SETTINGS_ROWS])
{
    int n = add(rows, 0, SETTING_MASS_UNIT, 0);

    n = add(rows, n, SETTING_TEMPERATURE, 0);
    for (int i = 0; i < settings->scales + (settings->scales < RECIPE_SCALES); i++)
        n = add(rows, n, SETTING_SCALE, i);
    for (int i = 0; i < settings->vessels + (settings->vessels < SETTINGS_VESSELS); i++)
        n = add(rows, n, SETTING_VESSEL, i);
    for (int i = 0; i < PURPOSES; i++) {
        n = add(rows, n, SETTING_SUPERFAT, i);
        n = add(rows, n, SETTING_STRENGTH, i);
    }
    n = add(rows, n, SETTING_BATCH_PATTERN, 0);
    n = add(rows, n, SETTING_LYE_ORDER, 0);
    n = add(rows, n, SETTING_SUPERFAT_MOST, 0);
    for (int i = 0; i < settings->keys + (settings->keys < SETTINGS_KEYS); i++)
        n = add(rows, n, SETTING_KEY, i);
    n = add(rows, n, SETTING_CURRENCY, 0);
    n = add(rows, n, SETTING_MAKER, 0);
    return add(rows, n, SETTING_ADDRESS, 0);
}

void settings_row_name(const struct settings *settings, struct settings_row row, char *out, size_t size)
{
    static const char *const names[] = {[SETTING_MASS_UNIT] = "masses in",
                                        [SETTING_TEMPERATURE] = "temperatures in",
                                        [SETTING_CURRENCY] = "currency",
                                        [SETTING_MAKER] = "maker's name for labels",
                                        [SETTING_ADDRESS] = "maker's address for labels",
                                        [SETTING_SUPERFAT] = "superfat of new recipes",
                                        [SETTING_STRENGTH] = "strength of new recipes",
                                        [SETTING_SCALE] = "scale",
                                        [SETTING_VESSEL] = "vessel",
                                        [SETTING_BATCH_PATTERN] = "batch numbers",
                                        [SETTING_LYE_ORDER] = "order at the bench",
                                        [SETTING_SUPERFAT_MOST] = "superfat of a batch at most",
                                        [SETTING_KEY] = "key of the bench"};
    bool more = (row.kind == SETTING_SCALE && row.index == settings->scales) ||
                (row.kind == SETTING_VESSEL && row.index == settings->vessels) ||
                (row.kind == SETTING_KEY && row.index == settings->keys);

    if (row.kind == SETTING_SUPERFAT || row.kind == SETTING_STRENGTH)
        snprintf(out, size, "%s, %s", names[row.kind], name_of_purpose((enum purpose)row.index));
    else
        snprintf(out, size, "%s%s", more ? "+ " : "", names[row.kind]);
}

static void grams(char out[NUMBER_BYTES], int64_t ug)
{
    number_write_mass(out, ug, 0);
}

static void scale_value(const struct scale *scale, char *out, size_t size)
{
    char division[NUMBER_BYTES], capacity[NUMBER_BYTES], accuracy[NUMBER_BYTES], vessel[NUMBER_BYTES];

    grams(division, scale->division_ug);
    grams(capacity, scale->capacity_ug);
    grams(accuracy, scale->accuracy_ug);
    grams(vessel, scale->vessel_ug);
    snprintf(out, size, "%s g to %s g, accurate to %s g, vessel %s g%s%s", division, capacity, accuracy, vessel,
             scale->name[0] ? ", " : "", scale->name);
}

static void percent(double share, char *out, size_t size)
{
    char digits[NUMBER_BYTES];

    number_write_short(digits, share * 100, 4);
    snprintf(out, size, "%s %%", digits);
}

static const char most_of_recipe[] = "5 points above what the recipe asks";

void settings_row_value(const struct settings *settings, struct settings_row row, char *out, size_t size)
{
    static const char *const units[] = {[MASS_G] = "grams", [MASS_OZ] = "ounces", [MASS_LB] = "pounds and ounces"};
    char mass[NUMBER_BYTES];

    out[0] = '\0';
    switch (row.kind) {
    case SETTING_MASS_UNIT:
        text_copy(out, size, units[settings->mass_unit]);
        return;
    case SETTING_TEMPERATURE:
        text_copy(out, size, settings->fahrenheit ? "degrees Fahrenheit" : "degrees Celsius");
        return;
    case SETTING_CURRENCY:
        text_copy(out, size, settings->currency);
        return;
    case SETTING_MAKER:
        text_copy(out, size, settings->maker_name);
        return;
    case SETTING_ADDRESS:
        text_copy(out, size, settings->maker_address);
        return;
    case SETTING_SUPERFAT:
        percent(settings->purpose[row.index].superfat, out, size);
        return;
    case SETTING_STRENGTH:
        percent(settings->purpose[row.index].water_strength, out, size);
        return;
    case SETTING_SCALE:
        if (row.index < settings->scales)
            scale_value(&settings->scale[row.index], out, size);
        return;
    case SETTING_VESSEL:
        if (row.index >= settings->vessels)
            return;
        grams(mass, settings->vessel[row.index].empty_ug);
        snprintf(out, size, "%s g, %s", mass, settings->vessel[row.index].name);
        return;
    case SETTING_BATCH_PATTERN:
        text_copy(out, size, settings->batch_pattern);
        return;
    case SETTING_LYE_ORDER:
        text_copy(out, size, settings->lye_order == ORDER_OILS_FIRST ? "oils first" : "dissolve first");
        return;
    case SETTING_SUPERFAT_MOST:
        if (settings->superfat_most > 0)
            percent(settings->superfat_most, out, size);
        else
            text_copy(out, size, most_of_recipe);
        return;
    case SETTING_KEY:
        if (row.index < settings->keys)
            snprintf(out, size, "%s for %s", settings->key[row.index].key, settings->key[row.index].action);
        return;
    }
}

const char *settings_row_hint(enum settings_kind kind)
{
    switch (kind) {
    case SETTING_SCALE:
        return "Smallest step to greatest mass, then what you know of it: 0.01 g to 200 g, accurate to 0.02 g, "
               "vessel 30 g, fine scale. Empty takes the scale out.";
    case SETTING_VESSEL:
        return "Empty mass and name: 212 g, jug B. Empty takes the vessel out.";
    case SETTING_SUPERFAT:
        return "A percentage from 0 to 50.";
    case SETTING_STRENGTH:
        return "The share of alkali in the lye, a percentage above 0 and below 100.";
    case SETTING_CURRENCY:
        return "Three letters, as EUR or GBP (ISO 4217).";
    case SETTING_BATCH_PATTERN:
        return "### is the serial number; %Y or %y the year, %m month, %d day, %j day of the year; other characters as "
               "they are.";
    case SETTING_SUPERFAT_MOST:
        return "A percentage above 0, up to 50. Empty: 5 points above what the recipe asks.";
    case SETTING_KEY:
        return "A key and what it is for, by the words that help has: F5 for done. Empty takes it out.";
    case SETTING_LYE_ORDER:
    case SETTING_MASS_UNIT:
    case SETTING_TEMPERATURE:
    case SETTING_MAKER:
    case SETTING_ADDRESS:
        break;
    }
    return "";
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Bytes before the next comma; one between two digits is a decimal comma (or for quantity.h to ask about). */
static size_t part_length(const char *text)
{
    size_t length = strcspn(text, ",");

    while (text[length] == ',' && length > 0 && is_digit(text[length - 1]) && is_digit(text[length + 1]))
        length += 1 + strcspn(text + length + 1, ",");
    return length;
}

/* The next part up to a comma, without blanks around it; *text moves behind it. */
static void next_part(const char **text, char part[PART_BYTES])
{
    size_t length = part_length(*text);
    const char *from = *text;

    *text += length + ((*text)[length] == ',');
    while (length > 0 && *from == ' ') {
        from++;
        length--;
    }
    while (length > 0 && from[length - 1] == ' ')
        length--;
    if (length >= PART_BYTES)
        length = PART_BYTES - 1;
    memcpy(part, from, length);
    part[length] = '\0';
}

static enum lw_status read_mass(const char *text, int64_t *ug, struct lw_error *error)
{
    double g = 0;
    enum lw_status status = quantity_mass(text, "g", &g, error);

    if (status != LW_OK)
        return status;
    if (!(g >= 0 && g <= 1e6))
        return lw_fail(error, LW_INVALID, "A mass from 0 to 1000 kg is expected.");
    *ug = mass_ug(g);
    return LW_OK;
}

static bool begins(const char *text, const char *word)
{
    char head[PART_BYTES];
    size_t n = strlen(word);

    if (strlen(text) <= n)
        return false;
    memcpy(head, text, n);
    head[n] = '\0';
    return text_same(head, word);
}

static enum lw_status read_range(const char *part, struct scale *scale, struct lw_error *error)
{
    const char *to = strstr(part, " to ");
    char division[PART_BYTES];
    enum lw_status status;

    if (!to)
        return lw_fail(error, LW_INVALID, "Write the smallest step and the greatest mass as in: 0.01 g to 200 g.");
    memcpy(division, part, (size_t)(to - part));
    division[to - part] = '\0';
    status = read_mass(division, &scale->division_ug, error);
    if (status == LW_OK)
        status = read_mass(to + 4, &scale->capacity_ug, error);
    if (status == LW_OK && (scale->division_ug < 1 || scale->capacity_ug < scale->division_ug))
        return lw_fail(error, LW_INVALID, "The smallest step is above 0 and not more than the greatest mass.");
    scale->accuracy_ug = scale->division_ug; /* common practice where nothing is known */
    return status;
}

static enum lw_status set_text(char *to, size_t size, const char *text, struct lw_error *error)
{
    if (strlen(text) >= size)
        return lw_fail(error, LW_INVALID, "That is longer than the %zu bytes that there is room for.", size - 1);
    memset(to, 0, size);
    text_copy(to, size, text);
    return LW_OK;
}

static enum lw_status read_scale(struct scale *scale, const char *text, struct lw_error *error)
{
    char part[PART_BYTES];
    enum lw_status status;

    memset(scale, 0, sizeof *scale);
    next_part(&text, part);
    status = read_range(part, scale, error);
    while (status == LW_OK && *text) {
        next_part(&text, part);
        if (begins(part, "accurate to "))
            status = read_mass(part + strlen("accurate to "), &scale->accuracy_ug, error);
        else if (begins(part, "vessel "))
            status = read_mass(part + strlen("vessel "), &scale->vessel_ug, error);
        else
            status = set_text(scale->name, sizeof scale->name, part, error);
    }
    return status;
}

static enum lw_status set_scale(struct settings *settings, int index, const char *text, struct lw_error *error)
{
    struct scale scale;
    enum lw_status status;

    if (text[0] == '\0') {
        if (settings->scales == 1 && index == 0)
            return lw_fail(error, LW_INVALID, "The bench needs at least one scale.");
        for (int i = index; i + 1 < settings->scales; i++)
            settings->scale[i] = settings->scale[i + 1];
        settings->scales -= index < settings->scales;
        return LW_OK;
    }
    status = read_scale(&scale, text, error);
    if (status != LW_OK)
        return status;
    settings->scale[index] = scale;
    settings->scales += index == settings->scales;
    return LW_OK;
}

static enum lw_status set_vessel(struct settings *settings, int index, const char *text, struct lw_error *error)
{
    struct vessel vessel = {.empty_ug = 0};
    char part[PART_BYTES];
    enum lw_status status;

    if (text[0] == '\0') {
        for (int i = index; i + 1 < settings->vessels; i++)
            settings->vessel[i] = settings->vessel[i + 1];
        settings->vessels -= index < settings->vessels;
        return LW_OK;
    }
    next_part(&text, part);
    status = read_mass(part, &vessel.empty_ug, error);
    if (status != LW_OK)
        return status;
    text += strspn(text, " "); /* the name may have commas of its own */
    if (!text[0])
        return lw_fail(error, LW_INVALID, "A vessel needs a name behind its mass, as in: 212 g, jug B.");
    status = set_text(vessel.name, sizeof vessel.name, text, error);
    if (status != LW_OK)
        return status;
    settings->vessel[index] = vessel;
    settings->vessels += index == settings->vessels;
    return LW_OK;
}

static enum lw_status set_percent(double *share, const char *text, double lo, double hi, struct lw_error *error)
{
    char head[PART_BYTES];
    double percentage = 0;
    size_t n = strcspn(text, "%");
    enum lw_status status;

    if (text[n] == '%' && text[n + 1 + strspn(text + n + 1, " ")] != '\0')
        return lw_fail(error, LW_INVALID, "Nothing was expected behind the percent sign.");
    text_copy(head, n + 1 < sizeof head ? n + 1 : sizeof head, text);
    status = quantity_number(head, &percentage, error);
    if (status != LW_OK)
        return status;
    if (!(percentage >= lo && percentage <= hi))
        return lw_fail(error, LW_INVALID, "A percentage from %d to %d is expected.", (int)lo, (int)hi);
    *share = percentage / 100;
    return LW_OK;
}

static enum lw_status set_currency(struct settings *settings, const char *text, struct lw_error *error)
{
    char code[4] = "";

    for (size_t i = 0; i < 3 && text[i]; i++)
        code[i] = (char)(text[i] >= 'a' && text[i] <= 'z' ? text[i] - 'a' + 'A' : text[i]);
    if (strlen(text) != 3 || strspn(code, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != 3)
        return lw_fail(error, LW_INVALID, "A currency is three letters, as EUR or GBP.");
    text_copy(settings->currency, sizeof settings->currency, code);
    return LW_OK;
}

static enum lw_status set_pattern(struct settings *settings, const char *text, struct lw_error *error)
{
    if (strlen(text) >= sizeof settings->batch_pattern || !batch_pattern_valid(text))
        return lw_fail(error, LW_INVALID,
                       "Write one run of # for the serial number, with %%Y %%y %%m %%d %%j for the date: Q%%y-###; the "
                       "number is to be short.");
    return set_text(settings->batch_pattern, sizeof settings->batch_pattern, text, error);
}

static enum lw_status set_most(struct settings *settings, const char *text, struct lw_error *error)
{
    if (text[0] != '\0' && !text_same(text, most_of_recipe))
        return set_percent(&settings->superfat_most, text, 0, 50, error);
    settings->superfat_most = 0;
    return LW_OK;
}

enum lw_status settings_row_read(struct settings *settings, struct settings_row row, const char *text,
                                 struct lw_error *error)
{
    switch (row.kind) {
    case SETTING_SCALE:
        return set_scale(settings, row.index, text, error);
    case SETTING_VESSEL:
        return set_vessel(settings, row.index, text, error);
    case SETTING_SUPERFAT:
        return set_percent(&settings->purpose[row.index].superfat, text, 0, 50, error);
    case SETTING_STRENGTH:
        return set_percent(&settings->purpose[row.index].water_strength, text, 1, 99, error);
    case SETTING_CURRENCY:
        return set_currency(settings, text, error);
    case SETTING_MAKER:
        return set_text(settings->maker_name, sizeof settings->maker_name, text, error);
    case SETTING_ADDRESS:
        return set_text(settings->maker_address, sizeof settings->maker_address, text, error);
    case SETTING_BATCH_PATTERN:
        return set_pattern(settings, text, error);
    case SETTING_SUPERFAT_MOST:
        return set_most(settings, text, error);
    case SETTING_KEY:
        return settings_key_read(settings, row.index, text, error);
    case SETTING_LYE_ORDER:
    case SETTING_MASS_UNIT:
    case SETTING_TEMPERATURE:
        break;
    }
    return lw_fail(error, LW_INVALID, "Enter goes to the next value.");
}

bool settings_row_next(struct settings *settings, struct settings_row row)
{
    if (row.kind == SETTING_MASS_UNIT)
        settings->mass_unit = (enum mass_unit)((settings->mass_unit + 1) % (MASS_LB + 1));
    else if (row.kind == SETTING_TEMPERATURE)
        settings->fahrenheit = !settings->fahrenheit;
    else if (row.kind == SETTING_LYE_ORDER)
        settings->lye_order = settings->lye_order == ORDER_OILS_FIRST ? ORDER_DISSOLVE_FIRST : ORDER_OILS_FIRST;
    else
        return false;
    return true;
}
