/* plan.c - the order of a plan. Each section fills its own part; this file only calls them. */
#include <string.h>

#include "calc/acids.h"
#include "calc/colour.h"
#include "calc/density.h"
#include "calc/dose.h"
#include "calc/findings.h"
#include "calc/fragrance.h"
#include "calc/heat.h"
#include "calc/lye.h"
#include "calc/mould.h"
#include "calc/pace.h"
#include "calc/pieces.h"
#include "calc/portion.h"
#include "calc/reserve.h"
#include "calc/scales.h"
#include "calc/size.h"
#include "calc/superfat.h"

void plan_compute(const struct plan_input *in, struct plan *plan)
{
    memset(plan, 0, sizeof *plan);

    scales_plan(in, plan);
    lye_facts(in, plan);
    size_plan(in, plan);
    scales_round_oils(in, plan);
    lye_plan(in, plan);
    dose_into_batter(in, plan);
    fragrance_into_batter(in, plan);
    superfat_plan(in, plan);
    density_plan(in, plan);
    portion_plan(in, plan);
    dose_plan(in, plan);
    reserve_plan(in, plan);
    superfat_portions(in, plan);
    fragrance_doses(in, plan);
    mould_plan(in, plan);
    fragrance_plan(in, plan);
    acids_plan(in, plan);
    heat_plan(in, plan);
    pieces_plan(in, plan);
    pace_plan(in, plan);
    colour_plan(in, plan);
    scales_find(in, plan);
    findings_hush(in, plan);
}
