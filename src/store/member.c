/* member.c - structs to rows and back. */
#include "store/member.h"

#include <limits.h>
#include <math.h>
#include <string.h>

#include "base/text.h"

/* An enumeration has the size of an int here; read and written through memcpy, whatever its type. */
_Static_assert(sizeof(enum member_kind) == sizeof(int), "an enumeration is as large as an int");

const char *member_word(const struct member_words *words, int value)
{
    return value >= 0 && value < words->count ? words->word[value] : "";
}

int member_value(const struct member_words *words, const char *word)
{
    for (int i = 0; i < words->count; i++)
        if (strcmp(words->word[i], word) == 0)
            return i;
    return -1;
}

static int read_int(const char *at)
{
    int value;

    memcpy(&value, at, sizeof value);
    return value;
}

static void bind(struct query *query, const struct member *member, const char *at)
{
    switch (member->kind) {
    case MEMBER_TEXT:
        query_bind_text(query, at);
        return;
    case MEMBER_REAL:
        query_bind_real(query, *(const double *)(const void *)at);
        return;
    case MEMBER_INT:
        query_bind_int(query, read_int(at));
        return;
    case MEMBER_INT16:
        query_bind_int(query, *(const int16_t *)(const void *)at);
        return;
    case MEMBER_UINT32:
        query_bind_int(query, *(const uint32_t *)(const void *)at);
        return;
    case MEMBER_INT64:
        query_bind_int(query, *(const int64_t *)(const void *)at);
        return;
    case MEMBER_BOOL:
        query_bind_int(query, *(const bool *)at);
        return;
    case MEMBER_WORD:
        query_bind_text(query, member_word(member->words, read_int(at)));
        return;
    }
}

void members_bind(struct query *query, const struct members *members, const void *from)
{
    for (int i = 0; i < members->count; i++)
        bind(query, &members->member[i], (const char *)from + members->member[i].offset);
}

/* The next column, from lo to hi. */
static int64_t bounded(struct query *query, int64_t lo, int64_t hi)
{
    int64_t value = query_int(query);

    if (value >= lo && value <= hi)
        return value;
    query_corrupt(query);
    return 0;
}

/* SQLite keeps what is not a number as NULL. */
static double read_real(struct query *query)
{
    bool none = query_is_null(query);
    double value = query_real(query);

    return none ? (double)NAN : value;
}

static void read_word(struct query *query, const struct member_words *words, char *at)
{
    int value = member_value(words, query_text(query));

    if (value < 0)
        query_corrupt(query);
    else
        memcpy(at, &value, sizeof value);
}

static void read(struct query *query, const struct member *member, char *at)
{
    int number;

    switch (member->kind) {
    case MEMBER_TEXT:
        if (!text_copy(at, member->size, query_text(query)))
            query_corrupt(query);
        return;
    case MEMBER_REAL:
        *(double *)(void *)at = read_real(query);
        return;
    case MEMBER_INT:
        number = (int)bounded(query, INT_MIN, INT_MAX);
        memcpy(at, &number, sizeof number);
        return;
    case MEMBER_INT16:
        *(int16_t *)(void *)at = (int16_t)bounded(query, INT16_MIN, INT16_MAX);
        return;
    case MEMBER_UINT32:
        *(uint32_t *)(void *)at = (uint32_t)bounded(query, 0, UINT32_MAX);
        return;
    case MEMBER_INT64:
        *(int64_t *)(void *)at = query_int(query);
        return;
    case MEMBER_BOOL:
        *(bool *)at = bounded(query, 0, 1) != 0;
        return;
    case MEMBER_WORD:
        read_word(query, member->words, at);
        return;
    }
}

void members_read(struct query *query, const struct members *members, void *to)
{
    for (int i = 0; i < members->count; i++)
        read(query, &members->member[i], (char *)to + members->member[i].offset);
}

static size_t member_size(enum member_kind kind)
{
    static const size_t size[] = {
        [MEMBER_REAL] = sizeof(double),   [MEMBER_INT] = sizeof(int),         [MEMBER_INT16] = sizeof(int16_t),
        [MEMBER_INT64] = sizeof(int64_t), [MEMBER_UINT32] = sizeof(uint32_t), [MEMBER_BOOL] = sizeof(bool),
        [MEMBER_WORD] = sizeof(int),
    };

    return size[kind];
}

bool members_same(const struct members *members, const void *a, const void *b)
{
    for (int i = 0; i < members->count; i++) {
        const struct member *member = &members->member[i];
        const char *one = (const char *)a + member->offset, *other = (const char *)b + member->offset;

        if (member->kind == MEMBER_TEXT ? strcmp(one, other) != 0 : memcmp(one, other, member_size(member->kind)) != 0)
            return false;
    }
    return true;
}
