/* piping.c - what is left in the bags, part by part, and what can be done where it is too little. */
#include "calc/piping.h"

#include <math.h>

#include "base/mass.h"
#include "calc/own.h"
#include "calc/pace_stamped.h"
#include "calc/pieces.h"
#include "calc/portion.h"

/* Ratios of masses that should be whole come out a hair under or over. */
static const double HAIR = 1e-9;

/* From so many on a mean mass and a rate say more than practice does; both from memory. */
enum { OWN_MASS_PIECES = 3, OWN_RATE_PIECES = 4, LAST_PIPING_STAGE = 5 };

/* Of what became pieces: losses that are only estimated may not make the mean. Own means further off than that are slips. */
static const double OWN_LOSSES_MOST = 0.25, OWN_MASS_FACTOR = 3.0;

static const double LEAST_OF_MASS = 0.75;

/* Chances that should be equal differ in the last digits. */
static const double CHANCE_GUARD = 1e-12;

/* What is left of one part of a kind. */
struct rest {
    int portion;
    double mass_g;
    bool own_mass;
    double content_g; /* of what is left, that becomes pieces */
    double left_g;
    int bags, more;
};

static int rejects(const struct batch_pieces *pieces)
{
    return pieces->rejects - pieces->scraped;
}

static int made(const struct batch_pieces *pieces)
{
    return pieces->good + rejects(pieces);
}

static int64_t planned_out_ug(const struct plan_portion *portion)
{
    return portion->batter_ug - portion->kept_ug;
}

struct practice piping_practice(const struct plan_input *in, const struct batch *batch)
{
    struct practice practice = own_practice(in);

    if (isfinite(batch->residue_g[RESIDUE_BAG]))
        practice.bag_residue_g = batch->residue_g[RESIDUE_BAG];
    if (isfinite(batch->residue_g[RESIDUE_CUP]))
        practice.cup_residue_g = batch->residue_g[RESIDUE_CUP];
    return practice;
}

/* What stays behind in vessels. */
struct stays {
    struct practice practice;
    int64_t jug_ug;
};

static struct stays stays_foreseen(const struct plan_input *in, const struct plan *plan)
{
    return (struct stays){own_practice(in), plan->residue_ug};
}

static struct stays stays_known(const struct plan_input *in, const struct plan *plan, const struct batch *batch)
{
    double jug_g = batch->residue_g[RESIDUE_JUG];

    return (struct stays){piping_practice(in, batch), isfinite(jug_g) ? mass_ug(jug_g) : plan->residue_ug};
}

/* Whether all of the others were poured, so that a portion has what is left in the jug. */
static bool others_poured(const struct plan *plan, const struct batch *batch, int p)
{
    for (int q = 0; q < plan->portions; q++)
        if (q != p && planned_out_ug(&plan->portion[q]) > 0 && !batch->poured[q].has)
            return false;
    return true;
}

/* What is in the bowl of a portion, without oil kept back for its carriers: as poured; where no other is still to be poured, what is left
 * in the jug without what stays there; else as planned. */
static int64_t in_bowl_ug(const struct plan *plan, const struct batch *batch, const struct stays *stays, int p)
{
    int64_t left_ug = plan->batter_ug - plan->kept_ug - stays->jug_ug;

    if (batch->poured[p].has)
        return batch->poured[p].mass_ug;
    if (!others_poured(plan, batch, p))
        return planned_out_ug(&plan->portion[p]);
    for (int q = 0; q < plan->portions; q++)
        if (q != p && planned_out_ug(&plan->portion[q]) > 0)
            left_ug -= batch->poured[q].mass_ug;
    return left_ug;
}

static bool bowl_weighed(const struct plan *plan, const struct batch *batch, int p)
{
    return batch->poured[p].has || (isfinite(batch->residue_g[RESIDUE_JUG]) && others_poured(plan, batch, p));
}

/* That with its colour. */
static double filled_g(const struct plan *plan, const struct batch *batch, const struct stays *stays, int p)
{
    const struct plan_portion *portion = &plan->portion[p];

    return fmax(portion->filled_g + mass_g(in_bowl_ug(plan, batch, stays, p) - planned_out_ug(portion)), 0);
}

static int bags_for(const struct practice *practice, double content_g)
{
    double room = practice->bag_fill_g - pieces_bag_loss_g(practice);

    return room > 0 ? (int)fmin(ceil(content_g / room - HAIR), PIECES_MOST) : 0;
}

static int whole_pieces(double content_g, double each_g)
{
    return each_g > 0 ? (int)fmin(floor(fmax(content_g, 0) / each_g + HAIR), PIECES_MOST) : 0;
}

int piping_emptied(const struct practice *practice, double filled_g, double left_g)
{
    int bags, full = practice->bag_fill_g > 0 ? whole_pieces(filled_g - left_g, practice->bag_fill_g) : 0;

    pieces_content_g(practice, filled_g, &bags);
    return full < bags - 1 ? full : bags > 0 ? bags - 1 : 0;
}

static bool own_mass(const struct practice *practice, const struct batch_pieces *pieces, double poured_g,
                     double planned_g, struct piping_terms *terms)
{
    double left = mass_g(pieces->left_ug);

    if (!pieces->left_weighed || pieces->good_then < OWN_MASS_PIECES)
        return false;
    *terms = (struct piping_terms){
        .filled_g = poured_g,
        .cup_g = practice->cup_residue_g,
        .squeeze_g = practice->first_squeeze_g,
        .emptied = piping_emptied(practice, poured_g - practice->cup_residue_g, left),
        .left_g = left,
        .made = pieces->good_then,
    };
    terms->emptied_g = terms->emptied * pieces_bag_loss_g(practice);

    double losses = terms->cup_g + terms->squeeze_g + terms->emptied_g, gone = poured_g - losses - left;
    double own = gone / terms->made;

    terms->each_g = own;
    return own > 0 && losses <= OWN_LOSSES_MOST * gone && own <= OWN_MASS_FACTOR * planned_g &&
           own * OWN_MASS_FACTOR >= planned_g;
}

/* From what was in the bags at some time, `begun` if pieces had been made of it by then, and the pieces made since. */
static void rest_of(const struct practice *practice, double in_bags_g, bool begun, int since, struct rest *part)
{
    double squeezed = begun ? practice->first_squeeze_g : 0, used = since * part->mass_g;
    int bags;
    double content = pieces_content_g(practice, in_bags_g + squeezed, &bags);

    part->content_g = fmax(content - used, 0);
    part->bags = bags_for(practice, part->content_g);
    part->more = whole_pieces(part->content_g, part->mass_g);

    double lost = pieces_bag_loss_g(practice) * fmax(bags - fmax(part->bags, 1), 0);

    if (!begun && since > 0)
        lost += practice->first_squeeze_g;
    part->left_g = fmax(in_bags_g - used - lost, 0);
}

static struct rest part_planned(const struct plan_input *in, const struct plan *plan, const struct batch *batch,
                                const struct stays *stays, int p, int pieces_made_so_far)
{
    struct rest part = {.portion = p, .mass_g = pieces_of_portion(in, p).pieces.mass_g};

    rest_of(&stays->practice, filled_g(plan, batch, stays, p) - stays->practice.cup_residue_g, false,
            pieces_made_so_far, &part);
    return part;
}

static struct rest part_looked_at(const struct plan_input *in, const struct plan *plan, const struct batch *batch,
                                  const struct stays *stays, const struct batch_pieces *pieces, int p)
{
    struct rest part = {.portion = p, .mass_g = pieces_of_portion(in, p).pieces.mass_g};
    struct piping_terms terms;

    part.own_mass = own_mass(&stays->practice, pieces, filled_g(plan, batch, stays, p), part.mass_g, &terms);
    if (part.own_mass)
        part.mass_g = terms.each_g;
    rest_of(&stays->practice, mass_g(pieces->left_ug), pieces->good_then > 0, made(pieces) - pieces->good_then, &part);
    return part;
}

/* Fewer pieces; of equal ones the heavier in the piece. */
static bool less_batter(const struct rest *a, const struct rest *b)
{
    return a->more != b->more ? a->more < b->more : a->mass_g > b->mass_g;
}

/* By what was foreseen to stay: a residue that is measured afterwards must not change of which part the rest was weighed. */
int piping_part(const struct plan_input *in, const struct plan *plan, const struct batch *batch, int kind)
{
    int first = batch->pieces[kind].portion;
    struct stays stays = stays_foreseen(in, plan);
    struct rest least = part_planned(in, plan, batch, &stays, first, 0);

    for (int p = 0; p < in->recipe->portions; p++) {
        struct rest part = part_planned(in, plan, batch, &stays, p, 0);

        if (pieces_same(in->recipe, first, p) && less_batter(&part, &least))
            least = part;
    }
    return least.portion;
}

bool piping_own(const struct plan_input *in, const struct plan *plan, const struct batch *batch, int kind,
                struct piping_terms *terms)
{
    const struct batch_pieces *pieces = &batch->pieces[kind];
    struct stays stays = stays_known(in, plan, batch);
    int part = piping_part(in, plan, batch, kind);

    if (pieces->left_ug < 0 || !own_mass(&stays.practice, pieces, filled_g(plan, batch, &stays, part),
                                         in->recipe->portion[part].pieces.mass_g, terms))
        return false;
    terms->portion = part;
    terms->weighed = bowl_weighed(plan, batch, part);
    return true;
}

/* The part that makes the fewest from now on. */
static struct rest least_left(const struct plan_input *in, const struct plan *plan, const struct batch *batch, int kind)
{
    const struct batch_pieces *pieces = &batch->pieces[kind];
    struct stays stays = stays_known(in, plan, batch);
    int weighed = piping_part(in, plan, batch, kind);
    struct rest least = pieces->left_ug >= 0 ? part_looked_at(in, plan, batch, &stays, pieces, weighed)
                                             : part_planned(in, plan, batch, &stays, weighed, made(pieces));

    for (int p = 0; p < in->recipe->portions; p++) {
        if (p == weighed || !pieces_same(in->recipe, weighed, p))
            continue;

        struct rest part = part_planned(in, plan, batch, &stays, p, made(pieces));

        if (part.more < least.more)
            least = part;
    }
    return least;
}

static double good_share(const struct piping *piping)
{
    return piping->reject_b / (piping->reject_a + piping->reject_b);
}

static double least_of(double a, double b)
{
    return fmax(fmin(a, b), 0);
}

static struct quantiles workable(const struct plan_input *in, const struct plan *plan, const struct batch *batch,
                                 int first, int64_t now_s)
{
    struct quantiles least = {INFINITY, INFINITY, INFINITY};
    double elapsed = pace_elapsed_min(batch, now_s);

    for (int p = 0; p < in->recipe->portions; p++) {
        struct quantiles from, until;

        if (!pieces_same(in->recipe, first, p))
            continue;
        pace_stamped(in, plan, &plan->portion[p], batch, now_s, &from, &until);
        least.median = least_of(least.median, until.median - elapsed);
        least.low = least_of(least.low, until.low - elapsed);
        least.high = least_of(least.high, until.high - elapsed);
    }
    return least;
}

static double seconds_a_piece(const struct practice *practice, const struct pieces *all,
                              const struct batch_pieces *pieces, bool *own)
{
    *own = made(pieces) >= OWN_RATE_PIECES && pieces->last_s > pieces->first_s;
    if (*own)
        return (double)(pieces->last_s - pieces->first_s) / (made(pieces) - 1);
    return all->class == PIECE_FLOWER ? practice->flower_seconds : practice->simple_seconds;
}

void piping_now(const struct plan_input *in, const struct plan *plan, const struct batch *batch, int kind,
                int64_t now_s, struct piping *piping)
{
    const struct practice *practice = in->reference->practice;
    const struct batch_pieces *pieces = &batch->pieces[kind];
    struct pieces_known known = pieces_of_portion(in, pieces->portion);
    const struct pieces *all = &known.pieces;
    struct rest least = least_left(in, plan, batch, kind);
    struct reject_prior prior = pieces_counted(practice, known.prior, pieces->good, rejects(pieces));
    int to_go = all->count > pieces->good ? all->count - pieces->good : 0;

    *piping = (struct piping){
        .wanted = all->count,
        .good = pieces->good,
        .to_go = to_go,
        .rejects = rejects(pieces),
        .portion = least.portion,
        .mass_g = least.mass_g,
        .own_mass = least.own_mass,
        .left_g = least.left_g,
        .more = least.more,
        .reject_a = prior.a,
        .reject_b = prior.b,
        .enough = pieces_chance(least.more, to_go, prior),
        .enough_asked = all->chance,
        .workable_min = workable(in, plan, batch, pieces->portion, now_s),
    };

    double seconds = seconds_a_piece(practice, all, pieces, &piping->own_rate);

    if (to_go > 0)
        piping->need_min = to_go / good_share(piping) * seconds / 60 +
                           (least.bags > 1 ? least.bags - 1 : 0) * practice->bag_change_minutes;
}

static struct reject_prior prior_of(const struct piping *piping)
{
    return (struct reject_prior){piping->reject_a, piping->reject_b};
}

/* Mass a piece and the pieces more by it, of the content once scraped. */
static void make_smaller(const struct piping *piping, double content_g, double planned_g, struct piping_help *help)
{
    int n = whole_pieces(content_g, piping->mass_g);
    int enough = pieces_to_pipe(piping->to_go, piping->enough_asked, prior_of(piping));

    if (content_g < enough * LEAST_OF_MASS * planned_g)
        enough = piping->to_go;
    if (n >= enough || content_g < enough * LEAST_OF_MASS * planned_g)
        return;
    help->smaller_g = content_g / enough;
    help->smaller = enough - n;
}

/* Batter with what stays in the jug, of which the residue may be a share. */
static double with_residue_g(const struct plan_input *in, double usable_g)
{
    double batter_g = usable_g;

    for (int i = 0; i < 64; i++)
        batter_g = usable_g + portion_residue_g(in, batter_g);
    return batter_g;
}

static double second_oils_g(const struct plan_input *in, const struct plan *plan, const struct piping *piping)
{
    struct practice practice = own_practice(in);
    int missing = piping->to_go - (int)floor(piping->more * good_share(piping));
    int n = pieces_to_pipe(missing, piping->enough_asked, prior_of(piping));
    double usable_g = 0;

    if (plan->batter_ug <= 0)
        return 0;
    for (int p = 0; p < in->recipe->portions; p++) {
        struct pieces_known known = pieces_of_portion(in, p);

        if (pieces_same(in->recipe, piping->portion, p))
            usable_g += pieces_batter_g(&practice, &known, n, piping->enough_asked, NULL);
    }
    return with_residue_g(in, usable_g) * mass_g(plan->oils_ug) / mass_g(plan->batter_ug);
}

void piping_short(const struct plan_input *in, const struct plan *plan, const struct batch *batch, int kind,
                  const struct piping *piping, int pieces_a_bar, struct piping_help *help)
{
    const struct batch_pieces *pieces = &batch->pieces[kind];
    struct rest least = least_left(in, plan, batch, kind);
    bool still_pipes = batch->stage <= LAST_PIPING_STAGE && !batch->going && !pieces->recounted;

    *help = (struct piping_help){.enough = piping->enough};
    if (piping->enough >= piping->enough_asked - CHANCE_GUARD)
        return;
    help->missing = piping->to_go > piping->more ? piping->to_go - piping->more : 0;
    help->scrape = still_pipes && piping->rejects > 0 ? piping->rejects : 0;

    double content_g = least.content_g + help->scrape * piping->mass_g;

    make_smaller(piping, content_g, pieces_of_portion(in, piping->portion).pieces.mass_g, help);
    help->enough = pieces_chance(whole_pieces(content_g, piping->mass_g) + help->smaller, piping->to_go,
                                 prior_of(piping));
    if (pieces_a_bar > 0)
        help->bars = (piping->good + piping->more) / pieces_a_bar;
    help->second_oils_g = second_oils_g(in, plan, piping);
}
