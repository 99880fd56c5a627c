/* random_recipe.c - see the header. */
#include "support/random_recipe.h"

#include <stdio.h>
#include <string.h>

#include "work/change.h"

struct chance chance_of(uint64_t seed)
{
    return (struct chance){seed * 2 + 1};
}

static uint64_t next(struct chance *chance)
{
    uint64_t x = chance->state;

    x ^= x >> 12;
    x ^= x << 25;
    x ^= x >> 27;
    chance->state = x;
    return x * UINT64_C(2685821657736338717);
}

int chance_below(struct chance *chance, int n)
{
    return (int)(next(chance) >> 33) % n;
}

void chance_bytes(void *context, uint8_t *bytes, size_t n)
{
    for (size_t i = 0; i < n; i++)
        bytes[i] = (uint8_t)(next(context) >> 40);
}

/* Not a whole number as a rule, so that a column of the wrong type would show. */
static double real(struct chance *chance, double lo, double hi)
{
    return lo + (hi - lo) * (double)(next(chance) >> 11) / 9007199254740992.0;
}

static bool flag(struct chance *chance)
{
    return chance_below(chance, 2) == 1;
}

/* Now and then a text that a table of bytes could spoil: quotes, a letter of two bytes, the full length. */
static void text(struct chance *chance, char *to, size_t size)
{
    static const char *const special[] = {"", "It's \"quoted\"", "Sch\xc3\xa4umer \xf0\x9f\x8c\xb8",
                                          "%s%n; DROP TABLE recipe"};
    int which = chance_below(chance, 12);

    if (which < 4) {
        snprintf(to, size, "%s", special[which]);
    } else if (which == 4) {
        memset(to, 'x', size - 1);
        to[size - 1] = '\0';
    } else {
        snprintf(to, size, "name %d", chance_below(chance, 1000));
    }
}

/* Member by member: to copy a whole struct may copy what lies between its members. */
static void random_range(struct chance *chance, double hi, struct ranged *ranged)
{
    ranged->given = flag(chance);
    ranged->lo = real(chance, 0, hi);
    ranged->nominal = real(chance, 0, hi);
    ranged->hi = real(chance, 0, hi);
}

static void random_pieces(struct chance *chance, struct pieces *pieces)
{
    text(chance, pieces->kind, sizeof pieces->kind);
    pieces->count = chance_below(chance, 2001);
    pieces->mass_g = real(chance, 0, 1e6);
    pieces->chance = real(chance, 0, 1);
    pieces->class = (enum piece_class)chance_below(chance, 2);
    pieces->first_time = flag(chance);
}

static void random_mould(struct chance *chance, struct mould *mould)
{
    mould->shape = (enum mould_shape)chance_below(chance, 4);
    mould->length_mm = real(chance, 0, 1e5);
    mould->width_mm = real(chance, 0, 1e5);
    mould->height_mm = real(chance, 0, 1e5);
    mould->diameter_mm = real(chance, 0, 1e5);
    mould->volume_ml = real(chance, 0, 1e6);
    mould->cavities = chance_below(chance, 2001);
    mould->fill = real(chance, 0, 1);
}

static void random_head(struct chance *chance, struct recipe_head *head)
{
    text(chance, head->name, sizeof head->name);
    head->purpose = (enum purpose)chance_below(chance, 4);
    head->oils_by = (enum oils_by)chance_below(chance, 2);
    head->size.by = (enum size_by)chance_below(chance, 5);
    head->size.grams = real(chance, 0, 1e6);
    head->size.has_mould = flag(chance);
    random_mould(chance, &head->size.mould);
    random_pieces(chance, &head->size.pieces);
    head->superfat = real(chance, 0, 0.5);
    head->alkali.potassium_share = real(chance, 0, 1);
    for (int i = 0; i < ALKALIS; i++) {
        random_range(chance, 1, &head->alkali.purity[i]);
        head->alkali.solution_share[i] = real(chance, 0, 1);
    }
    head->water_by = (enum water_by)chance_below(chance, 3);
    head->water_value = real(chance, 0, 1000);
    head->water_temp_c = real(chance, -20, 95);
    head->scent = (enum put_in)chance_below(chance, 2);
    head->colour = (enum put_in)chance_below(chance, 2);
    head->residue_by = (enum residue_by)chance_below(chance, 3);
    head->residue = real(chance, 0, 1e6);
    head->hushed = (uint32_t)next(chance);
}

static void random_colourant(struct chance *chance, struct recipe_colourant *colourant)
{
    colourant->id = (uint32_t)next(chance);
    text(chance, colourant->name, sizeof colourant->name);
    colourant->by = (enum colour_by)chance_below(chance, 4);
    colourant->value = real(chance, 0, 1000);
    text(chance, colourant->carrier_oil, sizeof colourant->carrier_oil);
    colourant->carrier_ratio = real(chance, 0, 1000);
    colourant->carrier_reserved = flag(chance);
}

static void random_portion(struct chance *chance, struct recipe_portion *portion)
{
    text(chance, portion->name, sizeof portion->name);
    portion->demand = (enum demand)chance_below(chance, 5);
    portion->amount = real(chance, 0, 1e6);
    portion->has_pieces = flag(chance);
    random_pieces(chance, &portion->pieces);
    portion->scented = flag(chance);
    portion->technique = (enum technique)chance_below(chance, 5);
    portion->colourants = chance_below(chance, PORTION_COLOURANTS + 1);
    for (int i = 0; i < portion->colourants; i++)
        random_colourant(chance, &portion->colourant[i]);
    portion->blend_by = (enum colour_by)chance_below(chance, 3);
    portion->blend_value = real(chance, 0, 1e6);
}

static void random_scale(struct chance *chance, struct scale *scale)
{
    text(chance, scale->name, sizeof scale->name);
    scale->division_ug = 1 + chance_below(chance, 1000000);
    scale->capacity_ug = INT64_C(1000000) * chance_below(chance, 1000000);
    scale->accuracy_ug = chance_below(chance, 1000000);
    scale->vessel_ug = INT64_C(1000) * chance_below(chance, 1000000);
}

static void random_fragrance(struct chance *chance, struct recipe_fragrance *fragrance)
{
    text(chance, fragrance->name, sizeof fragrance->name);
    fragrance->by = (enum fragrance_by)chance_below(chance, 3);
    fragrance->value = real(chance, 0, 1000);
    fragrance->has_limit = flag(chance);
    fragrance->limit_share = real(chance, 0, 1);
    text(chance, fragrance->limit_from, sizeof fragrance->limit_from);
}

static void random_simple(struct chance *chance, enum change_part part, union change_element *element)
{
    if (part == CHANGE_OIL) {
        text(chance, element->oil.name, sizeof element->oil.name);
        element->oil.amount = real(chance, 0, 1e6);
        random_range(chance, 400, &element->oil.sap);
    } else if (part == CHANGE_LIQUID) {
        text(chance, element->liquid.name, sizeof element->liquid.name);
        element->liquid.share_of_water = real(chance, 0, 1);
    } else {
        text(chance, element->additive.name, sizeof element->additive.name);
        element->additive.by = (enum additive_by)chance_below(chance, 2);
        element->additive.value = real(chance, 0, 1e6);
    }
}

/* An element of any part; its id is the caller's. */
static void random_element(struct chance *chance, enum change_part part, union change_element *element)
{
    memset(element, 0, sizeof *element);
    if (part == CHANGE_HEAD)
        random_head(chance, &element->head);
    else if (part == CHANGE_NOTE)
        text(chance, element->note, sizeof element->note);
    else if (part == CHANGE_FRAGRANCE)
        random_fragrance(chance, &element->fragrance);
    else if (part == CHANGE_PORTION)
        random_portion(chance, &element->portion);
    else if (part == CHANGE_SCALE)
        random_scale(chance, &element->scale);
    else
        random_simple(chance, part, element);
}

static int most_of(enum change_part part)
{
    static const int most[CHANGE_PARTS] = {
        [CHANGE_OIL] = RECIPE_OILS,           [CHANGE_LIQUID] = RECIPE_LIQUIDS,
        [CHANGE_ADDITIVE] = RECIPE_ADDITIVES, [CHANGE_FRAGRANCE] = RECIPE_FRAGRANCES,
        [CHANGE_PORTION] = RECIPE_PORTIONS,   [CHANGE_SCALE] = RECIPE_SCALES,
    };

    return most[part];
}

static bool is_list(enum change_part part)
{
    return most_of(part) > 0;
}

void random_change(struct chance *chance, const struct recipe *recipe, struct change *change)
{
    enum change_part part = (enum change_part)chance_below(chance, CHANGE_PARTS);
    int count = change_count(recipe, part);

    memset(change, 0, sizeof *change);
    change->part = part;
    change->kind = is_list(part) ? (enum change_kind)chance_below(chance, 3) : CHANGE_REPLACE;
    if (count == 0)
        change->kind = CHANGE_INSERT;
    else if (is_list(part) && count == most_of(part) && change->kind == CHANGE_INSERT)
        change->kind = CHANGE_REMOVE;
    change->index = chance_below(chance, count + (change->kind == CHANGE_INSERT));
    random_element(chance, part, &change->after);
    if (is_list(part) && part != CHANGE_SCALE)
        change->after.oil.id = change_free_id(recipe, part); /* every element with an id begins with it */
    if (change->kind != CHANGE_INSERT)
        change_read(recipe, part, change->index, &change->before);
    if (change->kind == CHANGE_REMOVE)
        memset(&change->after, 0, sizeof change->after);
}

void random_recipe(struct chance *chance, struct recipe *recipe)
{
    struct change change;

    memset(recipe, 0, sizeof *recipe);
    for (enum change_part part = CHANGE_HEAD; part < CHANGE_PARTS; part++) {
        int n = is_list(part) ? chance_below(chance, most_of(part) + 1) : 1;

        for (int i = 0; i < n; i++) {
            change = (struct change){
                .part = part, .kind = is_list(part) ? CHANGE_INSERT : CHANGE_REPLACE, .index = is_list(part) ? i : 0};
            random_element(chance, part, &change.after);
            if (is_list(part) && part != CHANGE_SCALE)
                change.after.oil.id = change_free_id(recipe, part);
            change_apply(recipe, &change, true, NULL);
        }
    }
}
