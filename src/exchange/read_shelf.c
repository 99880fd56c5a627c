/* read_shelf.c - the maker's own ingredients, as rows of the same form as the reference facts. A row speaks with the
 * maker's own standing, and what the file does not say stays not known.
 */
#include "exchange/read.h"

#include <math.h>
#include <string.h>

#include "base/text.h"
#include "exchange/hex.h"

enum { SHELF_ROWS = 2000 }; /* of each kind */

/* Acids of an oil need not sum to 100 as published; further off than this is a slip. */
#define ACIDS_LEAST 0.9
#define ACIDS_MOST  1.1

static const char *kind_at(int i)
{
    static const char *const names[] = {"liquid", "butter", "fat", "wax", "acid"};

    return i <= OIL_ACID ? names[i] : NULL;
}

static const char *behaviour_at(int i)
{
    static const char *const names[] = {"stable", "shifts-returns", "shifts", "fades", "bleeds"};

    return i <= ALKALI_BLEEDS ? names[i] : NULL;
}

static const char *acceleration_at(int i)
{
    static const char *const names[] = {"slows", "none", "some", "strong"};

    return i <= ACCELERATION_STRONG ? names[i] : NULL;
}

static bool read_own_sap_range(struct reader *reader, const cJSON *value, void *into)
{
    struct oil_fact *oil = into;

    return read_range(reader, value, MEASURE_SAP, &oil->sap_lo, &oil->sap_hi);
}

static bool read_iodine(struct reader *reader, const cJSON *value, void *into)
{
    struct oil_fact *oil = into;

    oil->has_iodine = true;
    return read_range(reader, value, MEASURE_IODINE, &oil->iodine_lo, &oil->iodine_hi);
}

static bool read_melt(struct reader *reader, const cJSON *value, void *into)
{
    struct oil_fact *oil = into;

    oil->has_melt = true;
    return read_number(reader, value, MEASURE_MELT_TEMP, &oil->melt_c);
}

static int acid_named(const struct reference *reference, const char *key)
{
    for (int i = 0; i < ACIDS; i++) {
        if (strcmp(reference->acid[i].key, key) == 0)
            return i;
    }
    return -1;
}

static bool read_acid(struct reader *reader, const cJSON *value, struct oil_fact *oil)
{
    int acid = acid_named(reader->reference, value->string);

    read_enter(reader, value->string, 0);
    if (acid < 0)
        return read_fail(reader, LW_INVALID,
                         "found a fatty acid that is not known, expected one such as \"c12_0\" or \"ricinoleic\"");
    if (!read_number(reader, value, MEASURE_PERCENT, &oil->acid[acid]))
        return false;
    read_leave(reader);
    return true;
}

static bool read_acids(struct reader *reader, const cJSON *value, void *into)
{
    struct oil_fact *oil = into;
    double sum = 0;

    if (!cJSON_IsObject(value) || value->child == NULL)
        return read_refuse(reader, value, "an object of fatty acids in percent");
    for (const cJSON *acid = value->child; acid != NULL; acid = acid->next) {
        if (!read_acid(reader, acid, oil))
            return false;
    }
    for (int i = 0; i < ACIDS; i++)
        sum += oil->acid[i];
    if (sum < ACIDS_LEAST || sum > ACIDS_MOST)
        return read_fail(reader, LW_INVALID, "found fatty acids that sum to %ld percent, expected 90 to 110",
                         lround(sum * 100));
    for (int i = 0; i < ACIDS; i++)
        oil->acid_lo[i] = oil->acid_hi[i] = oil->acid[i] /= sum;
    oil->has_acids = true;
    return true;
}

static bool finish_oil(struct reader *reader, const cJSON *object, void *into)
{
    struct oil_fact *oil = into;
    struct ranged sap = {true, oil->sap_lo, oil->sap_nominal, oil->sap_hi};
    double half = oil->sap_nominal * reader->reference->practice->sap_own_half_range;

    if (!read_sap_finish(reader, object, &sap))
        return false;
    if (json_member(object, "sap_range") == NULL) {
        oil->sap_lo = oil->sap_nominal - half;
        oil->sap_hi = oil->sap_nominal + half;
    }
    oil->key = oil->name;
    oil->acid_source = oil->sap_source;
    return true;
}

static const struct list *oil_list(void)
{
    /* clang-format off */
    static const struct member member[] = {
        {"name",           MEMBER_KEPT,   NEED_ALWAYS, offsetof(struct oil_fact, name),            .measure = 0},
        {"sap",            MEMBER_NUMBER, NEED_ALWAYS, offsetof(struct oil_fact, sap_nominal),     .measure = MEASURE_SAP},
        {"sap_range",      MEMBER_OTHER,  NEED_NOT,    0,                                          .read = read_own_sap_range},
        {"inci",           MEMBER_KEPT,   NEED_NOT,    offsetof(struct oil_fact, inci),            .measure = 0},
        {"inci_soap",      MEMBER_KEPT,   NEED_NOT,    offsetof(struct oil_fact, inci_soap),       .measure = 0},
        {"kind",           MEMBER_CHOICE, NEED_NOT,    offsetof(struct oil_fact, kind),            .choice = kind_at},
        {"iodine_range",   MEMBER_OTHER,  NEED_NOT,    0,                                          .read = read_iodine},
        {"density_g_ml",   MEMBER_NUMBER, NEED_NOT,    offsetof(struct oil_fact, density_g_ml),    .measure = MEASURE_DENSITY},
        {"density_temp_c", MEMBER_NUMBER, NEED_NOT,    offsetof(struct oil_fact, density_temp_c),  .measure = MEASURE_MELT_TEMP},
        {"melt_c",         MEMBER_OTHER,  NEED_NOT,    0,                                          .read = read_melt},
        {"acids",          MEMBER_OTHER,  NEED_NOT,    0,                                          .read = read_acids},
        {"source",         MEMBER_SOURCE, NEED_NOT,    offsetof(struct oil_fact, sap_source),      .measure = 0},
    };
    /* clang-format on */
    static const struct oil_fact blank = {.name = "",
                                          .inci = "",
                                          .inci_soap = "",
                                          .sap_source = "",
                                          .acid_source = "",
                                          .note = "",
                                          .density_temp_c = 20,
                                          .sap_standing = STANDING_OWN,
                                          .acid_standing = STANDING_OWN};
    static const struct shape shape = {member,    sizeof member / sizeof member[0], ONE_OF_NONE, sizeof blank, &blank,
                                       finish_oil};
    static const struct list list = {&shape, SHELF_ROWS, false, "oils"};

    return &list;
}

static bool need_beside(struct reader *reader, const cJSON *object, const char *name, const char *beside)
{
    if (json_member(object, name) == NULL || json_member(object, beside) != NULL)
        return true;
    return read_fail(reader, LW_INVALID, "found \"%s\" alone, expected \"%s\" beside it", name, beside);
}

static bool finish_additive(struct reader *reader, const cJSON *object, void *into)
{
    struct additive_fact *additive = into;

    additive->key = additive->name;
    if (!need_beside(reader, object, "equivalents", "molar_mass") ||
        !need_beside(reader, object, "fat_percent", "fat_oil"))
        return false;
    return additive->water_share + additive->fat_share <= 1 + 1e-9 ||
           read_fail(reader, LW_INVALID, "found water and fat over 100 percent, expected at most 100 in all");
}

static const struct list *additive_list(void)
{
    /* clang-format off */
    static const struct member member[] = {
        {"name",           MEMBER_KEPT,   NEED_ALWAYS, offsetof(struct additive_fact, name),         .measure = 0},
        {"inci",           MEMBER_KEPT,   NEED_NOT,    offsetof(struct additive_fact, inci),         .measure = 0},
        {"kind",           MEMBER_KEPT,   NEED_NOT,    offsetof(struct additive_fact, kind),         .measure = 0},
        {"active_percent", MEMBER_NUMBER, NEED_NOT,    offsetof(struct additive_fact, active_share), .measure = MEASURE_PERCENT},
        {"molar_mass",     MEMBER_NUMBER, NEED_NOT,    offsetof(struct additive_fact, molar_mass),   .measure = MEASURE_MOLAR_MASS},
        {"equivalents",    MEMBER_NUMBER, NEED_NOT,    offsetof(struct additive_fact, equivalents),  .measure = MEASURE_EQUIVALENTS},
        {"density_g_ml",   MEMBER_NUMBER, NEED_NOT,    offsetof(struct additive_fact, density_g_ml), .measure = MEASURE_DENSITY},
        {"water_percent",  MEMBER_NUMBER, NEED_NOT,    offsetof(struct additive_fact, water_share),  .measure = MEASURE_PERCENT},
        {"fat_percent",    MEMBER_NUMBER, NEED_NOT,    offsetof(struct additive_fact, fat_share),    .measure = MEASURE_PERCENT},
        {"fat_oil",        MEMBER_KEPT,   NEED_NOT,    offsetof(struct additive_fact, fat_oil),      .measure = 0},
        {"source",         MEMBER_SOURCE, NEED_NOT,    offsetof(struct additive_fact, source),       .measure = 0},
    };
    /* clang-format on */
    static const struct additive_fact blank = {.name = "",
                                               .inci = "",
                                               .kind = "",
                                               .fat_oil = "",
                                               .add_to = "",
                                               .effect = "",
                                               .source = "",
                                               .active_share = 1,
                                               .standing = STANDING_OWN};
    static const struct shape shape = {
        member, sizeof member / sizeof member[0], ONE_OF_NONE, sizeof blank, &blank, finish_additive};
    static const struct list list = {&shape, SHELF_ROWS, false, "additives"};

    return &list;
}

static bool finish_liquid(struct reader *reader, const cJSON *object, void *into)
{
    struct liquid_fact *liquid = into;

    liquid->key = liquid->name;
    if (!need_beside(reader, object, "fat_percent", "fat_oil"))
        return false;
    return liquid->water_share + liquid->fat_share + liquid->sugar_share <= 1 + 1e-9 ||
           read_fail(reader, LW_INVALID, "found water, fat and sugar over 100 percent, expected at most 100 in all");
}

static const struct list *liquid_list(void)
{
    /* clang-format off */
    static const struct member member[] = {
        {"name",            MEMBER_KEPT,   NEED_ALWAYS, offsetof(struct liquid_fact, name),            .measure = 0},
        {"inci",            MEMBER_KEPT,   NEED_NOT,    offsetof(struct liquid_fact, inci),            .measure = 0},
        {"water_percent",   MEMBER_NUMBER, NEED_ALWAYS, offsetof(struct liquid_fact, water_share),     .measure = MEASURE_PURITY},
        {"fat_percent",     MEMBER_NUMBER, NEED_NOT,    offsetof(struct liquid_fact, fat_share),       .measure = MEASURE_PERCENT},
        {"fat_oil",         MEMBER_KEPT,   NEED_NOT,    offsetof(struct liquid_fact, fat_oil),         .measure = 0},
        {"sugar_percent",   MEMBER_NUMBER, NEED_NOT,    offsetof(struct liquid_fact, sugar_share),     .measure = MEASURE_PERCENT},
        {"acid_mol_per_kg", MEMBER_NUMBER, NEED_NOT,    offsetof(struct liquid_fact, acid_mol_per_kg), .measure = MEASURE_ACIDITY},
        {"density_g_ml",    MEMBER_NUMBER, NEED_NOT,    offsetof(struct liquid_fact, density_g_ml),    .measure = MEASURE_DENSITY},
        {"source",          MEMBER_SOURCE, NEED_NOT,    offsetof(struct liquid_fact, source),          .measure = 0},
    };
    /* clang-format on */
    static const struct liquid_fact blank = {
        .name = "", .inci = "", .fat_oil = "", .note = "", .source = "", .standing = STANDING_OWN};
    static const struct shape shape = {
        member, sizeof member / sizeof member[0], ONE_OF_NONE, sizeof blank, &blank, finish_liquid};
    static const struct list list = {&shape, SHELF_ROWS, false, "liquids"};

    return &list;
}

static bool read_dose(struct reader *reader, const cJSON *value, void *into)
{
    struct colourant_fact *colourant = into;

    return read_range(reader, value, MEASURE_PER_KG, &colourant->dose_lo, &colourant->dose_hi);
}

static bool read_swatch(struct reader *reader, const cJSON *value, void *into)
{
    const char *text = cJSON_IsString(value) ? value->valuestring : "";
    bool good = text[0] == '#' && strlen(text) == 7;
    unsigned rgb = 0;

    for (size_t i = 1; good && i < 7; i++) {
        good = hex_digit(text[i]) >= 0;
        rgb = rgb << 4 | ((unsigned)hex_digit(text[i]) & 15U);
    }
    if (!good)
        return read_refuse(reader, value, "a colour such as \"#7a8b5c\"");
    *(unsigned *)into = rgb;
    return true;
}

static bool finish_colourant(struct reader *reader, const cJSON *object, void *into)
{
    struct colourant_fact *colourant = into;

    (void)reader;
    (void)object;
    colourant->key = colourant->name;
    return true;
}

static const struct list *colourant_list(void)
{
    /* clang-format off */
    static const struct member member[] = {
        {"name",               MEMBER_KEPT,   NEED_ALWAYS, offsetof(struct colourant_fact, name),       .measure = 0},
        {"inci",               MEMBER_KEPT,   NEED_NOT,    offsetof(struct colourant_fact, inci),       .measure = 0},
        {"ci_number",          MEMBER_KEPT,   NEED_NOT,    offsetof(struct colourant_fact, ci_number),  .measure = 0},
        {"kind",               MEMBER_KEPT,   NEED_NOT,    offsetof(struct colourant_fact, kind),       .measure = 0},
        {"behaviour",          MEMBER_CHOICE, NEED_NOT,    offsetof(struct colourant_fact, behaviour),  .choice = behaviour_at},
        {"dose_g_per_kg_oils", MEMBER_OTHER,  NEED_NOT,    0,                                       .read = read_dose},
        {"dispersion",         MEMBER_KEPT,   NEED_NOT,    offsetof(struct colourant_fact, dispersion), .measure = 0},
        {"swatch",             MEMBER_OTHER,  NEED_NOT,    offsetof(struct colourant_fact, swatch_rgb), .read = read_swatch},
        {"fresh_swatch",       MEMBER_OTHER,  NEED_NOT,    offsetof(struct colourant_fact, fresh_rgb),  .read = read_swatch},
        {"whitens",            MEMBER_FLAG,   NEED_NOT,    offsetof(struct colourant_fact, whitens),    .measure = 0},
        {"source",             MEMBER_SOURCE, NEED_NOT,    offsetof(struct colourant_fact, source),     .measure = 0},
    };
    /* clang-format on */
    static const struct colourant_fact blank = {.name = "",
                                                .inci = "",
                                                .ci_number = "",
                                                .kind = "",
                                                .behaviour_note = "",
                                                .dispersion = "",
                                                .eu_status = "",
                                                .us_status = "",
                                                .source = "",
                                                .swatch_rgb = 0x808080,
                                                .standing = STANDING_OWN};
    static const struct shape shape = {
        member, sizeof member / sizeof member[0], ONE_OF_NONE, sizeof blank, &blank, finish_colourant};
    static const struct list list = {&shape, SHELF_ROWS, false, "colourants"};

    return &list;
}

static int limit_named(const struct reference *reference, const char *key)
{
    for (size_t i = 0; i < reference->limits; i++) {
        if (text_same(reference->limit[i].key, key) || text_same(reference->limit[i].name, key))
            return (int)i;
    }
    return -1;
}

static bool read_constituent(struct reader *reader, const cJSON *value, struct constituent *constituent)
{
    read_enter(reader, value->string, 0);
    constituent->limit = limit_named(reader->reference, value->string);
    if (constituent->limit < 0)
        return read_fail(
            reader, LW_INVALID,
            "found a constituent that is not known, expected the key of one that is, such as \"linalool\"");
    if (!read_range(reader, value, MEASURE_PERCENT, &constituent->lo, &constituent->hi))
        return false;
    read_leave(reader);
    return true;
}

static bool read_constituents(struct reader *reader, const cJSON *value, void *into)
{
    struct fragrance_fact *fragrance = into;
    struct constituent *constituent;
    size_t n = 0;

    if (!cJSON_IsObject(value) || cJSON_GetArraySize(value) > 96)
        return read_refuse(reader, value, "an object of at most 96 constituents in percent");
    constituent = read_keep(reader, ((size_t)cJSON_GetArraySize(value) + 1) * sizeof *constituent);
    if (constituent == NULL)
        return false;
    for (const cJSON *item = value->child; item != NULL; item = item->next, n++) {
        if (!read_constituent(reader, item, &constituent[n]))
            return false;
    }
    fragrance->constituent = constituent;
    fragrance->constituents = n;
    return true;
}

/* A fragrance that the law wants named as a whole, such as an essential oil of its list. */
static bool read_allergen(struct reader *reader, const cJSON *value, void *into)
{
    const char *key = cJSON_IsString(value) ? value->valuestring : "";

    for (size_t i = 0; i < reader->reference->allergens; i++)
        if (text_same(reader->reference->allergen[i].key, key)) {
            ((struct fragrance_fact *)into)->allergen = (int)i;
            return true;
        }
    return read_refuse(reader, value, "the key of an allergen that is known, such as \"lavandula\"");
}

/* The reference form has no place for a certificate's limit: it is checked here and taken by read_shelf_limits. */
static bool check_limit(struct reader *reader, const cJSON *value, void *unused)
{
    double share;

    (void)unused;
    return read_number(reader, value, MEASURE_PERCENT, &share);
}

static bool check_limit_from(struct reader *reader, const cJSON *value, void *unused)
{
    (void)unused;
    return read_name(reader, value, (char[LW_NAME_BYTES]){""});
}

static bool finish_fragrance(struct reader *reader, const cJSON *object, void *into)
{
    struct fragrance_fact *fragrance = into;

    fragrance->key = fragrance->name;
    return need_beside(reader, object, "limit_from", "limit_percent");
}

static const struct list *fragrance_list(void)
{
    /* clang-format off */
    static const struct member member[] = {
        {"name",           MEMBER_KEPT,   NEED_ALWAYS, offsetof(struct fragrance_fact, name),           .measure = 0},
        {"inci",           MEMBER_KEPT,   NEED_NOT,    offsetof(struct fragrance_fact, inci),           .measure = 0},
        {"constituents",   MEMBER_OTHER,  NEED_NOT,    0,                                               .read = read_constituents},
        {"allergen",       MEMBER_OTHER,  NEED_NOT,    0,                                               .read = read_allergen},
        {"density_g_ml",   MEMBER_NUMBER, NEED_NOT,    offsetof(struct fragrance_fact, density_g_ml),   .measure = MEASURE_DENSITY},
        {"behaviour",      MEMBER_CHOICE, NEED_NOT,    offsetof(struct fragrance_fact, acceleration),   .choice = acceleration_at},
        {"discolouration", MEMBER_KEPT,   NEED_NOT,    offsetof(struct fragrance_fact, discolouration), .measure = 0},
        {"usual_percent_of_oils", MEMBER_NUMBER, NEED_NOT, offsetof(struct fragrance_fact, usual_max),  .measure = MEASURE_PERCENT},
        {"limit_percent",  MEMBER_OTHER,  NEED_NOT,    0,                                               .read = check_limit},
        {"limit_from",     MEMBER_OTHER,  NEED_NOT,    0,                                               .read = check_limit_from},
        {"source",         MEMBER_SOURCE, NEED_NOT,    offsetof(struct fragrance_fact, source),         .measure = 0},
    };
    /* clang-format on */
    static const struct fragrance_fact blank = {.name = "",
                                                .inci = "",
                                                .discolouration = "",
                                                .source = "",
                                                .allergen = -1,
                                                .acceleration = ACCELERATION_NONE,
                                                .standing = STANDING_OWN};
    static const struct shape shape = {
        member, sizeof member / sizeof member[0], ONE_OF_NONE, sizeof blank, &blank, finish_fragrance};
    static const struct list list = {&shape, SHELF_ROWS, false, "fragrances"};

    return &list;
}

static bool read_oils(struct reader *reader, const cJSON *value, void *into)
{
    struct recipe_file *file = into;

    return (file->oil = read_new_items(reader, value, oil_list(), &file->oils)) != NULL;
}

static bool read_additives(struct reader *reader, const cJSON *value, void *into)
{
    struct recipe_file *file = into;

    return (file->additive = read_new_items(reader, value, additive_list(), &file->additives)) != NULL;
}

static bool read_liquids(struct reader *reader, const cJSON *value, void *into)
{
    struct recipe_file *file = into;

    return (file->liquid = read_new_items(reader, value, liquid_list(), &file->liquids)) != NULL;
}

static bool read_colourants(struct reader *reader, const cJSON *value, void *into)
{
    struct recipe_file *file = into;

    return (file->colourant = read_new_items(reader, value, colourant_list(), &file->colourants)) != NULL;
}

static bool read_fragrances(struct reader *reader, const cJSON *value, void *into)
{
    struct recipe_file *file = into;

    return (file->fragrance = read_new_items(reader, value, fragrance_list(), &file->fragrances)) != NULL;
}

/* Two rows of one name would leave it open which of them a recipe means. */
static bool check_names(struct reader *reader, const cJSON *list)
{
    size_t i = 0;

    for (const cJSON *row = list->child; row != NULL; row = row->next, i++) {
        const char *name = json_member(row, "name")->valuestring;
        for (const cJSON *other = list->child; other != row; other = other->next) {
            if (!text_same(json_member(other, "name")->valuestring, name))
                continue;
            read_enter(reader, list->string, 0);
            read_enter(reader, NULL, i);
            return read_fail(reader, LW_INVALID, "found a name that stands above already, expected each name once");
        }
    }
    return true;
}

static bool finish_shelf(struct reader *reader, const cJSON *object, void *into)
{
    (void)into;
    for (const cJSON *list = object->child; list != NULL; list = list->next) {
        if (!check_names(reader, list))
            return false;
    }
    return true;
}

bool read_shelf(struct reader *reader, const cJSON *value, void *file)
{
    static const struct member member[] = {
        {"oils", MEMBER_OTHER, NEED_NOT, 0, .read = read_oils},
        {"additives", MEMBER_OTHER, NEED_NOT, 0, .read = read_additives},
        {"liquids", MEMBER_OTHER, NEED_NOT, 0, .read = read_liquids},
        {"colourants", MEMBER_OTHER, NEED_NOT, 0, .read = read_colourants},
        {"fragrances", MEMBER_OTHER, NEED_NOT, 0, .read = read_fragrances},
    };
    static const struct shape shape = {member, sizeof member / sizeof member[0], ONE_OF_NONE, 0, NULL, finish_shelf};

    return read_shape(reader, value, &shape, file);
}

static void take_limit(struct recipe_fragrance *fragrance, const cJSON *row)
{
    const cJSON *limit = json_member(row, "limit_percent"), *from = json_member(row, "limit_from");

    if (limit == NULL || fragrance->has_limit || !text_same(json_member(row, "name")->valuestring, fragrance->name))
        return;
    fragrance->has_limit = true;
    fragrance->limit_share = limit->valuedouble / 100;
    text_copy(fragrance->limit_from, sizeof fragrance->limit_from, from == NULL ? "" : from->valuestring);
}

void read_shelf_limits(const cJSON *shelf, struct recipe_file *file)
{
    const cJSON *list = shelf == NULL ? NULL : json_member(shelf, "fragrances");

    for (const cJSON *row = list == NULL ? NULL : list->child; row != NULL; row = row->next) {
        for (size_t i = 0; i < file->recipes; i++) {
            for (int k = 0; k < file->recipe[i].fragrances; k++)
                take_limit(&file->recipe[i].fragrance[k], row);
        }
    }
}
