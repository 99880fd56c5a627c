/* bench.c - the bench of a maker of whom nothing is known: common practice alone. */
#include "lyeway/plan.h"

struct bench plan_bench_common(void)
{
    return (struct bench){.air_share = 0, .density_g_ml = 0, .combine_temp_c = 35};
}
