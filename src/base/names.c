/* names.c - the names of the model's enumerations, one table each. */
#include "lyeway/names.h"

#include <string.h>

static const char *const purposes[] = {
    [PURPOSE_SKIN] = "skin",
    [PURPOSE_SHAVING] = "shaving",
    [PURPOSE_CLEANING] = "cleaning",
    [PURPOSE_LIQUID] = "liquid",
};

static const char *const techniques[] = {
    [TECHNIQUE_POUR] = "pour", [TECHNIQUE_SWIRL] = "swirl", [TECHNIQUE_LAYER] = "layer",
    [TECHNIQUE_PIPE] = "pipe", [TECHNIQUE_MOULD] = "mould",
};

static const char *const classes[] = {[PIECE_SIMPLE] = "simple", [PIECE_FLOWER] = "flower"};
static const char *const alkalis[] = {[ALKALI_NAOH] = "NaOH", [ALKALI_KOH] = "KOH"};
static const char *const put_ins[] = {[PUT_IN_PORTIONS] = "portions", [PUT_IN_BATTER] = "batter"};

static const char *const standings[] = {
    [STANDING_CERTIFICATE] = "certificate", [STANDING_OWN] = "own",           [STANDING_SEEN] = "published",
    [STANDING_COMPUTED] = "computed",       [STANDING_PRACTICE] = "practice", [STANDING_MEMORY] = "memory",
};

static const char *const levels[] = {
    [LEVEL_STOP] = "stop",
    [LEVEL_CAUTION] = "caution",
    [LEVEL_REMARK] = "remark",
};

static const char *const findings[] = {
#define X(code, name) [FINDING_##code] = (name),
    FINDING_CODES(X)
#undef X
};

static const char *const parts[] = {
    [PART_BATTER] = "batter",       [PART_OIL] = "oil",
    [PART_ALKALI] = "alkali",       [PART_WATER] = "water",
    [PART_LIQUID] = "liquid",       [PART_ADDITIVE] = "additive",
    [PART_FRAGRANCE] = "fragrance", [PART_PORTION] = "portion",
    [PART_COLOURANT] = "colourant", [PART_CONSTITUENT] = "constituent",
    [PART_SIZE] = "size",           [PART_CARRIER] = "carrier",
};

static const char *const steps[] = {
#define X(code, name) [STEP_##code] = (name),
    STEP_KINDS(X)
#undef X
};

static const char *const events[] = {
#define X(code, name) [EVENT_##code] = (name),
    EVENT_KINDS(X)
#undef X
};

static const char *const outcomes[] = {"on the bench", "made", "released", "on hold", "rejected", "set aside"};
static const char *const figures[] = {
#define X(code, word, title, unit) [BOOK_##code] = (word),
    BOOK_FIGURES(X)
#undef X
};
static const char *const vessel_uses[] = {
    [VESSEL_NONE] = "none", [VESSEL_LYE] = "lye", [VESSEL_JUG] = "jug", [VESSEL_ALKALI_CUP] = "alkali cup",
    [VESSEL_CUP] = "cup",   [VESSEL_BAG] = "bag",
};

struct table {
    const char *const *name;
    size_t n;
};

#define TABLE(names) ((struct table){(names), sizeof(names) / sizeof(names)[0]})

static const char *name_at(struct table table, size_t i)
{
    return i < table.n ? table.name[i] : "?";
}

static bool index_named(struct table table, const char *name, size_t *index)
{
    for (size_t i = 0; i < table.n; i++) {
        if (strcmp(name, table.name[i]) == 0) {
            *index = i;
            return true;
        }
    }
    return false;
}

const char *name_of_purpose(enum purpose purpose)
{
    return name_at(TABLE(purposes), purpose);
}

const char *name_of_technique(enum technique technique)
{
    return name_at(TABLE(techniques), technique);
}

const char *name_of_class(enum piece_class class)
{
    return name_at(TABLE(classes), class);
}

const char *name_of_alkali(enum alkali alkali)
{
    return name_at(TABLE(alkalis), alkali);
}

const char *name_of_put_in(enum put_in put_in)
{
    return name_at(TABLE(put_ins), put_in);
}

const char *name_of_standing(enum standing standing)
{
    return name_at(TABLE(standings), standing);
}

const char *name_of_part(enum part part)
{
    return name_at(TABLE(parts), part);
}

const char *name_of_step(enum step_kind kind)
{
    return name_at(TABLE(steps), kind);
}

const char *name_of_event(enum event_kind kind)
{
    return name_at(TABLE(events), kind);
}

const char *name_of_outcome(enum book_outcome outcome)
{
    return name_at(TABLE(outcomes), outcome);
}

const char *name_of_figure(enum book_figure figure)
{
    return name_at(TABLE(figures), figure);
}

const char *name_of_vessel_use(enum vessel_use use)
{
    return name_at(TABLE(vessel_uses), use);
}

const char *finding_name(enum finding_code code)
{
    return name_at(TABLE(findings), code);
}

const char *finding_level_name(enum finding_level level)
{
    return name_at(TABLE(levels), level);
}

bool purpose_named(const char *name, enum purpose *value)
{
    size_t index;
    if (!index_named(TABLE(purposes), name, &index))
        return false;
    *value = (enum purpose)index;
    return true;
}

bool technique_named(const char *name, enum technique *value)
{
    size_t index;
    if (!index_named(TABLE(techniques), name, &index))
        return false;
    *value = (enum technique)index;
    return true;
}

bool class_named(const char *name, enum piece_class *value)
{
    size_t index;
    if (!index_named(TABLE(classes), name, &index))
        return false;
    *value = (enum piece_class)index;
    return true;
}

bool put_in_named(const char *name, enum put_in *value)
{
    size_t index;
    if (!index_named(TABLE(put_ins), name, &index))
        return false;
    *value = (enum put_in)index;
    return true;
}
