/* near.c - scores names by edit distance and by what they contain, and keeps the best few. */
#include "work/near.h"

#include <stdbool.h>
#include <string.h>

#include "base/text.h"
#include "base/utf8.h"

enum {
    MOST_DISTANCE = 32,
    CONTAINS_SCORE = 1, /* as good as one letter that differs */
    WITHIN_SCORE = 2,
    LEAST_PART = 3 /* letters that a part must have to mean anything */
};

void near_init(struct near *near, const char *wanted)
{
    near->wanted = wanted;
    near->count = 0;
}

static size_t score_of(const char *wanted, const char *name)
{
    size_t distance = text_distance(wanted, name, MOST_DISTANCE);

    if (distance > CONTAINS_SCORE && strlen(wanted) >= LEAST_PART && text_has(name, wanted))
        return CONTAINS_SCORE;
    if (distance > WITHIN_SCORE && strlen(name) >= LEAST_PART && text_has(wanted, name))
        return WITHIN_SCORE;
    return distance;
}

static bool before(const struct near_name *a, const struct near_name *b)
{
    if (a->score != b->score)
        return a->score < b->score;
    if (a->extra != b->extra)
        return a->extra < b->extra;
    return strcmp(a->key, b->key) < 0;
}

/* Takes out what the key has from another of its names, unless that one is nearer. False: nothing more to do. */
static bool replace_same_key(struct near *near, const struct near_name *offered)
{
    for (int i = 0; i < near->count; i++) {
        if (strcmp(near->name[i].key, offered->key) != 0)
            continue;
        if (!before(offered, &near->name[i]))
            return false;
        near->count--;
        memmove(&near->name[i], &near->name[i + 1], (size_t)(near->count - i) * sizeof near->name[0]);
        return true;
    }
    return true;
}

void near_offer(void *context, const char *name, const char *key)
{
    struct near *near = context;
    size_t length = strlen(name), wanted = strlen(near->wanted);
    struct near_name offered = {.score = score_of(near->wanted, name), .extra = length > wanted ? length - wanted : 0};
    int place = 0;

    text_copy(offered.key, sizeof offered.key, key);
    if (!replace_same_key(near, &offered))
        return;
    while (place < near->count && before(&near->name[place], &offered))
        place++;
    if (place == NEAR_NAMES)
        return;
    if (near->count < NEAR_NAMES)
        near->count++;
    for (int i = near->count - 1; i > place; i--)
        near->name[i] = near->name[i - 1];
    near->name[place] = offered;
}

void near_list(const struct near *near, char *out, size_t size)
{
    out[0] = '\0';
    for (int i = 0; i < near->count; i++) {
        char clean[LW_NAME_BYTES];
        const char *join = i == 0 ? "" : i == near->count - 1 ? " and " : ", ";

        utf8_clean(clean, sizeof clean, near->name[i].key, LW_NAME_BYTES);
        text_add(out, size, "%s%s", join, clean);
    }
}
