/* put_right_slip.c - what a reading that is far off most likely is. Only what fits closely, and alone, is named. */
#include "base/mass.h"
#include "calc/charged.h"
#include "calc/constants.h"
#include "calc/put_right.h"

/* Avoirdupois, NIST Handbook 44 Appendix C; exact. */
static const double ounce_g = 28.349523125;

/* By which a reading in other units or of the other alkali may miss, of itself: figures are written down in few digits. */
static const double share_near = 0.005;

/* What stays in cups and goes off as steam before the jug is checked, of all that should be in it (memory). */
static const double jug_loss_share = 0.005;

/* What would be read must be so many tolerances from what should be, or scatter could look like it. */
enum { APART_TOLERANCES = 4 };

/* Potassium hydroxide as flake, by common practice, and pure. */
static const double koh_purities[] = {0.9, 1};

static int64_t larger(int64_t a, int64_t b)
{
    return a > b ? a : b;
}

static int64_t distance(int64_t a, int64_t b)
{
    return a > b ? a - b : b - a;
}

/* What was read, and what it could be. */
struct reading {
    int64_t target_ug, read_ug, tolerance_ug;
    struct slip slip;
    bool unclear; /* more than one thing fits */
};

static void try_slip(struct reading *reading, struct slip slip, int64_t would_read_ug, int64_t near_ug)
{
    if (distance(reading->read_ug, would_read_ug) > near_ug)
        return;
    if (distance(would_read_ug, reading->target_ug) <= APART_TOLERANCES * larger(near_ug, reading->tolerance_ug))
        return;
    reading->unclear |= reading->slip.kind != SLIP_NONE && reading->slip.kind != slip.kind;
    if (reading->slip.kind == SLIP_NONE)
        reading->slip = slip;
}

static int64_t near_in_other_unit(const struct reading *reading, double would_read_g)
{
    return larger(reading->tolerance_ug, mass_ug(share_near * would_read_g));
}

static void try_ounces(struct reading *reading)
{
    double target_g = mass_g(reading->target_ug);
    const double would_read_g[] = {target_g / ounce_g, target_g * ounce_g};

    for (int i = 0; i < 2; i++)
        try_slip(reading, (struct slip){.kind = SLIP_OUNCES}, mass_ug(would_read_g[i]),
                 near_in_other_unit(reading, would_read_g[i]));
}

static void try_other_alkali(struct reading *reading, enum alkali which)
{
    double target_g = mass_g(reading->target_ug);

    for (int i = 0; i < 2; i++) {
        double koh_for_naoh = MOLAR_KOH / MOLAR_NAOH / koh_purities[i];
        double would_read_g = which == ALKALI_NAOH ? target_g * koh_for_naoh : target_g / koh_for_naoh;

        try_slip(reading, (struct slip){.kind = SLIP_WRONG_ALKALI}, mass_ug(would_read_g),
                 near_in_other_unit(reading, would_read_g));
    }
}

struct slip put_right_slip(int64_t target_ug, int64_t read_ug, int64_t vessel_ug, int64_t tolerance_ug, bool alkali,
                           enum alkali which, const int64_t other_target_ug[], int others)
{
    struct reading reading = {.target_ug = target_ug, .read_ug = read_ug, .tolerance_ug = larger(tolerance_ug, 1)};

    if (target_ug <= 0 || read_ug <= 0 || target_ug > mass_ug(MASS_MOST_G) || read_ug > mass_ug(MASS_MOST_G) ||
        distance(target_ug, read_ug) <= tolerance_ug)
        return (struct slip){.kind = SLIP_NONE};
    if (vessel_ug > 0 && vessel_ug <= mass_ug(MASS_MOST_G))
        try_slip(&reading, (struct slip){.kind = SLIP_NOT_TARED}, target_ug + vessel_ug, reading.tolerance_ug);
    try_slip(&reading, (struct slip){.kind = SLIP_TWICE}, 2 * target_ug, 2 * reading.tolerance_ug);
    try_ounces(&reading);
    for (int i = 0; i < others; i++)
        if (other_target_ug[i] > 0)
            try_slip(&reading, (struct slip){.kind = SLIP_OTHER_BATCH, .batch = i}, other_target_ug[i],
                     reading.tolerance_ug);
    if (alkali)
        try_other_alkali(&reading, which);
    if (reading.unclear)
        reading.slip.kind = SLIP_NONE;
    return reading.slip;
}

/* The full jug: how much more or less is in it than should be. */
struct jug {
    const struct plan_input *in;
    const struct plan *charged;
    int64_t more_ug, near_ug;
    struct slip slip;
    bool unclear;
};

static bool missing(enum slip_kind kind)
{
    return kind == SLIP_FORGOTTEN || kind == SLIP_PLAIN_WATER;
}

static void try_jug(struct jug *jug, struct slip slip, int64_t would_be_more_ug)
{
    if (distance(would_be_more_ug, 0) <= 2 * jug->near_ug || distance(would_be_more_ug, jug->more_ug) > jug->near_ug)
        return;
    if (jug->slip.kind == SLIP_NONE)
        jug->slip = slip;
    else if (jug->slip.kind == slip.kind || (missing(jug->slip.kind) && missing(slip.kind)))
        jug->slip = (struct slip){.kind = missing(slip.kind) ? SLIP_FORGOTTEN : slip.kind, .what = {PART_BATTER, 0, 0}};
    else
        jug->unclear = true;
}

/* That part is missing, or in it twice. */
static void try_part(struct jug *jug, enum part part, int index)
{
    struct part_ref what = {part, (int16_t)index, 0};
    int64_t ug = charged_weighing(jug->in, jug->charged, what)->rounded_ug;

    try_jug(jug, (struct slip){.kind = SLIP_FORGOTTEN, .what = what}, -ug);
    try_jug(jug, (struct slip){.kind = SLIP_EXTRA, .what = what}, ug);
}

/* The water without its alkali: the mass of all dry alkali is missing. */
static void try_plain_water(struct jug *jug)
{
    int64_t alkali_ug = 0;

    for (int i = 0; i < ALKALIS; i++)
        if (jug->charged->alkali[i].solution.division_ug == 0)
            alkali_ug += jug->charged->alkali[i].alkali.rounded_ug;
    try_jug(jug, (struct slip){.kind = SLIP_PLAIN_WATER}, -alkali_ug);
}

static void try_lye(struct jug *jug)
{
    int alkalis = 0;

    for (int i = 0; i < ALKALIS; i++)
        alkalis += jug->charged->alkali[i].alkali.rounded_ug > 0;
    try_plain_water(jug);
    for (int i = 0; i < ALKALIS; i++) {
        bool dry = jug->charged->alkali[i].solution.division_ug == 0;
        int64_t ug = charged_weighing(jug->in, jug->charged, (struct part_ref){PART_ALKALI, (int16_t)i, 0})->rounded_ug;

        if (dry && alkalis == 1) /* that it is missing was said already */
            try_jug(jug, (struct slip){.kind = SLIP_EXTRA, .what = {PART_ALKALI, (int16_t)i, 0}}, ug);
        else
            try_part(jug, PART_ALKALI, i);
    }
    try_part(jug, PART_WATER, 0);
    for (int i = 0; i < jug->in->recipe->water.liquids; i++)
        try_part(jug, PART_LIQUID, i);
}

static int64_t jug_vessel_ug(const struct batch *batch)
{
    for (int i = 0; i < batch->steps; i++) {
        const struct step *step = &batch->step[i].step;

        if (step->use == VESSEL_JUG && step->vessel >= 0 && step->vessel < batch->head.vessels)
            return batch->head.vessel[step->vessel].empty_ug;
    }
    return 0;
}

struct slip put_right_jug(const struct plan_input *in, const struct plan *plan, const struct batch *batch, bool lye,
                          int64_t read_ug)
{
    struct plan charged;
    struct jug jug = {.in = in, .charged = &charged};
    int64_t expected_ug, tolerance_ug;

    charged_jug(in, plan, batch, lye, &expected_ug, &tolerance_ug);
    charged_plan(in, plan, &batch->charges, &charged);
    jug.more_ug = read_ug - expected_ug;
    jug.near_ug = tolerance_ug + mass_ug(jug_loss_share * mass_g(expected_ug));
    if (distance(jug.more_ug, 0) <= jug.near_ug)
        return (struct slip){.kind = SLIP_NONE};
    try_jug(&jug, (struct slip){.kind = SLIP_NOT_TARED}, jug_vessel_ug(batch));
    for (int i = 0; i < in->recipe->oils; i++)
        try_part(&jug, PART_OIL, i);
    if (lye)
        try_lye(&jug);
    for (int i = 0; i < in->recipe->additives; i++)
        if (charged_in_jug(in, i, lye))
            try_part(&jug, PART_ADDITIVE, i);
    if (jug.unclear)
        jug.slip.kind = SLIP_NONE;
    return jug.slip;
}
