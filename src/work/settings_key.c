/* settings_key.c - keys of the bench from words. */
#include "work/settings_key.h"

#include <string.h>

#include "base/error.h"
#include "base/text.h"

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

static void take_out(struct settings *settings, int index)
{
    if (index >= settings->keys)
        return;
    settings->keys--;
    memmove(&settings->key[index], &settings->key[index + 1],
            (size_t)(settings->keys - index) * sizeof settings->key[0]);
}

enum lw_status settings_key_read(struct settings *settings, int index, const char *text, struct lw_error *error)
{
    struct bench_key key;
    enum lw_status status;

    if (text[0] == '\0') {
        take_out(settings, index);
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
