/* pieces.c - counts by the beta-binomial, batter by a normal approximation of the pieces' masses. */
#include "calc/pieces.h"

#include <math.h>
#include <stddef.h>

#include "base/mass.h"
#include "base/text.h"
#include "calc/distribution.h"
#include "calc/own.h"

/* Ratios of masses that should be whole come out a hair under or over. */
static const double HAIR = 1e-9;

/* Chances that should be equal differ in the last digits. */
static const double CHANCE_GUARD = 1e-12;

/* P(the wanted-th good piece is piece n), stepped upwards in n: chances are its running sum, so no gamma function is
 * needed. What would underflow at first (a bad prior, many pieces) is kept lifted by a power of 1e200 until it has
 * grown. */
struct climb {
    double a, b;
    int wanted, n;
    double term; /* times 1e200 ^ lifts */
    int lifts;
    double sum; /* P(wanted of n are good) */
};

static inline void climb_add(struct climb *climb, double ratio)
{
    climb->term *= ratio;
    if (climb->term < 1e-200) {
        climb->term *= 1e200;
        climb->lifts++;
    } else if (climb->lifts > 0 && climb->term > 1) {
        climb->term *= 1e-200;
        climb->lifts--;
    }
}

/* At n = wanted: every piece is good. */
static inline struct climb climb_start(int wanted, struct reject_prior prior)
{
    struct climb climb = {prior.a, prior.b, wanted, wanted, 1, 0, 0};

    for (int i = 0; i < wanted; i++)
        climb_add(&climb, (prior.b + i) / (prior.a + prior.b + i));
    climb.sum = climb.lifts == 0 ? climb.term : 0;
    return climb;
}

static inline void climb_step(struct climb *climb)
{
    int n = climb->n;

    climb_add(climb, n * (climb->a + n - climb->wanted) / ((n - climb->wanted + 1) * (climb->a + climb->b + n)));
    if (climb->lifts == 0)
        climb->sum += climb->term;
    climb->n++;
}

struct reject_prior pieces_prior(const struct practice *practice, const struct pieces *pieces)
{
    if (pieces->first_time)
        return (struct reject_prior){practice->reject_first_a, practice->reject_first_b};
    if (pieces->class == PIECE_FLOWER)
        return (struct reject_prior){practice->reject_flower_a, practice->reject_flower_b};
    return (struct reject_prior){practice->reject_simple_a, practice->reject_simple_b};
}

struct reject_prior pieces_counted(const struct practice *practice, struct reject_prior prior, int good, int rejects)
{
    double a = prior.a + rejects, b = prior.b + good;
    double shrink = fmin(practice->reject_weight_most / (a + b), 1);

    return (struct reject_prior){a * shrink, b * shrink};
}

double pieces_chance(int n, int wanted, struct reject_prior prior)
{
    if (wanted <= 0)
        return 1;
    if (n < wanted)
        return 0;

    struct climb climb = climb_start(wanted, prior);

    while (climb.n < n)
        climb_step(&climb);
    return fmin(climb.sum, 1);
}

int pieces_to_pipe(int wanted, double chance, struct reject_prior prior)
{
    if (wanted <= 0)
        return 0;

    struct climb climb = climb_start(wanted, prior);

    while (climb.n < PIECES_MOST && climb.sum < chance - CHANCE_GUARD)
        climb_step(&climb);
    return climb.n;
}

double pieces_bag_loss_g(const struct practice *practice)
{
    return practice->first_squeeze_g + practice->bag_residue_g;
}

/* Batter so that `content_g` of it becomes pieces. */
static double batter_for_g(const struct practice *practice, double content_g, int *bags)
{
    double room = practice->bag_fill_g - pieces_bag_loss_g(practice);
    double count = room > 0 ? ceil(content_g / room - HAIR) : 0;

    if (bags != NULL)
        *bags = (int)count;
    return room > 0 ? content_g + count * pieces_bag_loss_g(practice) + practice->cup_residue_g : 0;
}

double pieces_batter_g(const struct practice *practice, const struct pieces_known *known, int n, double chance,
                       int *bags)
{
    double mean = n * known->pieces.mass_g;
    double within = known->within_share * known->pieces.mass_g;
    double between = known->between_share * mean;
    double z = normal_quantile(chance);

    if (known->mass_batches > 0) {
        between *= sqrt(1 + 1.0 / known->mass_batches);
        z = student_quantile(chance, known->mass_batches - 1);
    }
    return batter_for_g(practice, fmax(mean + z * sqrt(n * within * within + between * between), 0), bags);
}

double pieces_content_g(const struct practice *practice, double in_bags_g, int *bags)
{
    double loss = pieces_bag_loss_g(practice), room = practice->bag_fill_g - loss;
    double count = room > 0 ? ceil(fmax(in_bags_g, 0) / practice->bag_fill_g - HAIR) : 0;
    double content = count > 0 ? in_bags_g - count * loss : 0;

    if (count > 0 && content < (count - 1) * room) {
        count--;
        content = count * room;
    }
    if (bags != NULL)
        *bags = (int)fmin(count, PIECES_MOST);
    return fmax(content, 0);
}

int pieces_made(const struct practice *practice, const struct pieces *pieces, double batter_g, int *bags)
{
    double content = pieces_content_g(practice, batter_g - practice->cup_residue_g, bags);
    double made = pieces->mass_g > 0 ? floor(content / pieces->mass_g + HAIR) : 0;

    return (int)fmin(made, PIECES_MOST);
}

double pieces_chance_wanted(const struct practice *practice, const struct pieces *pieces)
{
    double chance = pieces->chance > 0 ? pieces->chance : practice->piece_chance;

    return fmin(fmax(chance, 0.0001), 0.9999);
}

bool pieces_same(const struct recipe *recipe, int i, int k)
{
    const struct recipe_portion *a = &recipe->portion[i], *b = &recipe->portion[k];

    if (i == k)
        return true;
    return a->has_pieces && b->has_pieces && a->pieces.kind[0] != '\0' && text_same(a->pieces.kind, b->pieces.kind);
}

struct pieces_known pieces_by_practice(const struct practice *practice, const struct pieces *pieces)
{
    struct pieces_known known = {.pieces = *pieces,
                                 .within_share = practice->piece_within_share,
                                 .between_share = practice->piece_between_share,
                                 .prior = pieces_prior(practice, pieces)};

    known.pieces.chance = pieces_chance_wanted(practice, pieces);
    return known;
}

static void use_own_mass(const struct learned_pieces *learned, struct pieces_known *known)
{
    if (learned->weighed < LEARNED_LEAST)
        return;
    known->mass_batches = learned->weighed;
    known->pieces.mass_g = learned->mass_g;
    known->between_share = learned->between_g / learned->mass_g;
    if (learned->within_degrees > 0)
        known->within_share = learned->within_g / learned->mass_g;
}

/* Counted are whole pieces, so every part has the same counts, unless it is younger than the others. */
static void use_own_rejects(const struct plan_input *in, int i, struct pieces_known *known)
{
    const struct learned_pieces *most = &in->bench->learned.piece[i];

    for (int k = 0; k < in->recipe->portions; k++)
        if (pieces_same(in->recipe, i, k) && in->bench->learned.piece[k].counted > most->counted)
            most = &in->bench->learned.piece[k];
    if (most->counted == 0)
        return;
    known->reject_batches = most->counted;
    known->prior = (struct reject_prior){most->reject_a, most->reject_b};
}

static struct pieces asked_together(const struct practice *practice, const struct recipe *recipe, int i)
{
    struct pieces all = recipe->portion[i].pieces;

    all.chance = pieces_chance_wanted(practice, &all);
    for (int k = 0; k < recipe->portions; k++) {
        const struct pieces *part = &recipe->portion[k].pieces;

        if (k == i || !pieces_same(recipe, i, k))
            continue;
        all.count = part->count > all.count ? part->count : all.count;
        all.chance = fmax(all.chance, pieces_chance_wanted(practice, part));
        all.first_time = all.first_time || part->first_time;
        all.class = part->class == PIECE_FLOWER ? PIECE_FLOWER : all.class;
    }
    return all;
}

struct pieces_known pieces_of_portion(const struct plan_input *in, int i)
{
    const struct practice *practice = in->reference->practice;
    struct pieces all = asked_together(practice, in->recipe, i);
    struct pieces_known known = pieces_by_practice(practice, &all);

    use_own_mass(&in->bench->learned.piece[i], &known);
    use_own_rejects(in, i, &known);
    return known;
}

struct pieces_known pieces_of_size(const struct plan_input *in)
{
    const struct pieces *pieces = &in->recipe->size.pieces;
    struct pieces_known known = pieces_by_practice(in->reference->practice, pieces);
    int part = -1, parts = 0;

    for (int i = 0; i < in->recipe->portions && pieces->kind[0] != '\0'; i++) {
        const struct recipe_portion *portion = &in->recipe->portion[i];

        if (portion->has_pieces && text_same(portion->pieces.kind, pieces->kind)) {
            part = i;
            parts++;
        }
    }
    if (parts == 1)
        use_own_mass(&in->bench->learned.piece[part], &known);
    if (parts > 0)
        use_own_rejects(in, part, &known);
    return known;
}

double pieces_asked_g(const struct plan_input *in, int i)
{
    struct practice practice = own_practice(in);
    struct pieces_known known = pieces_of_portion(in, i);
    int n = pieces_to_pipe(known.pieces.count, known.pieces.chance, known.prior);

    return pieces_batter_g(&practice, &known, n, known.pieces.chance, NULL);
}

/* What portion i makes by itself: its own demand, or what batter of another size yields. */
static void plan_part(const struct plan_input *in, const struct practice *practice, int i, struct plan_portion *portion)
{
    struct plan_pieces *out = &portion->pieces;
    struct pieces_known known = pieces_of_portion(in, i);

    out->wanted = known.pieces.count;
    out->to_pipe = pieces_to_pipe(known.pieces.count, known.pieces.chance, known.prior);
    out->mass_g = known.pieces.mass_g;
    out->mass_batches = known.mass_batches;
    out->reject_batches = known.reject_batches;
    out->made = pieces_made(practice, &known.pieces, mass_g(portion->batter_ug), &out->bags);
    if (in->recipe->portion[i].demand == DEMAND_PIECES)
        out->made = out->to_pipe;
}

/* Whole pieces that portion i and the other parts of its piece make together. */
static int made_together(const struct recipe *recipe, const struct plan *plan, int i)
{
    double least = plan->portion[i].pieces.made;

    for (int k = 0; k < recipe->portions; k++)
        if (pieces_same(recipe, i, k))
            least = fmin(least, plan->portion[k].pieces.made);
    return (int)least;
}

static void find_short(const struct practice *practice, struct plan *plan, int i, double chance_wanted)
{
    const struct plan_portion *portion = &plan->portion[i];
    const struct plan_pieces *pieces = &portion->pieces;
    double enough_g = batter_for_g(practice, pieces->to_pipe * pieces->mass_g, NULL);
    struct finding finding = {
        .code = FINDING_PIECES_SHORT,
        .level = LEVEL_CAUTION,
        .about = {PART_PORTION, (int16_t)i, 0},
        .number = {pieces->wanted, pieces->made, pieces->chance, chance_wanted,
                   fmax(enough_g - mass_g(portion->batter_ug), 0)},
    };

    plan_find(plan, &finding);
}

void pieces_plan(const struct plan_input *in, struct plan *plan)
{
    const struct recipe *recipe = in->recipe;
    struct practice practice = own_practice(in);

    for (int i = 0; i < recipe->portions; i++) {
        plan->portion[i].has_pieces = recipe->portion[i].has_pieces;
        if (recipe->portion[i].has_pieces)
            plan_part(in, &practice, i, &plan->portion[i]);
    }
    for (int i = 0; i < recipe->portions; i++) {
        struct plan_pieces *out = &plan->portion[i].pieces;

        if (!recipe->portion[i].has_pieces)
            continue;

        struct pieces_known known = pieces_of_portion(in, i);
        int made = made_together(recipe, plan, i);

        out->chance = pieces_chance(made, out->wanted, known.prior);
        out->expected_good = made * known.prior.b / (known.prior.a + known.prior.b);
        if (out->made < out->to_pipe) /* never of DEMAND_PIECES, which makes what it asks */
            find_short(&practice, plan, i, known.pieces.chance);
    }
}
