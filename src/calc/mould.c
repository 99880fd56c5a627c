/* mould.c - volumes of moulds and layers; lengths in mm, so a mm cubed is a thousandth of a mL. */
#include "calc/mould.h"

#include <math.h>

#include "base/mass.h"

static const double PI = 3.14159265358979323846;
static const double MM3_PER_ML = 1000;

/* Lengths in a file have no upper limit, and every figure of a plan is finite. */
static const double MOST = 1e12;

static const double OVER_SHARE = 0.01;
enum { OVER_DIVISIONS = 2 };

static double whole_ml(const struct mould *mould)
{
    switch (mould->shape) {
    case MOULD_BOX:
        return mould->length_mm * mould->width_mm * mould->height_mm / MM3_PER_ML;
    case MOULD_CYLINDER:
        return PI / 4 * mould->diameter_mm * mould->diameter_mm * mould->height_mm / MM3_PER_ML;
    case MOULD_VOLUME:
        return mould->volume_ml;
    case MOULD_CAVITIES:
        return mould->cavities * mould->volume_ml;
    }
    return 0;
}

double mould_ml(const struct mould *mould)
{
    return fmin(whole_ml(mould) * mould->fill, MOST);
}

/* 0 for other shapes. */
static double floor_mm2(const struct mould *mould)
{
    return mould->shape == MOULD_BOX ? mould->length_mm * mould->width_mm : 0;
}

double mould_layer_g(const struct mould *mould, double mm, double density_g_ml)
{
    return fmin(floor_mm2(mould) * mm / MM3_PER_ML * density_g_ml, MOST);
}

double mould_height_mm(const struct mould *mould, double ml)
{
    double area = floor_mm2(mould);

    return area > 0 ? fmin(ml * MM3_PER_ML / area, MOST) : 0;
}

static bool stands_in_mould(const struct recipe *recipe, const struct plan_portion *portion)
{
    return recipe->size.by == SIZE_MOULD || portion->technique != TECHNIQUE_PIPE ||
           (portion->source >= 0 && recipe->portion[portion->source].demand == DEMAND_LAYER);
}

void mould_plan(const struct plan_input *in, struct plan *plan)
{
    const struct recipe *recipe = in->recipe;
    const struct mould *mould = &recipe->size.mould;
    double rounding_ml = 0;

    if (!recipe->size.has_mould && recipe->size.by != SIZE_MOULD)
        return;

    plan->mould_ml = mould_ml(mould);
    for (int i = 0; i < plan->portions; i++) {
        struct plan_portion *portion = &plan->portion[i];

        if (!stands_in_mould(recipe, portion))
            continue;
        portion->layer_mm = mould_height_mm(mould, portion->volume_ml);
        plan->filled_ml += portion->volume_ml;
        rounding_ml = OVER_DIVISIONS * mass_g(portion->division_ug) / plan->density_g_ml;
    }

    double over_ml = plan->filled_ml - plan->mould_ml;

    if (over_ml <= fmax(OVER_SHARE * plan->mould_ml, rounding_ml))
        return;

    struct finding finding = {
        .code = FINDING_MOULD_OVER,
        .level = LEVEL_CAUTION,
        .about = {PART_SIZE, 0, 0},
        .number = {plan->filled_ml, plan->mould_ml, mould_height_mm(mould, over_ml)},
    };

    plan_find(plan, &finding);
}
