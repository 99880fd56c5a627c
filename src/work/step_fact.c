/* step_fact.c - the table of steps. Instructions are common practice of small makers, in our own words; the lengths of timers too, from
 * memory: 5 to 10 minutes until dissolved, an hour until cool on the bench, a look at the trace every 10 minutes, 45 minutes in the
 * freezer, a day in the mould. */
#include "work/step_fact.h"

/* clang-format off */
static const struct step_fact facts[STEP_KIND_COUNT] = {
    [STEP_LAY_OUT] = {
        .title = "lay out",
        .line = {"Bench wiped, nothing left of the last batch; scale level, zero with nothing on it.",
                 "Lye vessel, jug and a cup for each colour: heat-safe plastic or stainless steel, empty masses known.",
                 "Spatulas, blender, thermometer; bags, tips, squares and a tray that fits the cold place.",
                 "Goggles, gloves, long sleeves; water within reach; children and animals out."},
    },
    [STEP_WEIGH] = {
        .title = "%s",
        .before_combining = true,
    },
    [STEP_DISPERSE] = {
        .title = "disperse %s",
        .line = {"Powder into its carrier, not the other way; stir until no lump is left.",
                 "Cover the cup."},
    },
    [STEP_DISSOLVE] = {
        .title = "dissolve the alkali",
        .line = {"Alkali into the water, a little at a time, stirring; never the other way.",
                 "Stir until it is clear. What is still cloudy is not dissolved."},
        .before_combining = true, .timer = {"dissolved?", 5 * 60, 5 * 60, false},
    },
    [STEP_COOL] = {
        .title = "let the lye cool",
        .line = {"Covered, marked, where nobody reaches it. Go on with the oils meanwhile."},
        .timer = {"lye cool?", 60 * 60, 0, false},
    },
    [STEP_MELT] = {
        .title = "melt the oils",
        .line = {"Gently, until all of it is clear; hold it there for some minutes, so that no hard fat comes back as grains.",
                 "Let it cool to where you combine, never below where the hard oils set."},
        .timer = {"melted and clear?", 15 * 60, 0, false},
    },
    [STEP_KEEP_BACK] = {
        .title = "keep back %s for colour",
        .line = {"Out of the jug into the cup of its colour."},
    },
    [STEP_JUG_CHECK] = {
        .title = "check the full jug",
        .line = {"The jug with all oils on the scale, as it stands: it tells what was forgotten or put in twice."},
        .ask = ASK_READING,
    },
    [STEP_COMBINE] = {
        .title = "combine lye and oils",
        .line = {"Lye clear, both at the temperature you like to combine at.",
                 "Lye into the oils, in a thin stream, stirring. The time is stamped when it is done."},
        .ask = ASK_TEMPERATURES,
    },
    [STEP_EMULSIFY] = {
        .title = "emulsify",
        .line = {"Short bursts of the blender, stirring between; off before it is lifted.",
                 "Done when no oil streak is left and it still runs like water: that is the moment to split."},
    },
    [STEP_POUR_OUT] = {
        .title = "pour out %s",
        .line = {"Out of the jug into its own cup."},
        .ask = ASK_READING, .splits = true, .left_out = true,
    },
    [STEP_STAYS] = {
        .title = "%s stays in the jug",
        .line = {"What is left in the jug is this portion, with what sticks to it."},
        .splits = true, .left_out = true,
    },
    [STEP_COLOUR] = {
        .title = "colour %s",
        .line = {"By hand, pale colours before dark ones, scraping the cup of the colour out."},
        .splits = true, .left_out = true,
    },
    [STEP_SCENT] = {
        .title = "scent %s",
        .line = {"By hand, never with the blender; the fastest one last."},
        .splits = true, .left_out = true,
    },
    [STEP_STAND] = {
        .title = "let it stand",
        .line = {"Look at it when the timer says so; stamp how thick it is, and the forecast follows.",
                 "Stir by hand between."},
        .ask = ASK_STAGE, .left_out = true, .timer = {"look at the trace", 10 * 60, 10 * 60, true},
    },
    [STEP_FILL_BAGS] = {
        .title = "fill the bags",
        .line = {"No bag more than two thirds full; push the air out; film over a tip that waits.",
                 "A short squeeze first, until the colour is through."},
        .splits = true,
    },
    [STEP_PIPE] = {
        .title = "pipe %s",
        .line = {"Onto squares; each good one counts."},
        .ask = ASK_PIECES, .splits = true,
    },
    [STEP_POUR] = {
        .title = "pour %s",
        .line = {"Low and along the mould; tap it so that the air comes up."},
        .splits = true,
    },
    [STEP_CHILL] = {
        .title = "chill",
        .line = {"Level, an hour at room temperature and then cold, until the paper peels."},
        .timer = {"chilled?", 45 * 60, 0, false},
    },
    [STEP_RECOUNT] = {
        .title = "count %s after lifting",
        .line = {"Lift them off and count what is good: that is what goes onto a loaf."},
        .ask = ASK_TWO_COUNTS,
    },
    [STEP_PLACE] = {
        .title = "place pieces",
        .line = {"When the top holds a skewer but still bonds; press three to five millimetres in.",
                 "How many, and from which batch."},
        .ask = ASK_COUNT,
    },
    [STEP_COVER] = {
        .title = "cover",
        .line = {"Covered but not touching; away from draught. Cold for piped tops: they lose form in gel."},
    },
    [STEP_UNMOULD] = {
        .title = "unmould",
        .line = {"Gloves on: it still bites. Firm like cheese, and it comes away from the mould."},
        .timer = {"out of the mould?", 24 * 3600, 0, false},
    },
    [STEP_CUT] = {
        .title = "cut",
        .line = {"Bars and trims; weigh the lightest bar. How many bars, and what the lightest weighs."},
        .ask = ASK_TWO_COUNTS,
    },
    [STEP_CURE] = {
        .title = "put it to cure",
        .line = {"On a rack with air around each; mark it with the batch number and the day."},
    },
    [STEP_PUT_RIGHT] = {
        .title = "put right: %s",
        .before_combining = true,
    },
    [STEP_OTHER] = {
        .title = "%s",
    },
};
/* clang-format on */

const struct step_fact *step_fact(enum step_kind kind)
{
    return &facts[kind];
}
