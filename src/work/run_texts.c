/* run_texts.c - what a step is called. */
#include <string.h>

#include "base/mass.h"
#include "base/text.h"
#include "work/run_inside.h"
#include "work/step_fact.h"
#include "work/words.h"

const char *run_stage_name(int stage)
{
    static const char *const names[] = {"unmixed", "emulsion", "thin",       "medium",
                                        "thick",   "piping",   "over-stiff", "set up"};

    return stage >= 0 && stage < (int)(sizeof names / sizeof *names) ? names[stage] : "";
}

static const char *vessel_name(const struct run *run, const struct step *step)
{
    static const char *const names[] = {[VESSEL_NONE] = "",       [VESSEL_LYE] = "the lye vessel",
                                        [VESSEL_JUG] = "the jug", [VESSEL_ALKALI_CUP] = "a dry cup",
                                        [VESSEL_CUP] = "a cup",   [VESSEL_BAG] = "a bag"};

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
        text_add(out, size, "%s for %s", name, document_name(input, (struct part_ref){PART_PORTION, what.index, 0}));
    else if (what.part == PART_FRAGRANCE && what.sub > 0)
        text_add(out, size, "%s for %s", name,
                 document_name(input, (struct part_ref){PART_PORTION, (int16_t)(what.sub - 1), 0}));
    else if (what.part == PART_BATTER)
        text_add(out, size, "the batter");
    else
        text_add(out, size, "%s", name);
}

void run_kind_name(const struct run *run, int portion, char *out, size_t size)
{
    const struct recipe *recipe = run_input(run)->recipe;

    if (portion < recipe->portions && recipe->portion[portion].pieces.kind[0])
        text_copy(out, size, recipe->portion[portion].pieces.kind);
    else
        name_of(run, (struct part_ref){PART_PORTION, (int16_t)portion, 0}, out, size);
}

void run_title(const struct run *run, const struct step *step, char *out, size_t size)
{
    const char *form = step_fact(step->kind)->title, *hole = strstr(form, "%s");
    char name[LW_NAME_BYTES * 2] = "";

    if (step->text[0])
        text_copy(name, sizeof name, step->text);
    else if (step->kind == STEP_PIPE || step->kind == STEP_RECOUNT)
        run_kind_name(run, step->what.index, name, sizeof name);
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
    struct mass_text out = {""};

    words_of_mass(mass_g(ug), division_ug, run->settings.mass_unit, out.text, sizeof out.text);
    return out;
}
