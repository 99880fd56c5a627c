/* piper.c - pieces one by one, counted a few at a time. */
#include "piper.h"

#include <math.h>
#include <string.h>

#include "base/mass.h"

/* Invented: a blossom takes more than it is planned with, and by how much goes by the day. */
static const double OVER = 1.055, BETWEEN = 0.04, WITHIN = 0.12, CUP_G = 4, SQUEEZE_G = 3;
static const double BAG_HOLDS_G = 160;
static const double FLOWER_REJECTS = 0.13, SIMPLE_REJECTS = 0.045, FLOWER_S = 19, SIMPLE_S = 8;

enum { COUNTED_AT_ONCE = 4 };

struct bag {
    double left_g, each_g, used_g; /* used_g: of the bag at hand */
    double change_g;               /* lost with each bag that is empty */
};

/* What was poured out was weighed; who takes the rest has it without what really stays in the jug. */
static double in_bowl_g(const struct maker *maker, const struct run *run, int part)
{
    const struct plan *plan = run_charged(run);
    double filled_g = plan->portion[part].filled_g;

    return run_batch(run)->poured[part].has ? filled_g : filled_g + mass_g(plan->residue_ug) - maker->jug_g;
}

static struct bag fill(struct maker *maker, const struct run *run)
{
    const struct plan_document *planned = run_planned(run);
    const struct batch *batch = run_batch(run);
    int part = piping_part(planned->input, run_charged(run), batch, run_kind(run));
    double each_g = planned->input->recipe->portion[part].pieces.mass_g;

    return (struct bag){in_bowl_g(maker, run, part) - CUP_G - SQUEEZE_G,
                        each_g * OVER * (1 + BETWEEN * maker_normal(maker)), 0, maker->bag_g + SQUEEZE_G};
}

static void count(struct maker *maker, struct run *run, enum event_kind kind, int *waiting, bool all)
{
    struct lw_error error = {""};

    if (*waiting < COUNTED_AT_ONCE && !(all && *waiting > 0))
        return;
    must(run_count(run, &maker->now, kind, *waiting, &error), &error);
    *waiting = 0;
}

static void weigh_left(struct maker *maker, struct run *run, const struct bag *bag)
{
    double left_g = bag->left_g > 0 ? bag->left_g : 0;
    struct lw_error error = {""};

    must(run_left(run, &maker->now, mass_ug(round(left_g * 10) / 10), true, &error), &error);
}

/* One piece; what stays in a bag that is empty is lost. */
static void squeeze(struct bag *bag, double g)
{
    bag->left_g -= g;
    bag->used_g += g;
    if (bag->used_g < BAG_HOLDS_G)
        return;
    bag->left_g -= bag->change_g;
    bag->used_g = 0;
}

void piper_pipe(struct maker *maker, struct run *run, double too_stiff_s)
{
    const struct batch *batch = run_batch(run);
    const struct pieces *pieces =
        &run_planned(run)->input->recipe->portion[batch->pieces[run_kind(run)].portion].pieces;
    bool flower = pieces->class == PIECE_FLOWER, weighs = maker_chance(maker) < 0.8;
    double rejects = (flower ? FLOWER_REJECTS : SIMPLE_REJECTS) * (1 - 0.5 * maker->skill);
    double seconds = (flower ? FLOWER_S : SIMPLE_S) * (1.1 - 0.2 * maker->skill + 0.08 * maker_normal(maker));
    struct bag bag = fill(maker, run);
    int good = 0, waiting[2] = {0};
    int half = pieces->count / 2;

    while (good < pieces->count && bag.left_g > bag.each_g + 12 &&
           (double)(maker->now.utc_s - batch->combined_s) < too_stiff_s) {
        bool reject = maker_chance(maker) < rejects;

        maker->now.utc_s += (int64_t)(seconds < 2 ? 2 : seconds);
        squeeze(&bag, bag.each_g * (1 + WITHIN * maker_normal(maker)));
        good += !reject;
        waiting[reject]++;
        count(maker, run, EVENT_PIECES, &waiting[0], false);
        count(maker, run, EVENT_REJECTS, &waiting[1], false);
        if (good == half && weighs && !reject) {
            count(maker, run, EVENT_PIECES, &waiting[0], true);
            count(maker, run, EVENT_REJECTS, &waiting[1], true);
            weigh_left(maker, run, &bag);
        }
    }
    count(maker, run, EVENT_PIECES, &waiting[0], true);
    count(maker, run, EVENT_REJECTS, &waiting[1], true);
    if (weighs)
        weigh_left(maker, run, &bag);
}
