/* key.c - keys by the names that help gives them. */
#include "ui/kit/key.h"

#include <string.h>

#include "base/utf8.h"

static const struct {
    const char *name;
    enum key_code code;
} names[] = {
    {"Enter", KEY_RETURN},    {"Esc", KEY_ESCAPE},      {"Tab", KEY_TAB},           {"Shift-Tab", KEY_BACKTAB},
    {"Backspace", KEY_ERASE}, {"Del", KEY_DEL},         {"Ins", KEY_INS},           {"Up", KEY_ARROW_UP},
    {"Down", KEY_ARROW_DOWN}, {"Left", KEY_ARROW_LEFT}, {"Right", KEY_ARROW_RIGHT}, {"Home", KEY_TO_START},
    {"End", KEY_TO_END},      {"PgUp", KEY_PAGE_UP},    {"PgDn", KEY_PAGE_DOWN},    {"Paste", KEY_PASTE},
};

bool key_is(const struct key *key, uint32_t c)
{
    return key->code == KEY_CHARACTER && !key->alt && key->point == c;
}

static bool is_function(const struct key *key, const char *digits)
{
    uint32_t number = 0;

    for (; *digits >= '0' && *digits <= '9'; digits++)
        number = number * 10 + (uint32_t)(*digits - '0');
    return !*digits && key->code == KEY_FUNCTION && key->point == number;
}

bool key_named(const struct key *key, const char *name)
{
    uint32_t point;
    size_t bytes, length = strlen(name);

    if (length == 0)
        return false;
    bytes = utf8_next(name, length, &point);
    if (bytes == length)
        return key_is(key, point);
    if (strcmp(name, "Space") == 0)
        return key_is(key, ' ');
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (strcmp(name, names[i].name) == 0)
            return key->code == names[i].code;
    if (strncmp(name, "Ctrl-", 5) == 0)
        return key->code == KEY_CONTROL && key->point == (uint32_t)(name[5] | 0x20);
    return name[0] == 'F' && is_function(key, name + 1);
}
