/* read_parts.c - parts that more than one object of the format has: pieces, moulds, purities, saponification values. */
#include "exchange/read.h"

#include "lyeway/names.h"

static const char *class_at(int i)
{
    return i <= PIECE_FLOWER ? name_of_class((enum piece_class)i) : NULL;
}

bool read_pieces(struct reader *reader, const cJSON *value, void *pieces)
{
    /* clang-format off */
    static const struct member member[] = {
        {"count",          MEMBER_COUNT,  NEED_ALWAYS, offsetof(struct pieces, count), .measure = MEASURE_COUNT},
        {"mass_g",         MEMBER_NUMBER, NEED_ALWAYS, offsetof(struct pieces, mass_g), .measure = MEASURE_MASS},
        {"kind",           MEMBER_NAME,   NEED_NOT,    offsetof(struct pieces, kind), .measure = 0},
        {"chance_percent", MEMBER_NUMBER, NEED_NOT,    offsetof(struct pieces, chance), .measure = MEASURE_PERCENT},
        {"class",          MEMBER_CHOICE, NEED_NOT,    offsetof(struct pieces, class),      .choice = class_at},
        {"first_time",     MEMBER_FLAG,   NEED_NOT,    offsetof(struct pieces, first_time), .measure = 0},
    };
    /* clang-format on */
    static const struct shape shape = {
        member, sizeof member / sizeof member[0], ONE_OF_NONE, sizeof(struct pieces), NULL, NULL};

    return read_shape(reader, value, &shape, pieces);
}

static bool read_box(struct reader *reader, const cJSON *value, void *into)
{
    struct mould *mould = into;
    double mm[3];

    if (!read_numbers(reader, value, MEASURE_LENGTH, 3, mm, "three numbers: length, width and height in mm"))
        return false;
    mould->length_mm = mm[0];
    mould->width_mm = mm[1];
    mould->height_mm = mm[2];
    return true;
}

static bool read_cylinder(struct reader *reader, const cJSON *value, void *into)
{
    struct mould *mould = into;
    double mm[2];

    if (!read_numbers(reader, value, MEASURE_LENGTH, 2, mm, "two numbers: diameter and height in mm"))
        return false;
    mould->diameter_mm = mm[0];
    mould->height_mm = mm[1];
    return true;
}

static bool finish_mould(struct reader *reader, const cJSON *object, void *into)
{
    (void)into;
    if (json_member(object, "cavities") != NULL && json_member(object, "cavity_ml") == NULL)
        return read_fail(reader, LW_INVALID, "found \"cavities\" alone, expected \"cavity_ml\" beside it");
    if (json_member(object, "cavity_ml") != NULL && json_member(object, "cavities") == NULL)
        return read_fail(reader, LW_INVALID, "found \"cavity_ml\" alone, expected \"cavities\" beside it");
    return true;
}

bool read_mould(struct reader *reader, const cJSON *value, void *mould)
{
    enum { SHAPE = offsetof(struct mould, shape) };
    /* clang-format off */
    static const struct member member[] = {
        {"box_mm",       MEMBER_OTHER,  NEED_ONE_OF, 0, .read = read_box,
         .tagged = true, .tag_offset = SHAPE, .tag = MOULD_BOX},
        {"cylinder_mm",  MEMBER_OTHER,  NEED_ONE_OF, 0, .read = read_cylinder,
         .tagged = true, .tag_offset = SHAPE, .tag = MOULD_CYLINDER},
        {"ml",           MEMBER_NUMBER, NEED_ONE_OF, offsetof(struct mould, volume_ml), .measure = MEASURE_VOLUME,
         .tagged = true, .tag_offset = SHAPE, .tag = MOULD_VOLUME},
        {"cavities",     MEMBER_COUNT,  NEED_ONE_OF, offsetof(struct mould, cavities), .measure = MEASURE_COUNT,
         .tagged = true, .tag_offset = SHAPE, .tag = MOULD_CAVITIES},
        {"cavity_ml",    MEMBER_NUMBER, NEED_NOT,    offsetof(struct mould, volume_ml), .measure = MEASURE_VOLUME},
        {"fill_percent", MEMBER_NUMBER, NEED_NOT,    offsetof(struct mould, fill), .measure = MEASURE_PERCENT},
    };
    /* clang-format on */
    static const struct mould blank = {.fill = 1};
    static const struct shape shape = {
        member, sizeof member / sizeof member[0], ONE_OF_EXACTLY, sizeof blank, &blank, finish_mould};

    return read_shape(reader, value, &shape, mould);
}

static bool read_purity_value(struct reader *reader, const cJSON *value, void *nominal)
{
    return read_number(reader, value, MEASURE_PURITY, nominal);
}

static bool read_purity_range(struct reader *reader, const cJSON *value, void *into)
{
    struct ranged *ranged = into;

    return read_range(reader, value, MEASURE_PURITY, &ranged->lo, &ranged->hi);
}

static bool finish_purity(struct reader *reader, const cJSON *object, void *into)
{
    const struct ranged *ranged = into;

    (void)object;
    if (ranged->nominal < ranged->lo || ranged->nominal > ranged->hi)
        return read_fail(reader, LW_INVALID, "found a range that does not hold \"nominal\", expected one that does");
    return true;
}

bool read_purity(struct reader *reader, const cJSON *value, void *into)
{
    static const struct member member[] = {
        {"nominal", MEMBER_OTHER, NEED_ALWAYS, offsetof(struct ranged, nominal), .read = read_purity_value},
        {"range", MEMBER_OTHER, NEED_ALWAYS, 0, .read = read_purity_range},
    };
    static const struct shape shape = {member, 2, ONE_OF_NONE, sizeof(struct ranged), NULL, finish_purity};
    struct ranged *ranged = into;
    bool read;

    if (cJSON_IsObject(value)) {
        read = read_shape(reader, value, &shape, ranged);
    } else if (cJSON_IsArray(value)) {
        read = read_purity_range(reader, value, ranged);
        ranged->nominal = (ranged->lo + ranged->hi) / 2;
    } else {
        read = read_number(reader, value, MEASURE_PURITY, &ranged->nominal);
        ranged->lo = ranged->hi = ranged->nominal;
    }
    ranged->given = read;
    return read;
}

bool read_sap(struct reader *reader, const cJSON *value, void *into)
{
    struct ranged *sap = into;

    sap->given = true;
    return read_number(reader, value, MEASURE_SAP, &sap->nominal);
}

bool read_sap_range(struct reader *reader, const cJSON *value, void *into)
{
    struct ranged *sap = into;

    return read_range(reader, value, MEASURE_SAP, &sap->lo, &sap->hi);
}

bool read_sap_finish(struct reader *reader, const cJSON *object, struct ranged *sap)
{
    if (json_member(object, "sap_range") == NULL)
        return true;
    if (!sap->given)
        return read_fail(reader, LW_INVALID, "found \"sap_range\" alone, expected \"sap\" beside it");
    read_enter(reader, "sap_range", 0);
    if (sap->nominal < sap->lo || sap->nominal > sap->hi)
        return read_fail(reader, LW_INVALID, "found a range that does not hold \"sap\", expected one that does");
    read_leave(reader);
    return true;
}
