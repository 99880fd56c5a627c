/* learn.c - means, spreads and rejects over the maker's batches. */
#include "calc/learn.h"

#include <math.h>
#include <string.h>

#include "calc/spread.h"

struct learned_value learn_value(const double value[], int n)
{
    struct running_mean running = {0};

    for (int i = 0; i < n; i++)
        if (isfinite(value[i]))
            running_mean_add(&running, value[i]);
    return (struct learned_value){running.n, running.mean, running_mean_sd(&running)};
}

/* Batches differ more than pieces do, so each batch's mean counts as one, however many pieces it is of. */
static void learn_mass(const struct piece_seen seen[], int n, struct learned_pieces *learned)
{
    struct running_mean mean = {0};
    double squares = 0.0;

    for (int i = 0; i < n; i++) {
        if (seen[i].made <= 0 || !(seen[i].each_g > 0.0 && isfinite(seen[i].each_g)))
            continue;
        running_mean_add(&mean, seen[i].each_g);
        if (seen[i].within_degrees > 0 && isfinite(seen[i].within_squares)) {
            squares += seen[i].within_squares;
            learned->within_degrees += seen[i].within_degrees;
        }
    }
    learned->weighed = mean.n;
    learned->mass_g = mean.mean;
    learned->between_g = running_mean_sd(&mean);
    learned->within_g = learned->within_degrees > 0 ? sqrt(squares / learned->within_degrees) : (double)NAN;
}

static void learn_rejects(const struct practice *practice, struct reject_prior prior, const struct piece_seen seen[],
                          int n, struct learned_pieces *learned)
{
    for (int i = 0; i < n; i++) {
        if (!seen[i].counted || seen[i].good < 0 || seen[i].rejects < 0 || seen[i].good + seen[i].rejects == 0)
            continue;
        learned->counted++;
        learned->good += seen[i].good;
        learned->rejects += seen[i].rejects;
    }
    if (learned->counted == 0)
        return;

    struct reject_prior counted = pieces_counted(practice, prior, learned->good, learned->rejects);

    learned->reject_a = counted.a;
    learned->reject_b = counted.b;
}

void learn_pieces(const struct practice *practice, struct reject_prior prior, const struct piece_seen seen[], int n,
                  struct learned_pieces *learned)
{
    memset(learned, 0, sizeof *learned);
    learn_mass(seen, n, learned);
    learn_rejects(practice, prior, seen, n, learned);
}
