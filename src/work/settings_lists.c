/* settings_lists.c - elements of the settings' lists, read from words. */
#include "work/settings_lists.h"

#include <string.h>

#include "base/error.h"
#include "base/mass.h"
#include "base/text.h"
#include "work/quantity.h"

enum { PART_BYTES = 128 };

/* The next part up to a comma, without blanks around it; *text moves behind it. */
static void next_part(const char **text, char part[PART_BYTES])
{
    size_t length = strcspn(*text, ",");
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

/* Takes element `index` out of a list of *count; the one behind the last is not there yet. */
static void take_out(void *list, size_t size, int index, int *count)
{
    char *at = (char *)list + (size_t)index * size;

    if (index >= *count)
        return;
    --*count;
    memmove(at, at + size, (size_t)(*count - index) * size);
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
            text_copy(scale->name, sizeof scale->name, part);
    }
    return status;
}

enum lw_status settings_set_scale(struct settings *settings, int index, const char *text, struct lw_error *error)
{
    struct scale scale;
    enum lw_status status;

    if (text[0] == '\0') {
        if (settings->scales == 1)
            return lw_fail(error, LW_INVALID, "The bench needs at least one scale.");
        take_out(settings->scale, sizeof settings->scale[0], index, &settings->scales);
        return LW_OK;
    }
    status = read_scale(&scale, text, error);
    if (status != LW_OK)
        return status;
    settings->scale[index] = scale;
    settings->scales += index == settings->scales;
    return LW_OK;
}

enum lw_status settings_set_vessel(struct settings *settings, int index, const char *text, struct lw_error *error)
{
    struct vessel vessel = {.empty_ug = 0};
    char part[PART_BYTES];
    enum lw_status status;

    if (text[0] == '\0') {
        take_out(settings->vessel, sizeof settings->vessel[0], index, &settings->vessels);
        return LW_OK;
    }
    next_part(&text, part);
    status = read_mass(part, &vessel.empty_ug, error);
    if (status != LW_OK)
        return status;
    next_part(&text, part);
    if (!part[0])
        return lw_fail(error, LW_INVALID, "A vessel needs a name behind its mass, as in: 212 g, jug B.");
    text_copy(vessel.name, sizeof vessel.name, part);
    settings->vessel[index] = vessel;
    settings->vessels += index == settings->vessels;
    return LW_OK;
}

/* "F5 for done": the key has no blank in it. */
static enum lw_status read_key(struct bench_key *key, const char *text, struct lw_error *error)
{
    const char *words = strstr(text, " for ");
    size_t length = strcspn(text, " ");

    memset(key, 0, sizeof *key);
    if (!words || length == 0 || text + length != words || !words[5])
        return lw_fail(error, LW_INVALID, "Write the key and what it is for, as in: F5 for done.");
    if (length >= sizeof key->key || !text_copy(key->action, sizeof key->action, words + 5))
        return lw_fail(error, LW_INVALID, "The names of keys and of what they do are short words, as help has them.");
    memcpy(key->key, text, length);
    return LW_OK;
}

enum lw_status settings_set_key(struct settings *settings, int index, const char *text, struct lw_error *error)
{
    struct bench_key key;
    enum lw_status status;

    if (text[0] == '\0') {
        take_out(settings->key, sizeof settings->key[0], index, &settings->keys);
        return LW_OK;
    }
    status = read_key(&key, text, error);
    if (status != LW_OK)
        return status;
    for (int i = 0; i < settings->keys; i++)
        if (i != index && strcmp(settings->key[i].key, key.key) == 0)
            return lw_fail(error, LW_INVALID, "%s is for \"%s\" already; choose another key.", key.key,
                           settings->key[i].action);
    settings->key[index] = key;
    settings->keys += index == settings->keys;
    return LW_OK;
}
