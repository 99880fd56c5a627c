/* document.c - what to call a part of a recipe. */
#include "lyeway/document.h"

#include "lyeway/names.h"

/* The two names of a fact's row, both NULL where the recipe's own name is all there is. */
struct called {
    const char *own, *key, *name;
};

static struct called called_oil(const struct plan_input *input, int i)
{
    const struct oil_fact *fact = input->facts->oil[i];

    return (struct called){input->recipe->oil[i].name, fact == NULL ? NULL : fact->key,
                           fact == NULL ? NULL : fact->name};
}

static struct called called_liquid(const struct plan_input *input, int i)
{
    const struct liquid_fact *fact = input->facts->liquid[i];

    return (struct called){input->recipe->water.liquid[i].name, fact == NULL ? NULL : fact->key,
                           fact == NULL ? NULL : fact->name};
}

static struct called called_additive(const struct plan_input *input, int i)
{
    const struct additive_fact *fact = input->facts->additive[i];

    return (struct called){input->recipe->additive[i].name, fact == NULL ? NULL : fact->key,
                           fact == NULL ? NULL : fact->name};
}

static struct called called_fragrance(const struct plan_input *input, int i)
{
    const struct fragrance_fact *fact = input->facts->fragrance[i];

    return (struct called){input->recipe->fragrance[i].name, fact == NULL ? NULL : fact->key,
                           fact == NULL ? NULL : fact->name};
}

static struct called called_colourant(const struct plan_input *input, int portion, int i)
{
    const struct colourant_fact *fact = input->facts->colourant[portion][i];

    return (struct called){input->recipe->portion[portion].colourant[i].name, fact == NULL ? NULL : fact->key,
                           fact == NULL ? NULL : fact->name};
}

static struct called called_carrier(const struct plan_input *input, int portion, int colourant)
{
    const struct oil_fact *fact = input->facts->carrier[portion][colourant];

    return (struct called){input->recipe->portion[portion].colourant[colourant].carrier_oil, fact ? fact->key : NULL,
                           fact ? fact->name : NULL};
}

static struct called called_portion(const struct recipe *recipe, int i)
{
    if (i >= 0 && i < recipe->portions)
        return (struct called){recipe->portion[i].name, NULL, NULL};
    return (struct called){recipe->portions > 0 ? "leftover" : "batter", NULL, NULL};
}

static struct called called_part(const struct plan_input *input, struct part_ref part)
{
    switch (part.part) {
    case PART_OIL:
        return called_oil(input, part.index);
    case PART_LIQUID:
        return called_liquid(input, part.index);
    case PART_ADDITIVE:
        return called_additive(input, part.index);
    case PART_FRAGRANCE:
        return called_fragrance(input, part.index);
    case PART_PORTION:
        return called_portion(input->recipe, part.index);
    case PART_COLOURANT:
        return called_colourant(input, part.index, part.sub);
    case PART_CARRIER:
        return called_carrier(input, part.index, part.sub);
    case PART_CONSTITUENT:
        return (struct called){"", input->reference->limit[part.index].key, input->reference->limit[part.index].name};
    case PART_ALKALI:
        return (struct called){name_of_alkali(part.index == ALKALI_KOH ? ALKALI_KOH : ALKALI_NAOH), NULL, NULL};
    case PART_WATER:
        return (struct called){"water", NULL, NULL};
    case PART_SIZE:
        return (struct called){"size", NULL, NULL};
    case PART_BATTER:
        break;
    }
    return (struct called){"batter", NULL, NULL};
}

const char *document_key(const struct plan_input *input, struct part_ref part)
{
    struct called called = called_part(input, part);

    return called.key == NULL ? called.own : called.key;
}

const char *document_name(const struct plan_input *input, struct part_ref part)
{
    struct called called = called_part(input, part);

    return called.name == NULL ? called.own : called.name;
}
