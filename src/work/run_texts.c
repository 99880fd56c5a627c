/* run_texts.c - steps in words: what each is called, and what there is to do in it. */
#include <string.h>

#include "base/mass.h"
#include "base/text.h"
#include "lyeway/names.h"
#include "work/run_inside.h"
#include "work/words.h"

struct kind_texts {
    const char *title; /* "%s" stands for what it is about */
    const char *lines[8];
};

/* Common practice of small makers; own words. One thing to do a line. */
static const struct kind_texts kind_texts[STEP_KIND_COUNT] = {
    [STEP_LAY_OUT] = {"lay out",
                      {"Bench wiped, nothing left of the last batch; scale level, zero with nothing on it.",
                       "Lye vessel, jug and a cup for each colour: heat-safe plastic or stainless steel, empty masses known.",
                       "Spatulas, blender, thermometer; bags, tips, squares and a tray that fits the cold place.",
                       "Goggles, gloves, long sleeves; water within reach; children and animals out."}},
    [STEP_WEIGH] = {"%s", {NULL}},
    [STEP_DISPERSE] = {"disperse %s",
                       {"Powder into its carrier, not the other way; stir until no lump is left.", "Cover the cup."}},
    [STEP_DISSOLVE] = {"dissolve the alkali",
                       {"Alkali into the water, a little at a time, stirring; never the other way.",
                        "Stir until it is clear. What is still cloudy is not dissolved."}},
    [STEP_COOL] = {"let the lye cool", {"Covered, marked, where nobody reaches it. Go on with the oils meanwhile."}},
    [STEP_MELT] = {"melt the oils",
                   {"Gently, until all of it is clear; hold it there for some minutes, so that no hard fat comes back as grains.",
                    "Let it cool to where you combine, never below where the hard oils set."}},
    [STEP_KEEP_BACK] = {"keep back %s for colour", {"Out of the jug into the cup of its colour."}},
    [STEP_JUG_CHECK] = {"check the full jug",
                        {"The jug with all oils on the scale, as it stands: it tells what was forgotten or put in twice."}},
    [STEP_COMBINE] = {"combine lye and oils",
                      {"Lye clear, both at the temperature you like to combine at.",
                       "Lye into the oils, in a thin stream, stirring. Enter stamps the time."}},
    [STEP_EMULSIFY] = {"emulsify",
                       {"Short bursts of the blender, stirring between; off before it is lifted.",
                        "Done when no oil streak is left and it still runs like water: that is the moment to split."}},
    [STEP_POUR_OUT] = {"pour out %s", {"Out of the jug into its own cup."}},
    [STEP_STAYS] = {"%s stays in the jug", {"What is left in the jug is this portion, with what sticks to it."}},
    [STEP_COLOUR] = {"colour %s", {"By hand, pale colours before dark ones, scraping the cup of the colour out."}},
    [STEP_SCENT] = {"scent %s", {"By hand, never with the blender; the fastest one last."}},
    [STEP_STAND] = {"let it stand",
                    {"Look at it when the timer says so; a digit stamps the stage and the forecast follows.",
                     "Stir by hand between."}},
    [STEP_FILL_BAGS] = {"fill the bags",
                        {"No bag more than two thirds full; push the air out; film over a tip that waits.",
                         "A short squeeze first, until the colour is through."}},
    [STEP_PIPE] = {"pipe %s", {"Onto squares; each good one counts."}},
    [STEP_POUR] = {"pour %s", {"Low and along the mould; tap it so that the air comes up."}},
    [STEP_CHILL] = {"chill", {"Level, an hour at room temperature and then cold, until the paper peels."}},
    [STEP_RECOUNT] = {"count %s again", {"Lift them off and count what is good: that is what goes onto a loaf."}},
    [STEP_PLACE] = {"place pieces",
                    {"When the top holds a skewer but still bonds; press three to five millimetres in.",
                     "How many, and from which batch."}},
    [STEP_COVER] = {"cover", {"Covered but not touching; away from draught. Cold for piped tops: they lose form in gel."}},
    [STEP_UNMOULD] = {"unmould", {"Gloves on: it still bites. Firm like cheese, and it comes away from the mould."}},
    [STEP_CUT] = {"cut", {"Bars and trims; weigh the lightest bar. How many bars, and what the lightest weighs."}},
    [STEP_CURE] = {"put it to cure", {"On a rack with air around each; mark it with the batch number and the day."}},
    [STEP_PUT_RIGHT] = {"put right: %s", {NULL}},
    [STEP_OTHER] = {"%s", {NULL}},
};

const char *run_stage_name(int stage)
{
    static const char *const names[] = {"unmixed", "emulsion", "thin", "medium", "thick", "piping", "over-stiff", "set up"};

    return stage >= 0 && stage < (int)(sizeof names / sizeof *names) ? names[stage] : "";
}

const char *const *run_instructions(enum step_kind kind)
{
    return kind_texts[kind].lines;
}

static const char *vessel_name(const struct run *run, const struct step *step)
{
    static const char *const names[] = {
        [VESSEL_NONE] = "", [VESSEL_LYE] = "the lye vessel", [VESSEL_JUG] = "the jug",
        [VESSEL_ALKALI_CUP] = "a dry cup", [VESSEL_CUP] = "a cup", [VESSEL_BAG] = "a bag"};

    return step->vessel >= 0 ? run->batch.head.vessel[step->vessel].name : names[step->use];
}

/* "lavender oil for moss", "iron oxide red for pink", "castor oil". */
static void name_of(const struct run *run, struct part_ref what, char *out, size_t size)
{
    const struct plan_input *input = run_input(run);
    const char *name = document_name(input, what);

    out[0] = '\0';
    if (what.part == PART_ALKALI && what.sub == 1)
        text_add(out, size, "%s lye", name);
    else if (what.part == PART_COLOURANT || what.part == PART_CARRIER)
        text_add(out, size, "%s for %s", name,
                 document_name(input, (struct part_ref){PART_PORTION, what.index, 0}));
    else if (what.part == PART_FRAGRANCE && what.sub > 0)
        text_add(out, size, "%s for %s", name,
                 document_name(input, (struct part_ref){PART_PORTION, (int16_t)(what.sub - 1), 0}));
    else if (what.part == PART_BATTER)
        text_add(out, size, "the batter");
    else
        text_add(out, size, "%s", name);
}

/* The kind of piece that a portion is a part of, else the portion. */
static void name_of_pieces(const struct run *run, struct part_ref what, char *out, size_t size)
{
    const struct recipe *recipe = run_input(run)->recipe;

    if (what.index < recipe->portions && recipe->portion[what.index].pieces.kind[0])
        text_copy(out, size, recipe->portion[what.index].pieces.kind);
    else
        name_of(run, what, out, size);
}

void run_title(const struct run *run, const struct step *step, char *out, size_t size)
{
    const char *form = kind_texts[step->kind].title, *hole = strstr(form, "%s");
    char name[LW_NAME_BYTES * 2] = "";

    if (step->text[0])
        text_copy(name, sizeof name, step->text);
    else if (step->kind == STEP_PIPE || step->kind == STEP_RECOUNT)
        name_of_pieces(run, step->what, name, sizeof name);
    else
        name_of(run, step->what, name, sizeof name);
    out[0] = '\0';
    if (hole)
        text_add(out, size, "%.*s%s%s", (int)(hole - form), form, name, hole + 2);
    else
        text_add(out, size, "%s", form);
    if ((step->kind == STEP_WEIGH || step->kind == STEP_PUT_RIGHT) && step->target_ug != 0 && vessel_name(run, step)[0])
        text_add(out, size, step->target_ug < 0 ? " out of %s" : " into %s", vessel_name(run, step));
}

struct mass_text run_mass(const struct run *run, int64_t ug, int64_t division_ug)
{
    struct mass_text out;

    words_of_mass(mass_g(ug), division_ug, run->settings.mass_unit, out.text, sizeof out.text);
    return out;
}
