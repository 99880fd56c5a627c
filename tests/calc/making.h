/* making.h - a batch of a recipe of the kitchen that is being weighed, and superfat by the tests' own arithmetic.
 *
 * The arithmetic is that of any table of saponification values: mol of alkali by its molar mass less mol of acid, over mg
 * KOH per g of fat (ISO 3657) by that of KOH. Molar masses: CIAAW standard atomic weights, added up here.
 */
#ifndef TESTS_MAKING_H
#define TESTS_MAKING_H

#include "calc/charged.h"
#include "calc/kitchen.h"
#include "calc/near.h"
#include "calc/put_right.h"

static const double OWN_MOLAR[ALKALIS] = {22.98977 + 15.999 + 1.008, 39.0983 + 15.999 + 1.008};

struct making {
    struct kitchen *k;
    struct plan plan;
    struct charges charges;
    struct put_right_input input;
    struct remedy remedy[REMEDIES];
    int remedies;
};

static const struct part_ref OIL_0 = {PART_OIL, 0, 0}, OIL_1 = {PART_OIL, 1, 0}, SODA = {PART_ALKALI, ALKALI_NAOH, 0},
                             POTASH = {PART_ALKALI, ALKALI_KOH, 0}, WATER = {PART_WATER, 0, 0},
                             LIQUID_0 = {PART_LIQUID, 0, 0}, ADDITIVE_0 = {PART_ADDITIVE, 0, 0};

static inline struct making *making_of(struct kitchen *k)
{
    static struct making m;

    memset(&m, 0, sizeof m);
    m.k = k;
    k->in.reference = facts_reference();
    plan_compute(&k->in, &m.plan);
    m.charges.lye_used = 1;
    m.input = (struct put_right_input){
        .in = &k->in, .plan = &m.plan, .charges = &m.charges, .superfat_most = put_right_most(0, &k->recipe)};
    return &m;
}

/* 1000 g of three oils, 5 %, on scales of 1 g and 0.01 g: 140.49 g of NaOH and 285 g of water. */
static inline struct kitchen *three_oils(void)
{
    struct kitchen *k = kitchen_new();

    kitchen_scale(k, 1, 5000, 0);
    kitchen_scale(k, 0.01, 200, 0);
    kitchen_oil(k, &OLIVE, 450);
    kitchen_oil(k, &COCONUT, 250);
    kitchen_oil(k, &PALM_HYBRID, 300);
    return k;
}

static inline struct charge *making_charge(struct making *m, struct part_ref part)
{
    return charged_of(&m->k->in, &m->charges, part);
}

/* So much of it went in, read on the scale that the plan names. */
static inline void weigh(struct making *m, struct part_ref part, double grams)
{
    const struct weighing *planned = charged_weighing(&m->k->in, &m->plan, part);

    *making_charge(m, part) = (struct charge){
        .has = true, .mass_ug = mass_ug(grams), .half_ug = planned->division_ug / 2, .scale = planned->scale};
}

static inline double planned_g(const struct making *m, struct part_ref part)
{
    return mass_g(charged_weighing(&m->k->in, &m->plan, part)->rounded_ug);
}

static inline void weigh_off(struct making *m, struct part_ref part, double by_g)
{
    weigh(m, part, planned_g(m, part) + by_g);
}

static inline int ask(struct making *m, enum batch_phase phase, struct part_ref what)
{
    m->input.phase = phase;
    m->input.what = what;
    m->remedies = put_right(&m->input, m->remedy);
    return m->remedies;
}

static inline void alone(struct making *m, bool is)
{
    for (int i = 0; i < 4; i++)
        m->input.alone[i] = is;
}

static inline double grams_in(const struct charge *charge, const struct weighing *planned)
{
    return mass_g(charge->has ? charge->mass_ug : planned->rounded_ug);
}

/* Masses are whole micrograms, as is each part of a share of the lye and of lye that is added. */
static inline double whole_micrograms(double grams)
{
    return round(grams * 1e6) / 1e6;
}

static inline double share_of_lye(double grams, double share)
{
    return share < 1 ? whole_micrograms(grams * share) : grams;
}

static inline double own_alkali_mol(const struct making *m, const struct charges *c)
{
    const struct recipe *recipe = &m->k->recipe;
    double mol = 0;

    for (int i = 0; i < ALKALIS; i++) {
        double solution = recipe->alkali.solution_share[i], strength = m->plan.water.strength, grams;

        if (solution > 0) /* lye cannot be made stronger than what it is made of */
            strength = fmin(strength, solution);
        else
            solution = 1;
        grams = share_of_lye(
            grams_in(&c->alkali[i], solution < 1 ? &m->plan.alkali[i].solution : &m->plan.alkali[i].alkali),
            c->lye_used);
        grams += c->added_lye[i].has ? whole_micrograms(mass_g(c->added_lye[i].mass_ug) * strength / solution) : 0;
        grams *= solution;
        mol += grams * m->plan.purity[i].nominal / OWN_MOLAR[i];
    }
    return mol;
}

static inline double sap_mol(const struct oil_fact *fat, double grams)
{
    return fat ? grams * fat->sap_nominal / 1000 / OWN_MOLAR[ALKALI_KOH] : 0;
}

static inline bool in_the_lye(const struct additive_fact *fact)
{
    return fact->add_to && (strcmp(fact->add_to, "water") == 0 || strcmp(fact->add_to, "lye") == 0);
}

/* Nominal superfat of what was charged; what was not counts as planned. */
static inline double own_superfat(const struct making *m, const struct charges *c)
{
    const struct recipe *recipe = &m->k->recipe;
    const struct recipe_facts *facts = &m->k->facts;
    double acid = 0, fat = 0;

    for (int i = 0; i < recipe->oils; i++)
        fat += sap_mol(facts->oil[i], grams_in(&c->oil[i], &m->plan.oil[i]));
    for (int i = 0; i < recipe->water.liquids; i++) {
        double grams = share_of_lye(grams_in(&c->liquid[i], &m->plan.liquid[i].liquid), c->lye_used);

        acid += grams * facts->liquid[i]->acid_mol_per_kg / 1000;
        fat += sap_mol(facts->liquid_fat[i], grams * facts->liquid[i]->fat_share);
    }
    for (int i = 0; i < recipe->additives; i++) {
        const struct additive_fact *fact = facts->additive[i];
        double grams = grams_in(&c->additive[i], &m->plan.additive[i].additive);

        grams = share_of_lye(grams, in_the_lye(fact) ? c->lye_used : 1);
        acid += fact->molar_mass > 0 ? grams * fact->active_share * fact->equivalents / fact->molar_mass : 0;
        fat += sap_mol(facts->additive_fat[i], grams * fact->fat_share);
    }
    return 1 - (own_alkali_mol(m, c) - acid) / fat;
}

#endif
