/* pace_plan.c - the pace of each portion of a plan, and whether its window is long enough. */
#include "calc/pace.h"

#include <math.h>

#include "base/mass.h"
#include "calc/product.h"

double pace_need_min(const struct plan_input *in, const struct plan_portion *portion)
{
    const struct practice *practice = in->reference->practice;
    const struct recipe_portion *asked = portion->source >= 0 ? &in->recipe->portion[portion->source] : NULL;

    if (portion->has_pieces) {
        bool flower = asked != NULL && asked->pieces.class == PIECE_FLOWER;
        double seconds = flower ? practice->flower_seconds : practice->simple_seconds;

        return portion->pieces.to_pipe * seconds / 60.0 + portion->pieces.bags * practice->bag_change_minutes;
    }
    if (portion->technique == TECHNIQUE_SWIRL || portion->technique == TECHNIQUE_LAYER ||
        (asked != NULL && asked->colourants > 0))
        return practice->colour_minutes;
    return 0.0;
}

/* The fastest of the fragrances in the portion. */
static enum acceleration fastest(const struct plan_input *in, const struct plan *plan,
                                 const struct plan_portion *portion)
{
    enum acceleration worst = ACCELERATION_NONE;

    for (int i = 0; i < in->recipe->fragrances; i++) {
        const struct fragrance_fact *fact = in->facts->fragrance[i];

        if (fact != NULL && fact->acceleration > worst && product_fragrance_g(in, plan, portion, i) > 0.0)
            worst = fact->acceleration;
    }
    return worst;
}

/* Saturated share of the acids that are known; where none are, that of practice. */
static double saturated_share(const struct practice *practice, const struct plan_acids *acids)
{
    double known = 1.0 - acids->unknown;

    return known > 1e-9 ? acids->saturated / known : practice->pace_ref_saturated;
}

static void find_short(struct plan *plan, const struct plan_portion *portion)
{
    const struct plan_pace *pace = &portion->pace;
    bool own = pace->batches >= LEARNED_LEAST;
    double from = pace->from.median, until = own ? pace->until.low : pace->until.median;

    if (from + pace->need <= until * (1.0 + 1e-9))
        return;
    plan_find(plan, &(struct finding){.code = FINDING_WINDOW_SHORT,
                                      .level = LEVEL_CAUTION,
                                      .about = {PART_PORTION, (int16_t)portion->source, 0},
                                      .number = {pace->need, fmax(until - from, 0.0), from, until, own ? pace->batches : 0}});
}

struct pace_terms pace_terms_of(const struct plan_input *in, const struct plan *plan,
                                const struct plan_portion *portion)
{
    return (struct pace_terms){.technique = portion->technique,
                               .strength = plan->water.strength,
                               .temp_c = in->bench->combine_temp_c,
                               .saturated = saturated_share(in->reference->practice, &plan->acids),
                               .oils_g = mass_g(plan->oils_ug),
                               .acceleration = fastest(in, plan, portion),
                               .long_blend = in->bench->long_blend};
}

int pace_belief_of(const struct plan_input *in, struct pace_belief *belief)
{
    const struct learned *learned = &in->bench->learned;

    if (learned->pace_batches > 0)
        *belief = learned->pace;
    else
        pace_prior(in->reference->practice, belief);
    return learned->pace_batches;
}

void pace_plan(const struct plan_input *in, struct plan *plan)
{
    const struct practice *practice = in->reference->practice;
    struct pace_belief belief;

    int batches = pace_belief_of(in, &belief);

    for (int p = 0; p < plan->portions; p++) {
        struct plan_portion *portion = &plan->portion[p];
        struct pace_terms terms = pace_terms_of(in, plan, portion);

        pace_predict(practice, &belief, &terms, &portion->pace.from, &portion->pace.until);
        portion->pace.need = pace_need_min(in, portion);
        portion->pace.batches = batches;
        find_short(plan, portion);
    }
}
