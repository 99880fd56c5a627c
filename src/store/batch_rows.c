/* batch_rows.c - members in the order of the columns in sql.c; words as the CHECKs of schema/002.sql and 003.sql have them. */
#include "store/batch_rows.h"

#include "store/batches.h"

/* clang-format off */
#define COUNT(array) ((int)(sizeof(array) / sizeof(array)[0]))
#define WORDS(array) {COUNT(array), array}
#define MEMBERS(array) {array, COUNT(array)}
#define TEXT(type, name) {MEMBER_TEXT, offsetof(type, name), sizeof(((type *)0)->name), NULL}
#define REAL(type, name) {MEMBER_REAL, offsetof(type, name), 0, NULL}
#define INT(type, name) {MEMBER_INT, offsetof(type, name), 0, NULL}
#define INT16(type, name) {MEMBER_INT16, offsetof(type, name), 0, NULL}
#define INT64(type, name) {MEMBER_INT64, offsetof(type, name), 0, NULL}
#define BOOL(type, name) {MEMBER_BOOL, offsetof(type, name), 0, NULL}
#define WORD(type, name, words) {MEMBER_WORD, offsetof(type, name), 0, &(words)}

static const char *const step_kind[] = {
#define X(code, name) [STEP_##code] = (name),
    STEP_KINDS(X)
#undef X
};
static const char *const event_kind[] = {
#define X(code, name) [EVENT_##code] = (name),
    EVENT_KINDS(X)
#undef X
};
/* A constituent and a size are nothing that something at the bench can be about: the schema has no rows with them. */
static const char *const part[] = {
    [PART_BATTER] = "batter",       [PART_OIL] = "oil",
    [PART_ALKALI] = "alkali",       [PART_WATER] = "water",
    [PART_LIQUID] = "liquid",       [PART_ADDITIVE] = "additive",
    [PART_FRAGRANCE] = "fragrance", [PART_PORTION] = "portion",
    [PART_COLOURANT] = "colourant", [PART_CONSTITUENT] = "constituent",
    [PART_SIZE] = "size",           [PART_CARRIER] = "carrier",
};
static const char *const vessel_use[] = {"none", "lye", "jug", "alkali cup", "cup", "bag"};

static const struct member_words step_kinds = WORDS(step_kind);
static const struct member_words event_kinds = WORDS(event_kind);
static const struct member_words parts = WORDS(part);
static const struct member_words vessel_uses = WORDS(vessel_use);

static const struct member line[] = {
    INT64(struct batch_line, id),
    TEXT(struct batch_line, number),
    TEXT(struct batch_line, name),
    INT64(struct batch_line, started_s),
    INT64(struct batch_line, finished_s),
    BOOL(struct batch_line, set_aside),
    INT64(struct batch_line, oils_ug),
};

static const struct member head[] = {
    TEXT(struct batch_head, number),
    TEXT(struct batch_head, name),
    INT64(struct batch_head, recipe_id),
    INT(struct batch_head, revision),
    INT64(struct batch_head, started_s),
    INT(struct batch_head, offset_s),
};

static const struct member vessel[] = {
    TEXT(struct batch_vessel, name),
    INT64(struct batch_vessel, empty_ug),
};

static const struct member step[] = {
    INT64(struct step, id),
    WORD(struct step, kind, step_kinds),
    REAL(struct step, place),
    WORD(struct step, what.part, parts),
    INT16(struct step, what.index),
    INT16(struct step, what.sub),
    WORD(struct step, use, vessel_uses),
    INT(struct step, vessel),
    INT64(struct step, target_ug),
    TEXT(struct step, text),
};

static const struct member event[] = {
    INT64(struct batch_event, id),
    INT64(struct batch_event, at_s),
    WORD(struct batch_event, kind, event_kinds),
    INT64(struct batch_event, step),
    WORD(struct batch_event, what.part, parts),
    INT16(struct batch_event, what.index),
    INT16(struct batch_event, what.sub),
    INT64(struct batch_event, mass_ug),
    INT64(struct batch_event, planned_ug),
    INT64(struct batch_event, reading_ug),
    INT(struct batch_event, scale),
    REAL(struct batch_event, number[0]),
    REAL(struct batch_event, number[1]),
    INT64(struct batch_event, other),
    TEXT(struct batch_event, text),
};

static const struct members line_members = MEMBERS(line);
static const struct members head_members = MEMBERS(head);
static const struct members vessel_members = MEMBERS(vessel);
static const struct members step_members = MEMBERS(step);
static const struct members event_members = MEMBERS(event);
/* clang-format on */

const struct members *batch_line_members(void)
{
    return &line_members;
}

const struct members *batch_head_members(void)
{
    return &head_members;
}

const struct members *batch_vessel_members(void)
{
    return &vessel_members;
}

const struct members *batch_step_members(void)
{
    return &step_members;
}

const struct members *batch_event_members(void)
{
    return &event_members;
}
