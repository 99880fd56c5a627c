/* read_portion.c - the members of a portion and its colourants. */
#include "exchange/read.h"

#include "lyeway/names.h"

static const char *technique_at(int i)
{
    return i <= TECHNIQUE_MOULD ? name_of_technique((enum technique)i) : NULL;
}

/* Grams of oil that a gram of colourant is stirred into where the recipe names a carrier but no ratio: common practice
 * is one to two parts, the wetter end leaves no dry specks. */
#define CARRIER_RATIO 2

static bool finish_colourant(struct reader *reader, const cJSON *object, void *into)
{
    static const char *const needs_oil[] = {"carrier_ratio", "carrier_extra"};
    struct recipe_colourant *colourant = into;

    for (size_t i = 0; i < 2 && colourant->carrier_oil[0] == '\0'; i++) {
        if (json_member(object, needs_oil[i]) != NULL)
            return read_fail(reader, LW_INVALID, "found \"%s\" alone, expected \"carrier_oil\" beside it",
                             needs_oil[i]);
    }
    if (colourant->carrier_oil[0] != '\0' && json_member(object, "carrier_ratio") == NULL)
        colourant->carrier_ratio = CARRIER_RATIO;
    return true;
}

static const struct list *colourant_list(void)
{
    enum { BY = offsetof(struct recipe_colourant, by), VALUE = offsetof(struct recipe_colourant, value) };
    /* clang-format off */
    static const struct member member[] = {
        {"colourant",          MEMBER_NAME,   NEED_ALWAYS, offsetof(struct recipe_colourant, name), .measure = 0},
        {"g_per_kg_oils",      MEMBER_NUMBER, NEED_ONE_OF, VALUE, .measure = MEASURE_PER_KG,
         .tagged = true, .tag_offset = BY, .tag = COLOUR_PER_KG_OILS},
        {"grams",              MEMBER_NUMBER, NEED_ONE_OF, VALUE, .measure = MEASURE_MASS,
         .tagged = true, .tag_offset = BY, .tag = COLOUR_GRAMS},
        {"percent_of_portion", MEMBER_NUMBER, NEED_ONE_OF, VALUE, .measure = MEASURE_PERCENT,
         .tagged = true, .tag_offset = BY, .tag = COLOUR_OF_PORTION},
        {"parts",              MEMBER_NUMBER, NEED_ONE_OF, VALUE, .measure = MEASURE_RATIO,
         .tagged = true, .tag_offset = BY, .tag = COLOUR_PARTS},
        {"carrier_oil",        MEMBER_NAME,   NEED_NOT, offsetof(struct recipe_colourant, carrier_oil), .measure = 0},
        {"carrier_ratio",      MEMBER_NUMBER, NEED_NOT, offsetof(struct recipe_colourant, carrier_ratio), .measure = MEASURE_RATIO},
        {"carrier_extra",      MEMBER_NOT,    NEED_NOT, offsetof(struct recipe_colourant, carrier_reserved), .measure = 0},
    };
    /* clang-format on */
    static const struct shape shape = {member,         sizeof member / sizeof member[0],
                                       ONE_OF_EXACTLY, sizeof(struct recipe_colourant),
                                       NULL,           finish_colourant};
    static const struct list list = {&shape, PORTION_COLOURANTS, true, "colourants"};

    return &list;
}

static bool read_colourants(struct reader *reader, const cJSON *value, void *into)
{
    struct recipe_portion *portion = into;

    return read_items(reader, value, colourant_list(), portion->colourant, &portion->colourants);
}

static bool read_blend(struct reader *reader, const cJSON *value, void *portion)
{
    enum { BY = offsetof(struct recipe_portion, blend_by), VALUE = offsetof(struct recipe_portion, blend_value) };
    /* clang-format off */
    static const struct member member[] = {
        {"g_per_kg_oils",      MEMBER_NUMBER, NEED_ONE_OF, VALUE, .measure = MEASURE_PER_KG,
         .tagged = true, .tag_offset = BY, .tag = COLOUR_PER_KG_OILS},
        {"grams",              MEMBER_NUMBER, NEED_ONE_OF, VALUE, .measure = MEASURE_MASS,
         .tagged = true, .tag_offset = BY, .tag = COLOUR_GRAMS},
        {"percent_of_portion", MEMBER_NUMBER, NEED_ONE_OF, VALUE, .measure = MEASURE_PERCENT,
         .tagged = true, .tag_offset = BY, .tag = COLOUR_OF_PORTION},
    };
    /* clang-format on */
    static const struct shape shape = {member, sizeof member / sizeof member[0], ONE_OF_EXACTLY, 0, NULL, NULL};

    return read_shape(reader, value, &shape, portion);
}

static bool read_rest(struct reader *reader, const cJSON *value, void *unused)
{
    (void)unused;
    return cJSON_IsTrue(value) || read_refuse(reader, value, "true, or no \"rest\" at all");
}

static bool has_parts(const struct recipe_portion *portion)
{
    for (int i = 0; i < portion->colourants; i++) {
        if (portion->colourant[i].by == COLOUR_PARTS)
            return true;
    }
    return false;
}

static bool finish_portion(struct reader *reader, const cJSON *object, void *into)
{
    static const char *const demands[] = {"percent", "grams", "layer_mm", "rest"};
    struct recipe_portion *portion = into;
    bool blend = json_member(object, "blend") != NULL, demanded = false;

    for (size_t i = 0; i < sizeof demands / sizeof demands[0]; i++)
        demanded = demanded || json_member(object, demands[i]) != NULL;
    portion->has_pieces = json_member(object, "pieces") != NULL;
    if (!demanded && !portion->has_pieces)
        return read_fail(reader, LW_INVALID,
                         "found none of percent, grams, layer_mm, rest, pieces, expected one of them");
    if (!demanded)
        portion->demand = DEMAND_PIECES;
    if (json_member(object, "technique") == NULL)
        portion->technique = portion->has_pieces ? TECHNIQUE_PIPE : TECHNIQUE_POUR;
    if (blend && !has_parts(portion))
        return read_fail(reader, LW_INVALID, "found a \"blend\", expected a colourant in \"parts\" to share it");
    if (!blend && has_parts(portion))
        return read_fail(reader, LW_INVALID, "found a colourant in \"parts\", expected a \"blend\" for the portion");
    return true;
}

bool read_portions(struct reader *reader, const cJSON *value, void *into)
{
    enum { DEMAND = offsetof(struct recipe_portion, demand), AMOUNT = offsetof(struct recipe_portion, amount) };
    /* clang-format off */
    static const struct member member[] = {
        {"name",       MEMBER_NAME,   NEED_ALWAYS, offsetof(struct recipe_portion, name), .measure = 0},
        {"percent",    MEMBER_NUMBER, NEED_ONE_OF, AMOUNT, .measure = MEASURE_PERCENT,
         .tagged = true, .tag_offset = DEMAND, .tag = DEMAND_SHARE},
        {"grams",      MEMBER_NUMBER, NEED_ONE_OF, AMOUNT, .measure = MEASURE_MASS,
         .tagged = true, .tag_offset = DEMAND, .tag = DEMAND_GRAMS},
        {"layer_mm",   MEMBER_NUMBER, NEED_ONE_OF, AMOUNT, .measure = MEASURE_LENGTH,
         .tagged = true, .tag_offset = DEMAND, .tag = DEMAND_LAYER},
        {"rest",       MEMBER_OTHER,  NEED_ONE_OF, 0, .read = read_rest,
         .tagged = true, .tag_offset = DEMAND, .tag = DEMAND_REST},
        {"pieces",     MEMBER_OTHER,  NEED_NOT, offsetof(struct recipe_portion, pieces),    .read = read_pieces},
        {"scented",    MEMBER_FLAG,   NEED_NOT, offsetof(struct recipe_portion, scented),   .measure = 0},
        {"technique",  MEMBER_CHOICE, NEED_NOT, offsetof(struct recipe_portion, technique), .choice = technique_at},
        {"colourants", MEMBER_OTHER,  NEED_NOT, 0, .read = read_colourants},
        {"blend",      MEMBER_OTHER,  NEED_NOT, 0, .read = read_blend},
    };
    /* clang-format on */
    static const struct shape shape = {
        member, sizeof member / sizeof member[0], ONE_OF_AT_MOST, sizeof(struct recipe_portion), NULL, finish_portion};
    static const struct list list = {&shape, RECIPE_PORTIONS, true, "portions"};
    struct recipe *recipe = into;

    return read_items(reader, value, &list, recipe->portion, &recipe->portions);
}
