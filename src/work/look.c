/* look.c - names of colours by hue, lightness and colourfulness. */
#include "work/look.h"

#include <stdio.h>

/* A colour in the cylinder of hue, saturation and lightness; hue in degrees, 345 and above counted as below 0. */
struct tone {
    int hue, lightness, chroma; /* lightness 0 to 255, chroma the span of the channels */
};

static struct tone tone_of(unsigned rgb)
{
    int red = (int)(rgb >> 16 & 0xFF), green = (int)(rgb >> 8 & 0xFF), blue = (int)(rgb & 0xFF);
    int most = red > green ? red : green, least = red < green ? red : green, hue = 0;

    most = most > blue ? most : blue;
    least = least < blue ? least : blue;
    if (most == least)
        return (struct tone){0, most, 0};
    if (most == red)
        hue = 60 * (green - blue) / (most - least);
    else if (most == green)
        hue = 120 + 60 * (blue - red) / (most - least);
    else
        hue = 240 + 60 * (red - green) / (most - least);
    return (struct tone){hue < -15 ? hue + 360 : hue, (most + least) / 2, most - least};
}

enum { DARK_BELOW = 72, MIDDLE_BELOW = 150, LIGHT_BELOW = 205 };

static const char *grey_word(int lightness)
{
    return lightness < 40    ? "black"
           : lightness < 100 ? "dark grey"
           : lightness < 180 ? "grey"
           : lightness < 236 ? "pale grey"
                             : "white";
}

/* clang-format off */
static const struct hue_words {
    int below; /* hue in degrees */
    const char *dull, *dark, *middle, *light, *pale;
} hues[] = {
    { 10, "dusty pink",  "dark red",    "red",         "pink",            "pale pink"},
    { 24, "dusty pink",  "dark brown",  "red-brown",   "salmon pink",     "pale pink"},
    { 36, "beige",       "dark brown",  "brown",       "tan",             "cream"},
    { 66, "khaki",       "dark olive",  "ochre",       "yellow",          "pale yellow"},
    { 96, "grey-green",  "dark olive",  "olive green", "yellow-green",    "pale green"},
    {165, "grey-green",  "dark green",  "green",       "light green",     "pale green"},
    {200, "grey-green",  "dark teal",   "blue-green",  "turquoise",       "pale turquoise"},
    {255, "grey-blue",   "dark blue",   "blue",        "light blue",      "pale blue"},
    {292, "grey-violet", "dark violet", "violet",      "light violet",    "pale violet"},
    {361, "dull mauve",  "dark purple", "mauve",       "mauve pink",      "pale pink"},
};
/* clang-format on */

static bool is_cream(const struct tone *tone)
{
    return tone->hue >= 24 && tone->hue < 66 && tone->lightness >= LIGHT_BELOW && tone->chroma < 50;
}

const char *look_word(unsigned rgb)
{
    struct tone tone = tone_of(rgb);
    const struct hue_words *words = hues;

    if (tone.chroma < 14)
        return grey_word(tone.lightness);
    if (is_cream(&tone))
        return "cream";
    while (tone.hue >= words->below)
        words++;
    if (tone.lightness < DARK_BELOW)
        return words->dark;
    if (tone.chroma < 48 && tone.lightness < LIGHT_BELOW)
        return words->dull;
    return tone.lightness < MIDDLE_BELOW ? words->middle : tone.lightness < LIGHT_BELOW ? words->light : words->pale;
}

/* What becomes of the fresh colour: of several colourants the one that is least sure to come back. */
static enum alkaline_behaviour behaviour_of(const struct plan_input *input, int portion)
{
    enum alkaline_behaviour behaviour = ALKALI_SHIFTS_RETURNS;

    for (int c = 0; c < input->recipe->portion[portion].colourants; c++) {
        const struct colourant_fact *fact = input->facts->colourant[portion][c];

        if (fact->fresh_rgb && fact->behaviour > behaviour)
            behaviour = fact->behaviour;
    }
    return behaviour;
}

/* Which portion of the recipe names the colourants: with PUT_IN_BATTER the first that has one that shifts. */
static int coloured_by(const struct plan_input *input, int source)
{
    const struct recipe *recipe = input->recipe;

    for (int i = 0; i < recipe->portions && recipe->colour == PUT_IN_BATTER; i++)
        for (int c = 0; c < recipe->portion[i].colourants; c++)
            if (input->facts->colourant[i][c]->fresh_rgb)
                return i;
    return source;
}

void look_of_portion(const struct plan_input *input, const struct plan *plan, int portion, char *out, size_t size)
{
    static const struct {
        const char *becomes, *when;
    } later[] = {
        [ALKALI_STABLE] = {"is", "once cured"},          [ALKALI_SHIFTS_RETURNS] = {"comes back to", "by about day 3"},
        [ALKALI_SHIFTS] = {"settles to", "in the cure"}, [ALKALI_FADES] = {"fades to", "in some weeks"},
        [ALKALI_BLEEDS] = {"is", "once cured"},
    };
    const struct plan_colour *colour = &plan->portion[portion].colour;
    const char *fresh = look_word(colour->fresh_rgb), *cured = look_word(colour->cured_rgb);
    int source = coloured_by(input, plan->portion[portion].source);
    enum alkaline_behaviour behaviour;

    if (!colour->known) {
        snprintf(out, size, "colour not known: one of its colourants has no usual dose in soap");
        return;
    }
    if (colour->fresh_rgb == colour->cured_rgb || source < 0) {
        snprintf(out, size, "hint: %s", cured);
        return;
    }
    behaviour = behaviour_of(input, source);
    snprintf(out, size, "hint: %s now, %s %s %s", fresh, later[behaviour].becomes, cured, later[behaviour].when);
}
