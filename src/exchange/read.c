/* read.c - the engine that walks an object by its table of members. */
#include "exchange/read.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/error.h"
#include "base/mass.h"
#include "base/number.h"
#include "base/text.h"
#include "base/utf8.h"

struct span {
    double lo, hi;
    bool above, below; /* lo, hi not included */
    bool whole;
    double per; /* what is kept is the number divided by this */
};

static const struct span *span_of(enum measure measure)
{
    /* clang-format off */
    static const struct span span[] = {
        [MEASURE_PERCENT]      = {0, 100, .per = 100},
        [MEASURE_SUPERFAT]     = {0, 50, .per = 100},
        [MEASURE_PURITY]       = {0, 100, .above = true, .per = 100},
        [MEASURE_STRENGTH]     = {0, 100, .above = true, .below = true, .per = 100},
        [MEASURE_MASS]         = {0, 1e6, .above = true, .per = 1},
        [MEASURE_MASS_OR_NONE] = {0, 1e6, .per = 1},
        [MEASURE_STEP]         = {1e-6, 1e6, .per = 1},
        [MEASURE_LENGTH]       = {0, 1e5, .above = true, .per = 1},
        [MEASURE_VOLUME]       = {0, 1e6, .above = true, .per = 1},
        [MEASURE_DENSITY]      = {0, 20, .above = true, .per = 1},
        [MEASURE_COUNT]        = {1, 2000, .whole = true, .per = 1},
        [MEASURE_REVISION]     = {1, 1e6, .whole = true, .per = 1},
        [MEASURE_RATIO]        = {0, 1000, .above = true, .per = 1},
        [MEASURE_SAP]          = {0, 400, .above = true, .per = 1},
        [MEASURE_PER_KG]       = {0, 1000, .per = 1},
        [MEASURE_WATER_TEMP]   = {-20, 95, .per = 1},
        [MEASURE_MELT_TEMP]    = {-100, 200, .per = 1},
        [MEASURE_IODINE]       = {0, 400, .per = 1},
        [MEASURE_MOLAR_MASS]   = {0, 1e5, .above = true, .per = 1},
        [MEASURE_EQUIVALENTS]  = {0, 20, .per = 1},
        [MEASURE_ACIDITY]      = {0, 50, .per = 1},
    };
    /* clang-format on */
    return &span[measure];
}

void read_enter(struct reader *reader, const char *member, size_t index)
{
    if (reader->steps < READ_STEPS)
        reader->step[reader->steps] = (struct read_step){member, index};
    reader->steps++;
}

void read_leave(struct reader *reader)
{
    reader->steps--;
}

/* RFC 6901: in a member's name ~ is ~0 and / is ~1. */
static void add_escaped(char *to, size_t size, const char *name)
{
    for (; *name != '\0'; name++) {
        if (*name == '~' || *name == '/')
            text_add(to, size, "%s", *name == '~' ? "~0" : "~1");
        else
            text_add(to, size, "%c", *name);
    }
}

static void pointer(const struct reader *reader, char *to, size_t size)
{
    to[0] = '\0';
    for (size_t i = 0; i < reader->steps && i < READ_STEPS; i++) {
        const struct read_step *step = &reader->step[i];
        if (step->member == NULL) {
            text_add(to, size, "/%zu", step->index);
        } else {
            text_add(to, size, "/");
            add_escaped(to, size, step->member);
        }
    }
}

static void describe_number(double number, char *to, size_t size)
{
    char digits[NUMBER_BYTES];

    number_write_short(digits, number, 9);
    if (fabs(number) >= 1e12)
        snprintf(to, size, "a number %s 12 digits", number < 0 ? "below zero of over" : "of over");
    else if (number != 0 && strcmp(digits, "0") == 0)
        snprintf(to, size, "a number next to 0");
    else
        snprintf(to, size, "%s", digits);
}

static void describe(const cJSON *value, char *to, size_t size)
{
    char shown[128];

    if (value == NULL) {
        snprintf(to, size, "nothing");
    } else if (cJSON_IsString(value)) {
        utf8_clean(shown, sizeof shown, value->valuestring, 30);
        snprintf(to, size, "the text \"%s\"", shown);
    } else if (cJSON_IsNumber(value)) {
        describe_number(value->valuedouble, to, size);
    } else {
        snprintf(to, size, "%s",
                 cJSON_IsObject(value)  ? "an object"
                 : cJSON_IsArray(value) ? "a list"
                 : cJSON_IsNull(value)  ? "null"
                 : cJSON_IsTrue(value)  ? "true"
                                        : "false");
    }
}

static bool fail(struct reader *reader, enum lw_status status, const char *text)
{
    char place[256];

    pointer(reader, place, sizeof place);
    reader->status = lw_fail(reader->error, status, "%s: %s%s%s.", reader->file, place, place[0] == '\0' ? "" : ": ",
                             text);
    return false;
}

bool read_fail(struct reader *reader, enum lw_status status, const char *text, ...)
{
    char whole[LW_ERROR_BYTES];
    va_list list;

    va_start(list, text);
    vsnprintf(whole, sizeof whole, text, list);
    va_end(list);
    return fail(reader, status, whole);
}

bool read_refuse(struct reader *reader, const cJSON *value, const char *expected, ...)
{
    char whole[LW_ERROR_BYTES], found[192], wanted[256];
    va_list list;

    va_start(list, expected);
    vsnprintf(wanted, sizeof wanted, expected, list);
    va_end(list);
    describe(value, found, sizeof found);
    snprintf(whole, sizeof whole, "found %s, expected %s", found, wanted);
    return fail(reader, LW_INVALID, whole);
}

static bool refuse_number(struct reader *reader, const cJSON *value, const struct span *span)
{
    char lo[NUMBER_BYTES], hi[NUMBER_BYTES];

    number_write_short(lo, span->lo, 6);
    number_write_short(hi, span->hi, 6);
    return read_refuse(reader, value, "a %snumber %s %s %s %s", span->whole ? "whole " : "",
                       span->above ? "above" : "from", lo,
                       span->below   ? "and below"
                       : span->above ? "up to"
                                     : "to",
                       hi);
}

bool read_number(struct reader *reader, const cJSON *value, enum measure measure, double *number)
{
    const struct span *span = span_of(measure);
    double x = value->valuedouble;

    if (!cJSON_IsNumber(value) || !(x >= span->lo && x <= span->hi) || (span->above && x <= span->lo) ||
        (span->below && x >= span->hi) || (span->whole && x != floor(x)))
        return refuse_number(reader, value, span);
    *number = x / span->per;
    return true;
}

bool read_numbers(struct reader *reader, const cJSON *value, enum measure measure, size_t n, double number[],
                  const char *what)
{
    size_t i = 0;

    if (!cJSON_IsArray(value) || cJSON_GetArraySize(value) != (int)n)
        return read_refuse(reader, value, "a list of %s", what);
    for (const cJSON *item = value->child; item != NULL; item = item->next, i++) {
        read_enter(reader, NULL, i);
        if (!read_number(reader, item, measure, &number[i]))
            return false;
        read_leave(reader);
    }
    return true;
}

bool read_range(struct reader *reader, const cJSON *value, enum measure measure, double *lo, double *hi)
{
    double both[2] = {0, 0};

    if (!read_numbers(reader, value, measure, 2, both, "two numbers, from and to"))
        return false;
    if (both[0] > both[1])
        return read_fail(reader, LW_INVALID, "found a range that runs backwards, expected the smaller number first");
    *lo = both[0];
    *hi = both[1];
    return true;
}

/* Text that passed the gate may still hold a newline or a tab. */
static bool read_text(struct reader *reader, const cJSON *value, bool note, size_t most)
{
    if (!cJSON_IsString(value) || (!note && value->valuestring[0] == '\0'))
        return read_refuse(reader, value, note ? "a text" : "a text that is not empty");
    if (!note && strpbrk(value->valuestring, "\n\t") != NULL)
        return read_refuse(reader, value, "a text of one line");
    if (strlen(value->valuestring) > most)
        return read_fail(reader, LW_FULL, "found a text of %zu bytes, expected at most %zu", strlen(value->valuestring),
                         most);
    return true;
}

bool read_name(struct reader *reader, const cJSON *value, char *name)
{
    return read_text(reader, value, false, LW_NAME_BYTES - 1) && text_copy(name, LW_NAME_BYTES, value->valuestring);
}

struct kept {
    struct kept *next;
    _Alignas(max_align_t) char bytes[];
};

void *read_keep(struct reader *reader, size_t size)
{
    struct kept *kept = cJSON_malloc(sizeof *kept + size);

    if (kept == NULL) {
        read_fail(reader, LW_FULL, "there is not enough memory to read it");
        return NULL;
    }
    kept->next = reader->into->own;
    reader->into->own = kept;
    return kept->bytes;
}

static bool read_kept(struct reader *reader, const cJSON *value, size_t most, const char **text)
{
    size_t size;
    char *copy;

    if (!read_text(reader, value, false, most))
        return false;
    size = strlen(value->valuestring) + 1;
    copy = read_keep(reader, size);
    if (copy == NULL)
        return false;
    *text = memcpy(copy, value->valuestring, size);
    return true;
}

void read_free_kept(void *own)
{
    for (struct kept *kept = own, *next; kept != NULL; kept = next) {
        next = kept->next;
        cJSON_free(kept);
    }
}

static bool read_choice(struct reader *reader, const cJSON *value, const char *(*choice)(int), int *chosen)
{
    char names[160] = "";

    for (int i = 0; choice(i) != NULL; i++) {
        if (cJSON_IsString(value) && strcmp(value->valuestring, choice(i)) == 0) {
            *chosen = i;
            return true;
        }
        text_add(names, sizeof names, "%s\"%s\"", i == 0 ? "" : choice(i + 1) == NULL ? " or " : ", ", choice(i));
    }
    return read_refuse(reader, value, "%s", names);
}

/* The kinds that are one number in the file. */
static bool read_counted(struct reader *reader, const cJSON *value, const struct member *member, void *place)
{
    double number = 0;

    if (!read_number(reader, value, member->measure, &number))
        return false;
    if (member->kind == MEMBER_NUMBER)
        memcpy(place, &number, sizeof number);
    else if (member->kind == MEMBER_COUNT)
        memcpy(place, &(int){(int)number}, sizeof(int));
    else
        memcpy(place, &(int64_t){mass_ug(number)}, sizeof(int64_t));
    return true;
}

static bool read_value(struct reader *reader, const cJSON *value, const struct member *member, void *into)
{
    void *place = (char *)into + member->offset;
    int chosen = 0;

    switch (member->kind) {
    case MEMBER_NUMBER:
    case MEMBER_COUNT:
    case MEMBER_UG:
        return read_counted(reader, value, member, place);
    case MEMBER_FLAG:
    case MEMBER_NOT:
        if (!cJSON_IsBool(value))
            return read_refuse(reader, value, "true or false");
        *(bool *)place = (cJSON_IsTrue(value) != 0) == (member->kind == MEMBER_FLAG);
        return true;
    case MEMBER_NAME:
        return read_name(reader, value, place);
    case MEMBER_NOTE:
        return read_text(reader, value, true, LW_NOTE_BYTES - 1) && text_copy(place, LW_NOTE_BYTES, value->valuestring);
    case MEMBER_KEPT:
        return read_kept(reader, value, LW_NAME_BYTES - 1, place);
    case MEMBER_SOURCE:
        return read_kept(reader, value, READ_SOURCE_BYTES, place);
    case MEMBER_CHOICE:
        if (!read_choice(reader, value, member->choice, &chosen))
            return false;
        memcpy(place, &chosen, sizeof chosen); /* enums are ints here: names.h counts them from 0 */
        return true;
    case MEMBER_OTHER:
        return member->read(reader, value, place);
    }
    return false;
}

static const struct member *member_named(const struct shape *shape, const char *name)
{
    for (size_t i = 0; i < shape->members; i++) {
        if (strcmp(shape->member[i].name, name) == 0)
            return &shape->member[i];
    }
    return NULL;
}

static bool refuse_unknown(struct reader *reader, const struct shape *shape, const char *name)
{
    const char *nearest = NULL;
    size_t best = 4;

    for (size_t i = 0; i < shape->members; i++) {
        size_t distance = text_distance(name, shape->member[i].name, best);
        if (distance < best) {
            best = distance;
            nearest = shape->member[i].name;
        }
    }
    if (nearest == NULL)
        return read_fail(reader, LW_INVALID, "found a member that has no meaning here, expected none of that name");
    return read_fail(reader, LW_INVALID, "found a member that has no meaning here, expected perhaps \"%s\"", nearest);
}

static bool check_one_of(struct reader *reader, const cJSON *object, const struct shape *shape)
{
    char names[192] = "";
    const char *found[2] = {NULL, NULL};
    size_t n = 0;

    for (size_t i = 0; i < shape->members; i++) {
        if (shape->member[i].need != NEED_ONE_OF)
            continue;
        text_add(names, sizeof names, "%s%s", names[0] == '\0' ? "" : ", ", shape->member[i].name);
        if (json_member(object, shape->member[i].name) != NULL && n < 2)
            found[n++] = shape->member[i].name;
    }
    if (n == 2)
        return read_fail(reader, LW_INVALID, "found both \"%s\" and \"%s\", expected only one of %s", found[0],
                         found[1], names);
    if (n == 0 && shape->one_of == ONE_OF_EXACTLY)
        return read_fail(reader, LW_INVALID, "found none of %s, expected one of them", names);
    return true;
}

static bool check_needs(struct reader *reader, const cJSON *object, const struct shape *shape)
{
    for (size_t i = 0; i < shape->members; i++) {
        if (shape->member[i].need == NEED_ALWAYS && json_member(object, shape->member[i].name) == NULL)
            return read_fail(reader, LW_INVALID, "found no \"%s\", expected one", shape->member[i].name);
    }
    return shape->one_of == ONE_OF_NONE || check_one_of(reader, object, shape);
}

static bool read_member(struct reader *reader, const cJSON *value, const struct shape *shape, void *into)
{
    const struct member *member = member_named(shape, value->string);

    read_enter(reader, value->string, 0);
    if (member == NULL)
        return refuse_unknown(reader, shape, value->string);
    if (!read_value(reader, value, member, into))
        return false;
    if (member->tagged)
        memcpy((char *)into + member->tag_offset, &member->tag, sizeof member->tag);
    read_leave(reader);
    return true;
}

bool read_shape(struct reader *reader, const cJSON *object, const struct shape *shape, void *into)
{
    if (!cJSON_IsObject(object))
        return read_refuse(reader, object, "an object");
    if (shape->blank != NULL)
        memcpy(into, shape->blank, shape->size);
    else
        memset(into, 0, shape->size);
    for (const cJSON *value = object->child; value != NULL; value = value->next) {
        if (!read_member(reader, value, shape, into))
            return false;
    }
    return check_needs(reader, object, shape) && (shape->finish == NULL || shape->finish(reader, object, into));
}

static bool count_items(struct reader *reader, const cJSON *value, const struct list *list, size_t *count)
{
    if (!cJSON_IsArray(value))
        return read_refuse(reader, value, "a list");
    *count = 0;
    for (const cJSON *item = value->child; item != NULL; item = item->next)
        ++*count;
    if (*count > list->most)
        return read_fail(reader, LW_FULL, "found %zu %s, expected at most %zu", *count, list->things, list->most);
    return true;
}

static bool fill_items(struct reader *reader, const cJSON *value, const struct list *list, char *items)
{
    uint32_t id = 0;

    for (const cJSON *item = value->child; item != NULL; item = item->next, id++) {
        char *place = items + id * list->shape->size;
        read_enter(reader, NULL, id);
        if (!read_shape(reader, item, list->shape, place))
            return false;
        if (list->numbered)
            memcpy(place, &(uint32_t){id + 1}, sizeof id);
        read_leave(reader);
    }
    return true;
}

bool read_items(struct reader *reader, const cJSON *value, const struct list *list, void *items, int *count)
{
    size_t counted;

    if (!count_items(reader, value, list, &counted))
        return false;
    *count = (int)counted;
    return fill_items(reader, value, list, items);
}

void *read_new_items(struct reader *reader, const cJSON *value, const struct list *list, size_t *count)
{
    void *items;

    if (!count_items(reader, value, list, count))
        return NULL;
    items = cJSON_malloc((*count + 1) * list->shape->size);
    if (items == NULL) {
        read_fail(reader, LW_FULL, "there is not enough memory to read it");
        return NULL;
    }
    if (!fill_items(reader, value, list, items)) {
        cJSON_free(items);
        return NULL;
    }
    return items;
}
