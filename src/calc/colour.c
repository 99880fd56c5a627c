/* colour.c - absorption and scattering of colourants in batter. */
#include "calc/colour.h"

#include <math.h>

#include "base/mass.h"
#include "calc/srgb.h"

static const double LEAST_REFLECTANCE = 0.01, MOST_REFLECTANCE = 0.99;

static double kept_within(double reflectance)
{
    return !(reflectance > LEAST_REFLECTANCE) ? LEAST_REFLECTANCE
           : reflectance > MOST_REFLECTANCE   ? MOST_REFLECTANCE
                                              : reflectance;
}

double colour_absorption(double reflectance)
{
    double r = kept_within(reflectance);

    return (1 - r) * (1 - r) / (2 * r);
}

/* The form without a difference of two large numbers. */
double colour_reflectance(double absorption)
{
    return kept_within(1 / (1 + absorption + sqrt(absorption * absorption + 2 * absorption)));
}

static unsigned channel_of(unsigned rgb, int channel)
{
    return rgb >> (16 - 8 * channel) & 0xFFu;
}

static double absorption_of(unsigned rgb, int channel)
{
    return colour_absorption(srgb_light(channel_of(rgb, channel)));
}

void colour_start(const struct practice *practice, struct colour_mix *mix)
{
    const double code[COLOUR_CHANNELS] = {practice->plain_red, practice->plain_green, practice->plain_blue};

    *mix = (struct colour_mix){.known = true};
    for (int c = 0; c < COLOUR_CHANNELS; c++)
        mix->plain[c] = mix->fresh[c] = mix->cured[c] = colour_absorption(srgb_light((unsigned)code[c]));
}

/* Scattering that its middle dose adds. */
static double scattering_of(const struct colour_mix *mix, unsigned swatch)
{
    double plain = 0, whitened = 0;

    for (int c = 0; c < COLOUR_CHANNELS; c++) {
        plain += mix->plain[c];
        whitened += absorption_of(swatch, c);
    }
    return fmax(plain / whitened - 1, 0);
}

static void add_absorption(const struct colour_mix *mix, double absorption[COLOUR_CHANNELS], unsigned swatch,
                           double middle_doses)
{
    for (int c = 0; c < COLOUR_CHANNELS; c++) {
        double tint = absorption_of(swatch, c) - mix->plain[c];

        absorption[c] += tint > 0 ? tint * middle_doses : 0;
    }
}

void colour_add(struct colour_mix *mix, const struct colourant_fact *colourant, double g_per_kg)
{
    double middle = (colourant->dose_lo + colourant->dose_hi) / 2;

    if (!(g_per_kg > 0))
        return;
    if (!(middle > 0) || !isfinite(g_per_kg / middle)) {
        mix->known = false;
        return;
    }

    double middle_doses = g_per_kg / middle;

    if (colourant->whitens) {
        mix->scattering += scattering_of(mix, colourant->swatch_rgb) * middle_doses;
        return;
    }
    mix->shifts = mix->shifts || colourant->fresh_rgb;
    add_absorption(mix, mix->cured, colourant->swatch_rgb, middle_doses);
    add_absorption(mix, mix->fresh, colourant->fresh_rgb ? colourant->fresh_rgb : colourant->swatch_rgb, middle_doses);
}

static unsigned seen(const double absorption[COLOUR_CHANNELS], double scattering)
{
    unsigned rgb = 0;

    for (int c = 0; c < COLOUR_CHANNELS; c++)
        rgb = rgb << 8 | srgb_code(colour_reflectance(absorption[c] / (1 + scattering)));
    return rgb;
}

struct plan_colour colour_seen(const struct colour_mix *mix)
{
    unsigned cured = seen(mix->cured, mix->scattering);

    return (struct plan_colour){
        .known = mix->known, .fresh_rgb = mix->shifts ? seen(mix->fresh, mix->scattering) : cured, .cured_rgb = cured};
}

/* Adds what portion i of the recipe is given, into oils_g of oils. Without oils there is no share to speak of. */
static void add_portion(const struct plan_input *in, const struct plan *plan, int i, double oils_g,
                        struct colour_mix *mix)
{
    for (int c = 0; c < in->recipe->portion[i].colourants; c++) {
        double dose_g = plan->portion[i].colourant[c].colourant.exact_g;

        colour_add(mix, in->facts->colourant[i][c], oils_g > 0 ? dose_g * 1000 / oils_g : 0);
    }
}

/* `mix` is the plain batter, as a copy. */
static struct plan_colour colour_of_batter(const struct plan_input *in, const struct plan *plan, struct colour_mix mix)
{
    for (int i = 0; i < in->recipe->portions; i++)
        add_portion(in, plan, i, mass_g(plan->oils_ug), &mix);
    return colour_seen(&mix);
}

static struct plan_colour colour_of_portion(const struct plan_input *in, const struct plan *plan,
                                            const struct plan_portion *portion, struct colour_mix mix)
{
    add_portion(in, plan, portion->source, portion->oils_g, &mix);
    return colour_seen(&mix);
}

void colour_plan(const struct plan_input *in, struct plan *plan)
{
    struct colour_mix plain;
    struct plan_colour all;

    colour_start(in->reference->practice, &plain);
    all = in->recipe->colour == PUT_IN_BATTER ? colour_of_batter(in, plan, plain) : colour_seen(&plain);
    for (int i = 0; i < plan->portions; i++) {
        const struct plan_portion *portion = &plan->portion[i];
        bool own = in->recipe->colour == PUT_IN_PORTIONS && portion->source >= 0 &&
                   in->recipe->portion[portion->source].colourants > 0;

        plan->portion[i].colour = own ? colour_of_portion(in, plan, portion, plain) : all;
    }
}
