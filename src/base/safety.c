/* safety.c - the wording of the safety notes, in one place. */
#include "base/safety.h"

#include <stddef.h>

const char *const *safety_notes(void)
{
    static const char *const lines[] = {
        "Sodium and potassium hydroxide burn skin and can blind. Lye and fresh batter stay corrosive until the alkali "
        "is used up.",
        "Wear splash goggles (glasses are not enough), alkali-proof gloves, long sleeves, an apron and closed shoes.",
        "Work with a window open or outdoors and do not lean over the vessel: what rises from it is caustic mist.",
        "Alkali into water, slowly and stirring, never water onto alkali: it can boil up and throw hot lye. Begin with "
        "cool water.",
        "Heat-safe plastic (PP 5, HDPE 2) or stainless steel only, no more than half full, marked LYE - CORROSIVE. No "
        "glass; no aluminium, zinc, tin, brass or copper: they are eaten away and give off hydrogen, which burns.",
        "Children and animals out, nobody eats or drinks, a running tap within reach. Start a blender under the "
        "surface, stop it before lifting.",
        "Acids go into the water before the alkali. Sugar, honey, milk and beer heat lye up: cold or frozen, and "
        "slowly.",
        "Powders: keep the dust down, wear a mask while weighing. Undiluted fragrance off the skin; it sensitises some "
        "people.",
        NULL,
    };

    return lines;
}

const char *const *safety_first_aid(void)
{
    static const char *const lines[] = {
        "ON SKIN: brush dry alkali off, clothing and jewellery off, plenty of cool running water for at least 20 "
        "minutes. Medical help for more than a trivial splash.",
        "IN AN EYE: running water at once, lids open, lenses out, 15 to 30 minutes and on the way to emergency care, "
        "always, even without pain.",
        "SWALLOWED: rinse the mouth, nothing to make one vomit, call for emergency help. BREATHED IN: fresh air; help "
        "if cough or tightness stays.",
        "No vinegar or other acid on skin or in an eye: it puts rinsing off and adds heat.",
        "Emergency number ______________   poison centre ______________",
        NULL,
    };

    return lines;
}

const char *const *safety_limits(void)
{
    static const char *const lines[] = {
        "Weigh and check twice: a vessel not tared, ounces for grams or one hydroxide for the other are the usual "
        "slips. What turns out lye-heavy or weeps liquid is not used.",
        "Published ranges do not replace the supplier's certificate, neither for saponification values nor for "
        "fragrance. Local cosmetics law, the fragrance supplier's certificate and licensed advice go before this "
        "sheet, which says what was computed and from what, not that a soap may be used or sold.",
        NULL,
    };

    return lines;
}
