/* words_put_right.c - a sentence for each kind of remedy and of slip. */
#include "work/words_put_right.h"

#include <math.h>

#include "base/mass.h"
#include "base/number.h"
#include "base/text.h"
#include "base/utf8.h"
#include "calc/lye.h"
#include "calc/scales.h"
#include "work/words_speech.h"

/* More oils than this are not listed one by one. */
enum { LISTED_OILS = 4 };

static const double one_point = 0.01;

/* One decimal always: what is compared is seen to be alike. */
static struct piece_of_text tenths_of_percent(double share)
{
    struct piece_of_text piece = {""};
    char number[NUMBER_BYTES];

    number_write(number, 100 * share, 1);
    text_copy(piece.text, sizeof piece.text, number);
    return piece;
}

/* "5.0 % (likely 3.8 to 8.0)" */
static struct piece_of_text superfat(const struct margin *margin)
{
    struct piece_of_text piece = {""};

    text_add(piece.text, sizeof piece.text, "%s %% (likely %s to %s)", tenths_of_percent(margin->nominal).text,
             tenths_of_percent(margin->likely.lo).text, tenths_of_percent(margin->likely.hi).text);
    return piece;
}

/* A mass with as many decimals as the scale that it goes on shows. */
static struct piece_of_text mass(const struct speech *speech, int64_t ug)
{
    const struct plan *plan = speech->plan;
    double grams = fabs(mass_g(ug)), division_g = 0;

    if (plan->scales > 0)
        division_g = mass_g(plan->scale[scales_for(plan, grams, NULL)].division_ug);
    return speech_mass_at(speech, mass_g(ug), division_g);
}

/* What no longer fits once it is done, "" where all does. */
static const char *fits(const struct remedy *remedy)
{
    if (remedy->mould_over && remedy->pieces_short)
        return " The mould does not hold it all, and the pieces asked for may not come out of it.";
    if (remedy->mould_over)
        return " The mould does not hold it all.";
    return remedy->pieces_short ? " The pieces asked for may not come out of it." : "";
}

typedef void teller(const struct speech *speech, const struct remedy *remedy, struct words *out);

static void tell_leave(const struct speech *speech, const struct remedy *remedy, struct words *out)
{
    double asked = speech->input->recipe->superfat, change = remedy->margin.nominal - asked;

    speech_what(out, "Leave it: superfat is now %s.%s", superfat(&remedy->margin).text, fits(remedy));
    if (remedy->strength > lye_soluble(speech->input))
        speech_todo(out,
                    "The lye was %s, more than water dissolves: look for grains of alkali, and test bars before use.",
                    speech_percent(remedy->strength).text);
    else if (change > one_point)
        speech_todo(out, "More oil stays free than was asked: the bars are softer and keep less long.");
    else if (change < -one_point)
        speech_todo(out, "Less oil stays free than was asked: test bars before any is used.");
    else
        speech_todo(out, "That is within a point of what was asked; the lye is %s.",
                    speech_percent(remedy->strength).text);
}

static void tell_take_out(const struct speech *speech, const struct remedy *remedy, struct words *out)
{
    struct piece_of_text name = speech_name(speech, remedy->what);

    speech_what(out, "Take %s of %s out again; superfat is then %s.%s", mass(speech, remedy->mass_ug).text, name.text,
                superfat(&remedy->margin).text, fits(remedy));
    if (remedy->what.part == PART_ALKALI)
        speech_todo(out, "Nothing is dissolved yet: spoon it back with a dry spoon and read the scale again.");
    else
        speech_todo(out, "It is still alone in its vessel: take it out with a clean cup and read the scale again.");
}

static void tell_add(const struct speech *speech, const struct remedy *remedy, struct words *out)
{
    struct piece_of_text name = speech_name(speech, remedy->what), more = mass(speech, remedy->mass_ug);

    if (remedy->what.part == PART_WATER)
        speech_what(out, "Add %s of water before the lye is used; it is then %s, and superfat %s.%s", more.text,
                    speech_percent(remedy->strength).text, superfat(&remedy->margin).text, fits(remedy));
    else
        speech_what(out, "Add %s of %s; superfat is then %s.%s", more.text, name.text, superfat(&remedy->margin).text,
                    fits(remedy));
    if (remedy->what.part == PART_ALKALI)
        speech_todo(out,
                    "Weigh it apart, add it slowly, stir until the lye is clear and let it cool: it gets hot again.");
    else if (remedy->what.part == PART_WATER)
        speech_todo(out, "Pour it in slowly along the wall, since strong lye is hot, and stir until the lye is clear.");
    else
        speech_todo(out, "Weigh it apart, then add it where the rest of it went before anything is combined.");
}

static void tell_pour_share(const struct speech *speech, const struct remedy *remedy, struct words *out)
{
    speech_what(out, "Pour only %s of the mixed lye, %s of it; superfat is then %s.%s",
                mass(speech, remedy->mass_ug).text, speech_percent(remedy->share).text, superfat(&remedy->margin).text,
                fits(remedy));
    speech_todo(out, "Stir until it is clear and weigh it as it goes in; mark what is left as lye and lock it away.");
}

static void tell_add_oils(const struct speech *speech, const struct remedy *remedy, struct words *out)
{
    char list[WORDS_DO_BYTES] = "";
    int oils = 0;

    for (int i = 0; i < speech->input->recipe->oils; i++) {
        if (remedy->oil_ug[i] <= 0)
            continue;
        text_add(list, sizeof list, "%s%s of %s", oils > 0 ? ", " : "", mass(speech, remedy->oil_ug[i]).text,
                 speech_name(speech, (struct part_ref){PART_OIL, (int16_t)i, 0}).text);
        oils++;
    }
    speech_what(out, "Add %s of oils as the recipe has them; superfat is then %s.%s",
                mass(speech, remedy->mass_ug).text, superfat(&remedy->margin).text, fits(remedy));
    if (oils <= LISTED_OILS)
        speech_todo(out, "Melt and blend in: %s.", list);
    else
        speech_todo(out, "Melt them together and blend in; the steps say how much of each of the %d oils.", oils);
}

static void tell_add_oil(const struct speech *speech, const struct remedy *remedy, struct words *out)
{
    speech_what(out, "Add %s of %s; superfat is then %s.%s", mass(speech, remedy->mass_ug).text,
                speech_name(speech, remedy->what).text, superfat(&remedy->margin).text, fits(remedy));
    speech_todo(out, "Melt it if it is solid, and blend until no streak is left.");
}

static void tell_add_lye(const struct speech *speech, const struct remedy *remedy, struct words *out)
{
    double strength = (double)remedy->alkali_ug / (double)remedy->mass_ug;

    speech_what(out, "Add %s of lye of %s, with %s of %s in it; superfat is then %s.%s",
                mass(speech, remedy->mass_ug).text, speech_percent(strength).text, mass(speech, remedy->alkali_ug).text,
                speech_name(speech, remedy->what).text, superfat(&remedy->margin).text, fits(remedy));
    speech_todo(out,
                "Make up more than that in this strength, let it cool, weigh the part that is wanted out of it, and "
                "blend again at once; never add dry alkali.");
}

static void tell_set_aside(const struct speech *speech, const struct remedy *remedy, struct words *out)
{
    bool soft = remedy->margin.nominal > speech->input->recipe->superfat;

    speech_what(out, "Set it aside and do not use it: superfat is %s.", superfat(&remedy->margin).text);
    if (soft)
        speech_todo(out, "It is softer than your bound and cannot take more lye now; rebatch it as a new batch.");
    else
        speech_todo(
            out, "Nothing can be blended in evenly now: gloves on, mark it as caustic, keep it away from people, and "
                 "rebatch it with more oils as a new batch.");
}

void words_of_remedy(const struct put_right_input *input, const struct remedy *remedy, enum mass_unit unit,
                     struct words *out)
{
    static teller *const tell[] = {
        [REMEDY_LEAVE] = tell_leave,           [REMEDY_TAKE_OUT] = tell_take_out,   [REMEDY_ADD] = tell_add,
        [REMEDY_POUR_SHARE] = tell_pour_share, [REMEDY_ADD_OILS] = tell_add_oils,   [REMEDY_ADD_OIL] = tell_add_oil,
        [REMEDY_ADD_LYE] = tell_add_lye,       [REMEDY_SET_ASIDE] = tell_set_aside,
    };
    struct speech speech = {.input = input->in, .plan = input->plan, .unit = unit};

    out->what[0] = out->todo[0] = '\0';
    tell[remedy->kind](&speech, remedy, out);
}

const char *words_of_remedy_safety(const struct remedy *remedy)
{
    bool weighed = remedy->kind == REMEDY_TAKE_OUT || remedy->kind == REMEDY_ADD;

    if (remedy->kind == REMEDY_ADD_LYE || remedy->kind == REMEDY_POUR_SHARE ||
        (weighed && (remedy->what.part == PART_ALKALI || remedy->what.part == PART_WATER)))
        return "Goggles and gloves on, good air, children and animals out; alkali into water, never the other way; "
               "nothing of aluminium. Lye on somebody: rinse with plenty of running water and get medical help, no "
               "vinegar.";
    return "";
}

/* A name from outside, cut like the others; `otherwise` where there is none. */
static struct piece_of_text name_or(const char *name, const char *otherwise)
{
    struct piece_of_text piece = {""};

    if (name && name[0])
        utf8_clean(piece.text, SPEECH_NAME_BYTES, name, SPEECH_NAME_COLUMNS);
    else
        text_copy(piece.text, sizeof piece.text, otherwise);
    return piece;
}

/* "Olive oil", or where several fit the difference a phrase for them. */
static struct piece_of_text suspect(const struct speech *speech, struct part_ref what)
{
    struct piece_of_text piece = {"one of the ingredients of about that mass"};

    return what.part == PART_BATTER ? piece : speech_name(speech, what);
}

/* By how much the jug is off. */
static struct piece_of_text off_by(const struct speech *speech, const struct slip_told *told)
{
    int64_t off_ug = told->read_ug - told->target_ug;

    return mass(speech, off_ug < 0 ? -off_ug : off_ug);
}

typedef void slip_teller(const struct speech *speech, const struct slip_told *told, struct words *out);

static void tell_not_tared(const struct speech *speech, const struct slip_told *told, struct words *out)
{
    struct piece_of_text vessel = name_or(told->vessel, "the vessel");
    struct piece_of_text content = {"what is in it"};

    if (told->what.part != PART_BATTER)
        content = speech_name(speech, told->what);
    speech_what(out, "The reading is %s and %s together: %s of it is %s; it was not tared.", vessel.text, content.text,
                mass(speech, told->vessel_ug).text, vessel.text);
}

static void tell_ounces(const struct speech *speech, const struct slip_told *told, struct words *out)
{
    bool fewer = told->read_ug < told->target_ug;
    struct speech ounces = *speech;
    double asked_g = mass_g(fewer ? told->target_ug : told->read_ug);

    ounces.unit = MASS_OZ;
    if (fewer)
        speech_what(out, "%s was asked, which is %s: the figure read is most likely ounces.",
                    mass(speech, told->target_ug).text, speech_mass(&ounces, asked_g).text);
    else
        speech_what(out, "%s is %s: as many ounces were most likely weighed as grams were asked.",
                    mass(speech, told->read_ug).text, speech_mass(&ounces, asked_g).text);
}

static void tell_other_batch(const struct speech *speech, const struct slip_told *told, struct words *out)
{
    speech_what(out, "%s is what %s asks for: most likely that one was weighed.", mass(speech, told->read_ug).text,
                name_or(told->batch, "another batch on the bench").text);
}

static void tell_twice(const struct speech *speech, const struct slip_told *told, struct words *out)
{
    speech_what(out, "The reading is twice what was asked: %s most likely went in twice.",
                speech_name(speech, told->what).text);
}

static void tell_forgotten(const struct speech *speech, const struct slip_told *told, struct words *out)
{
    speech_what(out, "The jug is %s short: %s is most likely not in it.", off_by(speech, told).text,
                suspect(speech, told->slip.what).text);
}

static void tell_extra(const struct speech *speech, const struct slip_told *told, struct words *out)
{
    speech_what(out, "The jug is %s too heavy: %s is most likely in it twice.", off_by(speech, told).text,
                suspect(speech, told->slip.what).text);
}

static void tell_plain_water(const struct speech *speech, const struct slip_told *told, struct words *out)
{
    speech_what(out,
                "The jug is %s short, the mass of the alkali: plain water most likely went in where lye should be.",
                off_by(speech, told).text);
}

static void tell_wrong_alkali(const struct speech *speech, const struct slip_told *told, struct words *out)
{
    struct part_ref other = {PART_ALKALI, told->what.index == ALKALI_KOH ? ALKALI_NAOH : ALKALI_KOH, 0};

    speech_what(out, "%s is what it would be of %s in place of %s: read the label of the tub before it goes in.",
                mass(speech, told->read_ug).text, speech_name(speech, other).text,
                speech_name(speech, told->what).text);
}

void words_of_slip(const struct plan_input *input, const struct plan *plan, const struct slip_told *told,
                   enum mass_unit unit, char *out, size_t size)
{
    static slip_teller *const tell[] = {
        [SLIP_NONE] = NULL,
        [SLIP_NOT_TARED] = tell_not_tared,
        [SLIP_OUNCES] = tell_ounces,
        [SLIP_OTHER_BATCH] = tell_other_batch,
        [SLIP_TWICE] = tell_twice,
        [SLIP_FORGOTTEN] = tell_forgotten,
        [SLIP_EXTRA] = tell_extra,
        [SLIP_PLAIN_WATER] = tell_plain_water,
        [SLIP_WRONG_ALKALI] = tell_wrong_alkali,
    };
    struct speech speech = {.input = input, .plan = plan, .unit = unit};
    struct words words = {.what = ""};

    if (tell[told->slip.kind])
        tell[told->slip.kind](&speech, told, &words);
    text_copy(out, size, words.what);
}
