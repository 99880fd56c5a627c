/* read_recipe.c - the members of a recipe and what they say of one another. */
#include "exchange/read.h"

#include <math.h>
#include <string.h>

#include "exchange/hex.h"
#include "lyeway/finding.h"
#include "lyeway/names.h"

#define SUM_NOISE     1e-12 /* of adding percents in binary */
#define SUM_TOLERANCE 1e-4  /* percents that should sum to 100 may miss it by 0.01 */

static const char *purpose_at(int i)
{
    return i <= PURPOSE_LIQUID ? name_of_purpose((enum purpose)i) : NULL;
}

static const char *put_in_at(int i)
{
    return i <= PUT_IN_BATTER ? name_of_put_in((enum put_in)i) : NULL;
}

/* The text form of RFC 9562: 8-4-4-4-12 hexadecimal digits. */
static bool read_uuid(struct reader *reader, const cJSON *value, void *into)
{
    static const char form[] = "xxxxxxxx-xxxx-xxxx-xxxx-xxxxxxxxxxxx";
    const char *text = cJSON_IsString(value) ? value->valuestring : "";
    uint8_t uuid[LW_UUID_BYTES] = {0};
    unsigned n = 0;
    bool good = strlen(text) == sizeof form - 1;

    for (size_t i = 0; good && i < sizeof form - 1; i++) {
        if (form[i] == '-') {
            good = text[i] == '-';
            continue;
        }
        good = hex_digit(text[i]) >= 0;
        uuid[n / 2] = (uint8_t)(uuid[n / 2] << 4 | (hex_digit(text[i]) & 15));
        n++;
    }
    if (!good)
        return read_refuse(reader, value, "a UUID of the form %s", form);
    memcpy(into, uuid, sizeof uuid);
    return true;
}

static bool finish_oil(struct reader *reader, const cJSON *object, void *into)
{
    struct recipe_oil *oil = into;

    return read_sap_finish(reader, object, &oil->sap);
}

static bool read_percent_or_grams(struct reader *reader, const cJSON *value, void *amount)
{
    bool percent = strcmp(value->string, "percent") == 0;

    return read_number(reader, value, percent ? MEASURE_PERCENT : MEASURE_MASS, amount);
}

static bool read_oils(struct reader *reader, const cJSON *value, void *into)
{
    /* clang-format off */
    static const struct member member[] = {
        {"oil",       MEMBER_NAME,  NEED_ALWAYS, offsetof(struct recipe_oil, name),   .measure = 0},
        {"percent",   MEMBER_OTHER, NEED_ONE_OF, offsetof(struct recipe_oil, amount), .read = read_percent_or_grams},
        {"grams",     MEMBER_OTHER, NEED_ONE_OF, offsetof(struct recipe_oil, amount), .read = read_percent_or_grams},
        {"sap",       MEMBER_OTHER, NEED_NOT,    offsetof(struct recipe_oil, sap),    .read = read_sap},
        {"sap_range", MEMBER_OTHER, NEED_NOT,    offsetof(struct recipe_oil, sap),    .read = read_sap_range},
    };
    /* clang-format on */
    static const struct shape shape = {
        member, sizeof member / sizeof member[0], ONE_OF_EXACTLY, sizeof(struct recipe_oil), NULL, finish_oil};
    static const struct list list = {&shape, RECIPE_OILS, true, "oils"};
    struct recipe *recipe = into;

    if (!read_items(reader, value, &list, recipe->oil, &recipe->oils))
        return false;
    return recipe->oils > 0 || read_fail(reader, LW_INVALID, "found no oils, expected at least one");
}

static bool read_size(struct reader *reader, const cJSON *value, void *size)
{
    enum { BY = offsetof(struct recipe_size, by) };
    /* clang-format off */
    static const struct member member[] = {
        {"oils_g",   MEMBER_NUMBER, NEED_ONE_OF, offsetof(struct recipe_size, grams),  .measure = MEASURE_MASS,
         .tagged = true, .tag_offset = BY, .tag = SIZE_OILS},
        {"batter_g", MEMBER_NUMBER, NEED_ONE_OF, offsetof(struct recipe_size, grams),  .measure = MEASURE_MASS,
         .tagged = true, .tag_offset = BY, .tag = SIZE_BATTER},
        {"mould",    MEMBER_OTHER,  NEED_ONE_OF, offsetof(struct recipe_size, mould),  .read = read_mould,
         .tagged = true, .tag_offset = BY, .tag = SIZE_MOULD},
        {"pieces",   MEMBER_OTHER,  NEED_ONE_OF, offsetof(struct recipe_size, pieces), .read = read_pieces,
         .tagged = true, .tag_offset = BY, .tag = SIZE_PIECES},
    };
    /* clang-format on */
    /* Not cleared first: the mould may have been read before, from the recipe's own member. */
    static const struct shape shape = {member, sizeof member / sizeof member[0], ONE_OF_EXACTLY, 0, NULL, NULL};

    return read_shape(reader, value, &shape, size);
}

static bool read_alkali(struct reader *reader, const cJSON *value, void *alkali)
{
    /* clang-format off */
    static const struct member member[] = {
        {"potassium_percent",     MEMBER_NUMBER, NEED_NOT, offsetof(struct recipe_alkali, potassium_share),
         .measure = MEASURE_PERCENT},
        {"naoh_purity_percent",   MEMBER_OTHER,  NEED_NOT, offsetof(struct recipe_alkali, purity[ALKALI_NAOH]),
         .read = read_purity},
        {"koh_purity_percent",    MEMBER_OTHER,  NEED_NOT, offsetof(struct recipe_alkali, purity[ALKALI_KOH]),
         .read = read_purity},
        {"naoh_solution_percent", MEMBER_NUMBER, NEED_NOT, offsetof(struct recipe_alkali, solution_share[ALKALI_NAOH]),
         .measure = MEASURE_STRENGTH},
        {"koh_solution_percent",  MEMBER_NUMBER, NEED_NOT, offsetof(struct recipe_alkali, solution_share[ALKALI_KOH]),
         .measure = MEASURE_STRENGTH},
    };
    /* clang-format on */
    static const struct shape shape = {
        member, sizeof member / sizeof member[0], ONE_OF_NONE, sizeof(struct recipe_alkali), NULL, NULL};

    return read_shape(reader, value, &shape, alkali);
}

static const struct list *liquid_list(void)
{
    /* clang-format off */
    static const struct member member[] = {
        {"liquid",           MEMBER_NAME,   NEED_ALWAYS, offsetof(struct recipe_liquid, name), .measure = 0},
        {"percent_of_water", MEMBER_NUMBER, NEED_ALWAYS, offsetof(struct recipe_liquid, share_of_water),
         .measure = MEASURE_PERCENT},
    };
    /* clang-format on */
    static const struct shape shape = {member, 2, ONE_OF_NONE, sizeof(struct recipe_liquid), NULL, NULL};
    static const struct list list = {&shape, RECIPE_LIQUIDS, true, "liquids"};

    return &list;
}

static bool read_liquids(struct reader *reader, const cJSON *value, void *into)
{
    struct recipe_water *water = into;
    double sum = 0;

    if (!read_items(reader, value, liquid_list(), water->liquid, &water->liquids))
        return false;
    for (int i = 0; i < water->liquids; i++)
        sum += water->liquid[i].share_of_water;
    if (sum > 1 + 1e-9)
        return read_fail(reader, LW_INVALID, "found more than 100 percent of the water, expected at most 100 in all");
    return true;
}

static bool read_water(struct reader *reader, const cJSON *value, void *water)
{
    enum { BY = offsetof(struct recipe_water, by), VALUE = offsetof(struct recipe_water, value) };
    /* clang-format off */
    static const struct member member[] = {
        {"strength_percent", MEMBER_NUMBER, NEED_ONE_OF, VALUE, .measure = MEASURE_STRENGTH,
         .tagged = true, .tag_offset = BY, .tag = WATER_STRENGTH},
        {"ratio",            MEMBER_NUMBER, NEED_ONE_OF, VALUE, .measure = MEASURE_RATIO,
         .tagged = true, .tag_offset = BY, .tag = WATER_RATIO},
        {"percent_of_oils",  MEMBER_NUMBER, NEED_ONE_OF, VALUE, .measure = MEASURE_PERCENT,
         .tagged = true, .tag_offset = BY, .tag = WATER_OF_OILS},
        {"temp_c",           MEMBER_NUMBER, NEED_NOT, offsetof(struct recipe_water, temp_c), .measure = MEASURE_WATER_TEMP},
        {"liquids",          MEMBER_OTHER,  NEED_NOT, 0, .read = read_liquids},
    };
    /* clang-format on */
    static const struct recipe_water blank = {.temp_c = 20};
    static const struct shape shape = {member, sizeof member / sizeof member[0], ONE_OF_EXACTLY, sizeof blank, &blank,
                                       NULL};

    return read_shape(reader, value, &shape, water);
}

static const struct list *additive_list(void)
{
    enum { BY = offsetof(struct recipe_additive, by), VALUE = offsetof(struct recipe_additive, value) };
    /* clang-format off */
    static const struct member member[] = {
        {"additive",        MEMBER_NAME,   NEED_ALWAYS, offsetof(struct recipe_additive, name), .measure = 0},
        {"percent_of_oils", MEMBER_NUMBER, NEED_ONE_OF, VALUE, .measure = MEASURE_PERCENT,
         .tagged = true, .tag_offset = BY, .tag = ADDITIVE_OF_OILS},
        {"grams",           MEMBER_NUMBER, NEED_ONE_OF, VALUE, .measure = MEASURE_MASS,
         .tagged = true, .tag_offset = BY, .tag = ADDITIVE_GRAMS},
    };
    /* clang-format on */
    static const struct shape shape = {
        member, sizeof member / sizeof member[0], ONE_OF_EXACTLY, sizeof(struct recipe_additive), NULL, NULL};
    static const struct list list = {&shape, RECIPE_ADDITIVES, true, "additives"};

    return &list;
}

static bool finish_fragrance(struct reader *reader, const cJSON *object, void *into)
{
    struct recipe_fragrance *fragrance = into;

    fragrance->has_limit = json_member(object, "limit_percent") != NULL;
    if (fragrance->limit_from[0] != '\0' && !fragrance->has_limit)
        return read_fail(reader, LW_INVALID, "found \"limit_from\" alone, expected \"limit_percent\" beside it");
    return true;
}

static const struct list *fragrance_list(void)
{
    enum { BY = offsetof(struct recipe_fragrance, by), VALUE = offsetof(struct recipe_fragrance, value) };
    /* clang-format off */
    static const struct member member[] = {
        {"fragrance",         MEMBER_NAME,   NEED_ALWAYS, offsetof(struct recipe_fragrance, name), .measure = 0},
        {"percent_of_oils",   MEMBER_NUMBER, NEED_ONE_OF, VALUE, .measure = MEASURE_PERCENT,
         .tagged = true, .tag_offset = BY, .tag = FRAGRANCE_OF_OILS},
        {"percent_of_batter", MEMBER_NUMBER, NEED_ONE_OF, VALUE, .measure = MEASURE_PERCENT,
         .tagged = true, .tag_offset = BY, .tag = FRAGRANCE_OF_BATTER},
        {"g_per_kg_oils",     MEMBER_NUMBER, NEED_ONE_OF, VALUE, .measure = MEASURE_PER_KG,
         .tagged = true, .tag_offset = BY, .tag = FRAGRANCE_PER_KG_OILS},
        {"limit_percent",     MEMBER_NUMBER, NEED_NOT, offsetof(struct recipe_fragrance, limit_share), .measure = MEASURE_PERCENT},
        {"limit_from",        MEMBER_NAME,   NEED_NOT, offsetof(struct recipe_fragrance, limit_from), .measure = 0},
    };
    /* clang-format on */
    static const struct shape shape = {member,         sizeof member / sizeof member[0],
                                       ONE_OF_EXACTLY, sizeof(struct recipe_fragrance),
                                       NULL,           finish_fragrance};
    static const struct list list = {&shape, RECIPE_FRAGRANCES, true, "fragrances"};

    return &list;
}

static const struct list *scale_list(void)
{
    /* clang-format off */
    static const struct member member[] = {
        {"name",       MEMBER_NAME, NEED_NOT,    offsetof(struct scale, name),        .measure = 0},
        {"division_g", MEMBER_UG,   NEED_ALWAYS, offsetof(struct scale, division_ug), .measure = MEASURE_STEP},
        {"capacity_g", MEMBER_UG,   NEED_ALWAYS, offsetof(struct scale, capacity_ug), .measure = MEASURE_STEP},
        {"accuracy_g", MEMBER_UG,   NEED_NOT,    offsetof(struct scale, accuracy_ug), .measure = MEASURE_MASS_OR_NONE},
        {"vessel_g",   MEMBER_UG,   NEED_NOT,    offsetof(struct scale, vessel_ug),   .measure = MEASURE_MASS_OR_NONE},
    };
    /* clang-format on */
    static const struct shape shape = {
        member, sizeof member / sizeof member[0], ONE_OF_NONE, sizeof(struct scale), NULL, NULL};
    static const struct list list = {&shape, RECIPE_SCALES, false, "scales"};

    return &list;
}

static bool read_additives(struct reader *reader, const cJSON *value, void *into)
{
    struct recipe *recipe = into;

    return read_items(reader, value, additive_list(), recipe->additive, &recipe->additives);
}

static bool read_fragrances(struct reader *reader, const cJSON *value, void *into)
{
    struct recipe *recipe = into;

    return read_items(reader, value, fragrance_list(), recipe->fragrance, &recipe->fragrances);
}

static bool read_scales(struct reader *reader, const cJSON *value, void *into)
{
    struct recipe *recipe = into;

    return read_items(reader, value, scale_list(), recipe->scale, &recipe->scales);
}

/* The codes that can be a remark and say nothing that a stop or caution about lye says. */
static bool can_be_hushed(const cJSON *value, enum finding_code *code)
{
    static const enum finding_code remarks[] = {FINDING_LYE_WORST,    FINDING_DIVISION_COARSE, FINDING_STRENGTH_LOW,
                                                FINDING_SAP_NO_RANGE, FINDING_COLOUR_SHIFTS,   FINDING_RANCID_RISK,
                                                FINDING_SCALE_SMALL};

    for (size_t i = 0; cJSON_IsString(value) && i < sizeof remarks / sizeof remarks[0]; i++) {
        if (strcmp(value->valuestring, finding_name(remarks[i])) == 0) {
            *code = remarks[i];
            return true;
        }
    }
    return false;
}

static bool read_hushed(struct reader *reader, const cJSON *value, void *into)
{
    uint32_t *hushed = into;
    size_t i = 0;
    enum finding_code code = FINDING_COUNT;

    if (!cJSON_IsArray(value) || cJSON_GetArraySize(value) > 32)
        return read_refuse(reader, value, "a list of at most 32 codes of remarks");
    for (const cJSON *item = value->child; item != NULL; item = item->next, i++) {
        read_enter(reader, NULL, i);
        if (!can_be_hushed(item, &code))
            return read_refuse(reader, item, "the code of a finding that can be a remark");
        *hushed |= UINT32_C(1) << code;
        read_leave(reader);
    }
    return true;
}

static bool refuse_sum(struct reader *reader, double sum)
{
    cJSON found = {.type = cJSON_Number, .valuedouble = sum * 100};

    read_enter(reader, "oils", 0);
    return read_refuse(reader, &found, "percents that sum to 100 within 0.01");
}

/* All in percent, which are then brought to sum to 1, or all in grams. */
static bool finish_oils(struct reader *reader, const cJSON *object, struct recipe *recipe)
{
    const cJSON *first = json_member(object, "oils")->child;
    bool grams = json_member(first, "grams") != NULL;
    double sum = 0;
    size_t i = 0;

    for (const cJSON *oil = first; oil != NULL; oil = oil->next, i++) {
        if ((json_member(oil, "grams") != NULL) == grams)
            continue;
        read_enter(reader, "oils", 0);
        read_enter(reader, NULL, i);
        return read_fail(reader, LW_INVALID,
                         "found percent and grams in one recipe, expected one kind for all of its oils");
    }
    recipe->oils_by = grams ? OILS_BY_GRAMS : OILS_BY_SHARE;
    if (grams)
        return true;
    for (int k = 0; k < recipe->oils; k++)
        sum += recipe->oil[k].amount;
    if (fabs(sum - 1) > SUM_TOLERANCE + 1e-12)
        return refuse_sum(reader, sum);
    /* Percents that do sum to 100 stay as they were written: dividing by 0.9999999999999999 would only blur them. */
    for (int k = 0; k < recipe->oils && fabs(sum - 1) > SUM_NOISE; k++)
        recipe->oil[k].amount /= sum;
    return true;
}

static bool finish_recipe(struct reader *reader, const cJSON *object, void *into)
{
    struct recipe *recipe = into;

    if (!finish_oils(reader, object, recipe))
        return false;
    if (recipe->oils_by == OILS_BY_SHARE && json_member(object, "size") == NULL)
        return read_fail(reader, LW_INVALID, "found no \"size\", expected one since the oils are in percent");
    if (json_member(object, "mould") != NULL && recipe->size.by == SIZE_MOULD)
        return read_fail(reader, LW_INVALID, "found \"mould\" beside a size by a mould, expected only one mould");
    recipe->size.has_mould = json_member(object, "mould") != NULL || recipe->size.by == SIZE_MOULD;
    return true;
}

bool read_recipes(struct reader *reader, const cJSON *value, void *into)
{
    enum { RESIDUE = offsetof(struct recipe, residue), RESIDUE_BY = offsetof(struct recipe, residue_by) };
    /* clang-format off */
    static const struct member member[] = {
        {"name",             MEMBER_NAME,   NEED_ALWAYS, offsetof(struct recipe, name),       .measure = 0},
        {"oils",             MEMBER_OTHER,  NEED_ALWAYS, 0,                                   .read = read_oils},
        {"superfat_percent", MEMBER_NUMBER, NEED_ALWAYS, offsetof(struct recipe, superfat),   .measure = MEASURE_SUPERFAT},
        {"water",            MEMBER_OTHER,  NEED_ALWAYS, offsetof(struct recipe, water),      .read = read_water},
        {"uuid",             MEMBER_OTHER,  NEED_NOT,    offsetof(struct recipe, uuid),       .read = read_uuid},
        {"revision",         MEMBER_COUNT,  NEED_NOT,    offsetof(struct recipe, revision),   .measure = MEASURE_REVISION},
        {"note",             MEMBER_NOTE,   NEED_NOT,    offsetof(struct recipe, note),       .measure = 0},
        {"purpose",          MEMBER_CHOICE, NEED_NOT,    offsetof(struct recipe, purpose),    .choice = purpose_at},
        {"size",             MEMBER_OTHER,  NEED_NOT,    offsetof(struct recipe, size),       .read = read_size},
        {"mould",            MEMBER_OTHER,  NEED_NOT,    offsetof(struct recipe, size.mould), .read = read_mould},
        {"alkali",           MEMBER_OTHER,  NEED_NOT,    offsetof(struct recipe, alkali),     .read = read_alkali},
        {"additives",        MEMBER_OTHER,  NEED_NOT,    0,                                   .read = read_additives},
        {"fragrance",        MEMBER_OTHER,  NEED_NOT,    0,                                   .read = read_fragrances},
        {"scent",            MEMBER_CHOICE, NEED_NOT,    offsetof(struct recipe, scent),      .choice = put_in_at},
        {"colour",           MEMBER_CHOICE, NEED_NOT,    offsetof(struct recipe, colour),     .choice = put_in_at},
        {"scales",           MEMBER_OTHER,  NEED_NOT,    0,                                   .read = read_scales},
        {"portions",         MEMBER_OTHER,  NEED_NOT,    0,                                   .read = read_portions},
        {"hushed",           MEMBER_OTHER,  NEED_NOT,    offsetof(struct recipe, hushed),     .read = read_hushed},
        {"jug_residue_g",       MEMBER_NUMBER, NEED_ONE_OF, RESIDUE, .measure = MEASURE_MASS_OR_NONE,
         .tagged = true, .tag_offset = RESIDUE_BY, .tag = RESIDUE_GRAMS},
        {"jug_residue_percent", MEMBER_NUMBER, NEED_ONE_OF, RESIDUE, .measure = MEASURE_PERCENT,
         .tagged = true, .tag_offset = RESIDUE_BY, .tag = RESIDUE_SHARE},
    };
    /* clang-format on */
    static const struct shape shape = {
        member, sizeof member / sizeof member[0], ONE_OF_AT_MOST, sizeof(struct recipe), NULL, finish_recipe};
    static const struct list list = {&shape, 2000, false, "recipes"};
    struct recipe_file *file = into;

    file->recipe = read_new_items(reader, value, &list, &file->recipes);
    return file->recipe != NULL;
}
