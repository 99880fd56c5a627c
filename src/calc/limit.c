/* limit.c - the limit that binds a blend of fragrances. */
#include "calc/limit.h"

#include <string.h>

#include "base/mass.h"
#include "calc/product.h"

/* What the fragrances bring together of each constituent. */
struct sums {
    double share[LIMIT_ROWS];
    double most[LIMIT_ROWS];      /* the largest single part of share */
    int most_from[LIMIT_ROWS];    /* the fragrance it is from */
    bool uncertified[LIMIT_ROWS]; /* some of it is from a fragrance without a certificate */
};

/* Keeps the smaller scale; of equal ones the figure of the better standing. */
static void keep_smaller(struct limit_found *best, const struct limit_found *found)
{
    if (best->from == LIMIT_NONE_KNOWN || found->scale < best->scale ||
        (found->scale == best->scale && found->standing < best->standing))
        *best = *found;
}

static void consider(struct limit_blend *out, const struct limit_found *found)
{
    keep_smaller(&out->binding, found);
    if (found->standing == STANDING_CERTIFICATE || found->standing == STANDING_SEEN)
        keep_smaller(&out->firm, found);
}

/* Use over limit, summed over all certificates. A limit of 0 makes it infinite and the scale 0. */
static void consider_certificates(const struct recipe *recipe, const double use[], struct limit_blend *out)
{
    double sum = 0.0, most = 0.0;
    struct limit_found found = {.from = LIMIT_CERTIFICATE, .constituent = -1, .standing = STANDING_CERTIFICATE};

    for (int i = 0; i < recipe->fragrances; i++) {
        if (!recipe->fragrance[i].has_limit || use[i] <= 0.0)
            continue;
        double part = use[i] / recipe->fragrance[i].limit_share;
        sum += part;
        if (part > most) {
            most = part;
            found.fragrance = i;
            found.share = use[i];
        }
    }
    if (sum <= 0.0)
        return;
    found.scale = 1.0 / sum;
    consider(out, &found);
}

static void add_constituents(const struct fragrance_fact *fact, int fragrance, double use, bool certified,
                             struct sums *sums, bool *unknown)
{
    for (size_t c = 0; c < fact->constituents; c++) {
        int k = fact->constituent[c].limit;
        double part = use * fact->constituent[c].hi;

        if (part <= 0.0)
            continue;
        if (k >= LIMIT_ROWS) {
            *unknown = true;
            continue;
        }
        sums->share[k] += part;
        sums->uncertified[k] |= !certified;
        if (part > sums->most[k]) {
            sums->most[k] = part;
            sums->most_from[k] = fragrance;
        }
    }
}

static void add_fragrances(const struct plan_input *in, const double use[], struct sums *sums, bool *unknown)
{
    for (int i = 0; i < in->recipe->fragrances; i++) {
        const struct fragrance_fact *fact = in->facts->fragrance[i];
        bool certified = in->recipe->fragrance[i].has_limit;

        if (use[i] <= 0.0)
            continue;
        if (fact != NULL && fact->constituents > 0)
            add_constituents(fact, i, use[i], certified, sums, unknown);
        else
            *unknown |= !certified;
    }
}

static void consider_constituent(const struct limit_fact *limit, int k, const struct sums *sums,
                                 struct limit_blend *out)
{
    struct limit_found found = {.constituent = k, .fragrance = sums->most_from[k], .share = sums->share[k]};

    out->unknown |= limit->figure_unknown;
    if (limit->has_ifra) {
        found.from = LIMIT_IFRA;
        found.standing = limit->ifra_standing;
        found.scale = limit->ifra_share / found.share;
        consider(out, &found);
    }
    if (limit->has_eu) {
        found.from = LIMIT_EU;
        found.standing = limit->eu_standing;
        found.scale = limit->eu_share / found.share;
        consider(out, &found);
    }
}

void limit_of_blend(const struct plan_input *in, const double use[RECIPE_FRAGRANCES], struct limit_blend *out)
{
    struct sums sums;

    memset(&sums, 0, sizeof sums);
    memset(out, 0, sizeof *out);
    consider_certificates(in->recipe, use, out);
    add_fragrances(in, use, &sums, &out->unknown);
    for (int k = 0; k < LIMIT_ROWS && (size_t)k < in->reference->limits; k++)
        if (sums.uncertified[k])
            consider_constituent(&in->reference->limit[k], k, &sums, out);
}

/* The smallest scale over all portions, and which portion it is of. */
struct worst {
    struct limit_found found;
    int portion;
};

static void keep_worst(struct worst *worst, const struct limit_found *found, int portion)
{
    if (found->from == LIMIT_NONE_KNOWN)
        return;
    if (worst->found.from == LIMIT_NONE_KNOWN || found->scale < worst->found.scale)
        *worst = (struct worst){*found, portion};
}

static bool over(const struct worst *worst)
{
    return worst->found.from != LIMIT_NONE_KNOWN && worst->found.scale < 1.0 - 1e-9;
}

static void find_over(struct plan *plan, const struct worst *worst, enum finding_level level)
{
    const struct limit_found *found = &worst->found;
    const struct plan_portion *portion = &plan->portion[worst->portion];
    double load = portion->oils_g > 0.0 ? mass_g(portion->fragrance_ug) / portion->oils_g : 0.0;
    struct finding finding = {.code = FINDING_FRAGRANCE_LIMIT,
                              .level = level,
                              .about = {PART_FRAGRANCE, (int16_t)found->fragrance, 0},
                              .other = {PART_FRAGRANCE, (int16_t)found->fragrance, 0},
                              .number = {found->share, found->share * found->scale, load * found->scale}};

    if (found->constituent >= 0)
        finding.other = (struct part_ref){PART_CONSTITUENT, (int16_t)found->constituent, 0};
    plan_find(plan, &finding);
}

/* Puts the binding limit into the plan; `total` is the share of fragrance in the worst portion. */
static void put_limit(struct plan *plan, int fragrances, const struct limit_found *found, double total)
{
    struct plan_limit *limit = &plan->limit;
    bool binds = found->from != LIMIT_NONE_KNOWN && found->scale * total <= 1.0;

    limit->constituent = limit->fragrance = -1;
    limit->scale = 1.0;
    if (!binds) {
        bool nothing_known = total <= 0.0 || (found->from == LIMIT_NONE_KNOWN && limit->unknown);
        limit->from = nothing_known ? LIMIT_NONE_KNOWN : LIMIT_NOT_BINDING;
        limit->standing = found->standing;
        return;
    }
    limit->from = found->from;
    limit->constituent = found->constituent;
    limit->fragrance = found->constituent >= 0 ? -1 : found->fragrance;
    limit->standing = found->standing;
    limit->scale = found->scale;
    for (int i = 0; i < fragrances; i++) {
        plan->fragrance[i].has_limit = true;
        plan->fragrance[i].limit_share = plan->fragrance[i].share_of_product * found->scale;
    }
}

void limit_plan(const struct plan_input *in, struct plan *plan)
{
    struct worst binding = {0}, firm = {0};
    double total = 0.0;

    for (int p = 0; p < plan->portions; p++) {
        double use[RECIPE_FRAGRANCES];
        struct limit_blend blend;
        double sum = product_uses(in, plan, &plan->portion[p], use);

        if (sum <= 0.0)
            continue;
        limit_of_blend(in, use, &blend);
        keep_worst(&binding, &blend.binding, p);
        keep_worst(&firm, &blend.firm, p);
        plan->limit.unknown |= blend.unknown;
        if (p == plan->worst_portion)
            total = sum;
    }
    put_limit(plan, in->recipe->fragrances, &binding.found, total);
    if (over(&firm))
        find_over(plan, &firm, LEVEL_STOP);
    if (over(&binding) && (!over(&firm) || binding.found.scale < firm.found.scale))
        find_over(plan, &binding, LEVEL_CAUTION);
}
