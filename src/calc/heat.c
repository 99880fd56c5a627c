/* heat.c - adiabatic end temperature of dissolving alkali.
 *
 * Enthalpy by the road on which the tables stand: alkali and water from their start to 25 C, dissolve there (integral heat of
 * solution, 1982 scale), warm the solution from 25 C with its own heat capacity until the heat is used up. Two alkalis share
 * the water by moles: each is taken as a solution of its own with the same moles of water for one of alkali.
 */
#include "calc/heat.h"

#include "base/mass.h"
#include "calc/constants.h"

static const double TABLE_C = 25.0;
static const double WATER_J_GK = 4.18;     /* liquid water between 0 and 40 C, three figures */
static const double ICE_MELTS_J_G = 333.6; /* design, section 10 */

/* One alkali with its share of the water. */
struct solution {
    int solute;
    double moles, mass_g, share;
};

/* Part of the way from a to b at which x lies, within 0 to 1. */
static double part_way(double a, double b, double x)
{
    if (b == a)
        return 0.0;
    double way = (x - a) / (b - a);
    return way < 0.0 ? 0.0 : way > 1.0 ? 1.0 : way;
}

/* Heat given off by one mole dissolving in `ratio` moles of water, J. Straight between rows in 1/ratio, in which the curve is
 * nearest to straight; beyond the table its end row. */
static double heat_given(const struct reference *reference, int solute, double ratio)
{
    const struct heat_point *below = NULL;

    for (size_t i = 0; i < reference->heats; i++) {
        const struct heat_point *row = &reference->heat[i];

        if (row->solute != solute)
            continue;
        if (row->water_mol >= ratio) {
            if (below == NULL)
                return -row->heat_j_mol;
            double way = part_way(1.0 / below->water_mol, 1.0 / row->water_mol, 1.0 / ratio);
            return -(below->heat_j_mol + way * (row->heat_j_mol - below->heat_j_mol));
        }
        below = row;
    }
    return below != NULL ? -below->heat_j_mol : 0.0;
}

/* Value at `share` among rows from..to-1, which are of one solute and temperature and rise in share; the end row beyond. */
static double at_share(const struct lye_point *point, size_t from, size_t to, double share)
{
    size_t i = from;

    while (i + 1 < to && point[i + 1].share < share)
        i++;
    if (i + 1 == to)
        return point[i].value;
    double way = part_way(point[i].share, point[i + 1].share, share);
    return point[i].value + way * (point[i + 1].value - point[i].value);
}

/* Value at a share and temperature in a table by solute, temperature and share; the end row beyond; 0 without rows. */
static double at_temp(const struct lye_point *point, size_t n, int solute, double share, double temp_c)
{
    double value = 0.0, value_c = 0.0;
    bool any = false;

    for (size_t i = 0, next; i < n; i = next) {
        for (next = i + 1; next < n && point[next].solute == point[i].solute && point[next].temp_c == point[i].temp_c;)
            next++;
        if (point[i].solute != solute)
            continue;
        double here = at_share(point, i, next, share);
        if (any && point[i].temp_c >= temp_c)
            return value + part_way(value_c, point[i].temp_c, temp_c) * (here - value);
        value = here;
        value_c = point[i].temp_c;
        any = true;
        if (value_c >= temp_c)
            break;
    }
    return value;
}

/* J/K of both solutions at temp_c. */
static double capacity(const struct reference *reference, const struct solution solution[ALKALIS], double temp_c)
{
    double sum = 0.0;

    for (int a = 0; a < ALKALIS; a++)
        if (solution[a].moles > 0.0)
            sum += solution[a].mass_g * at_temp(reference->heat_capacity, reference->heat_capacities,
                                                solution[a].solute, solution[a].share, temp_c);
    return sum;
}

/* Temperature at which `heat_j` has warmed the solutions from 25 C; less than 0 J cools them. The heat capacity changes by a
 * few percent between 20 and 100 C, so that its mean over the way (Simpson) settles in a few rounds. */
static double warmed_to(const struct reference *reference, const struct solution solution[ALKALIS], double heat_j)
{
    enum { ROUNDS = 8 };
    double at_start = capacity(reference, solution, TABLE_C);
    double mean = at_start, temp_c = TABLE_C;

    if (at_start <= 0.0)
        return TABLE_C;
    for (int i = 0; i < ROUNDS; i++) {
        double before = temp_c;

        temp_c = TABLE_C + heat_j / mean;
        if (temp_c - before < 0.001 && before - temp_c < 0.001)
            break;
        mean = (at_start + 4.0 * capacity(reference, solution, (TABLE_C + temp_c) / 2.0) +
                capacity(reference, solution, temp_c)) /
               6.0;
    }
    return temp_c;
}

/* Boiling point of both together, by moles. */
static double boiling_c(const struct reference *reference, const struct solution solution[ALKALIS], double moles)
{
    double sum = 0.0;

    for (int a = 0; a < ALKALIS; a++)
        if (solution[a].moles > 0.0)
            sum += solution[a].moles *
                   at_temp(reference->boiling, reference->boilings, solution[a].solute, solution[a].share, TABLE_C);
    return sum / moles;
}

/* Heat that solid and water take to come from start_c to 25 C, J; negative if they start above it. */
static double heat_to_table(const struct reference *reference, const double moles[ALKALIS], double water_g,
                            double start_c)
{
    double from_c = start_c > 0.0 ? start_c : 0.0;
    double per_kelvin = water_g * WATER_J_GK;

    for (int a = 0; a < ALKALIS; a++)
        per_kelvin += moles[a] * MOLAR_ALKALI[a] * reference->solid_heat_capacity[a];
    return per_kelvin * (TABLE_C - from_c) + (start_c < 0.0 ? water_g * ICE_MELTS_J_G : 0.0);
}

void heat_of_dissolving(const struct reference *reference, const double moles[ALKALIS], double water_g, double start_c,
                        struct plan_heat *out)
{
    struct solution solution[ALKALIS] = {0};
    double sum = moles[ALKALI_NAOH] + moles[ALKALI_KOH];

    *out = (struct plan_heat){0};
    if (!(sum > 0.0) || !(water_g > 0.0))
        return;

    double ratio = water_g / MOLAR_WATER / sum;
    double heat_j = -heat_to_table(reference, moles, water_g, start_c);
    for (int a = 0; a < ALKALIS; a++) {
        double mass_g = MOLAR_ALKALI[a] + ratio * MOLAR_WATER; /* of one mole with its water */
        solution[a] = (struct solution){a, moles[a], moles[a] * mass_g, MOLAR_ALKALI[a] / mass_g};
        if (moles[a] > 0.0)
            heat_j += moles[a] * heat_given(reference, a, ratio);
    }
    out->has = true;
    out->estimate = moles[ALKALI_KOH] > 0.0;
    out->boils_at_c = boiling_c(reference, solution, sum);
    out->up_to_c = warmed_to(reference, solution, heat_j);
    out->capped = out->up_to_c > out->boils_at_c;
    if (out->capped)
        out->up_to_c = out->boils_at_c;
    if (start_c < 0.0 && out->up_to_c < start_c) /* too little alkali to melt all of the ice */
        out->up_to_c = start_c;
}

/* Water that the dry alkali meets: plain, of liquids, of ready-made lye, and what is not alkali in the dry flake. */
static double water_met_g(const struct plan_input *in, const struct plan *plan)
{
    double water = mass_g(plan->water.water.rounded_ug);

    for (int i = 0; i < in->recipe->water.liquids; i++)
        water += plan->liquid[i].water_g;
    for (int a = 0; a < ALKALIS; a++) {
        const struct plan_alkali *alkali = &plan->alkali[a];

        if (alkali->solution.division_ug > 0)
            water += mass_g(alkali->solution.rounded_ug - alkali->alkali.rounded_ug);
        else
            water += mass_g(alkali->alkali.rounded_ug) - alkali->moles * MOLAR_ALKALI[a];
    }
    return water;
}

void heat_plan(const struct plan_input *in, struct plan *plan)
{
    double moles[ALKALIS] = {0};

    for (int a = 0; a < ALKALIS; a++)
        if (plan->alkali[a].solution.division_ug == 0)
            moles[a] = plan->alkali[a].moles;
    heat_of_dissolving(in->reference, moles, water_met_g(in, plan), in->recipe->water.temp_c, &plan->heat);
    if (!plan->heat.capped)
        return;
    plan_find(plan, &(struct finding){.code = FINDING_HEAT_BOIL,
                                      .level = LEVEL_CAUTION,
                                      .about = {PART_WATER, 0, 0},
                                      .number = {plan->heat.up_to_c, plan->heat.boils_at_c, 0.0}});
}
