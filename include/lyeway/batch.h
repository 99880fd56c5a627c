/* batch.h - one making of a recipe: its steps, what happened at each moment, and what follows from that.
 *
 * A record only grows. Whatever happens on the bench is an event; a correction is an event that names the one it
 * takes back. The state of a batch (struct batch) is what its events say when they are read in order, and nothing
 * else, so that a program which was killed goes on where it was. Masses are whole micrograms, moments UTC seconds.
 */
#ifndef LYEWAY_BATCH_H
#define LYEWAY_BATCH_H

#include <stdbool.h>
#include <stdint.h>

#include "lyeway/finding.h"
#include "lyeway/plan.h"
#include "lyeway/recipe.h"

enum {
    BATCH_STEPS = 768, /* more than a recipe with all of its lists full asks for */
    BATCH_TIMERS = 16,
    BATCH_KINDS = RECIPE_PORTIONS, /* of pieces, piped and counted apart */
    BATCH_NUMBER_BYTES = 32,
    EVENT_TEXT_BYTES = 512
};

/* In the order of the trade; the word is what records and the exchange format call it. */
#define STEP_KINDS(X)            \
    X(LAY_OUT, "lay out")        /* vessels, tools, bags, tray */ \
    X(WEIGH, "weigh")            /* `what` into `vessel` */ \
    X(DISPERSE, "disperse")      /* a colourant into its carrier */ \
    X(DISSOLVE, "dissolve")      /* alkali into the water */ \
    X(COOL, "cool")              \
    X(MELT, "melt")              \
    X(KEEP_BACK, "keep back")    /* oil for carriers, taken out of the jug again; `what` the oil */ \
    X(JUG_CHECK, "jug check")    /* what the full jug weighs */ \
    X(COMBINE, "combine")        /* lye meets oil: the clock starts */ \
    X(EMULSIFY, "emulsify")      \
    X(POUR_OUT, "pour out")      /* a portion out of the jug; `what` the portion */ \
    X(STAYS, "stays")            /* the portion that stays in the jug */ \
    X(COLOUR, "colour")          /* `what` the portion */ \
    X(SCENT, "scent")            /* `what` the portion */ \
    X(STAND, "stand")            /* until it is stiff enough, with a repeating check */ \
    X(FILL_BAGS, "fill bags")    \
    X(PIPE, "pipe")              /* `what` the first portion of a kind of piece */ \
    X(POUR, "pour")              /* `what` the portion, into the mould */ \
    X(CHILL, "chill")            \
    X(RECOUNT, "recount")        /* after lifting */ \
    X(PLACE, "place")            /* pieces of another batch onto this one */ \
    X(COVER, "cover")            \
    X(UNMOULD, "unmould")        \
    X(CUT, "cut")                \
    X(CURE, "cure")              \
    X(PUT_RIGHT, "put right")    /* what was chosen to put a slip right; a weighing of `what` unless it has none */ \
    X(OTHER, "other")            /* the maker's own words */

enum step_kind {
#define X(code, name) STEP_##code,
    STEP_KINDS(X)
#undef X
        STEP_KIND_COUNT
};

/* Where something is put: what the scale reads depends on what is in the vessel already. */
enum vessel_use { VESSEL_NONE, VESSEL_LYE, VESSEL_JUG, VESSEL_ALKALI_CUP, VESSEL_CUP, VESSEL_BAG };

/* One step as it was laid out or added. Never changed; where it stands now is in struct batch_step. */
struct step {
    int64_t id; /* unique in the batch, from 1 */
    enum step_kind kind;
    double place; /* steps come in rising order of it */
    struct part_ref what;
    enum vessel_use use;
    int vessel;        /* index in struct batch_head.vessel; -1: none is chosen, the scale is tared with it */
    int64_t target_ug; /* as planned; 0: nothing to weigh. Below 0: taken out */
    char text[LW_NAME_BYTES]; /* STEP_OTHER and STEP_PUT_RIGHT; "" elsewhere */
};

/* code, word, and what number[0], number[1] mean; text where it says so */
#define EVENT_KINDS(X)                                                                                              \
    X(WEIGHED, "weighed")           /* mass_ug of `what` went in (below 0: was taken out); reading_ug on the scale, \
                                       0 if only the mass is known; planned_ug; scale; number[0]: readings it is    \
                                       the difference of, 1 or 2 */                                                 \
    X(LYE_POURED, "lye poured")     /* only part of the mixed lye goes in: mass_ug; number[0]: its share */          \
    X(JUG, "jug")                   /* reading_ug of the full jug, mass_ug without the vessel */                    \
    X(DONE, "done")                 /* the step is done; number: what it asked for, else 0 */                       \
    X(SKIPPED, "skipped")           /* text: reason, may be ""; number[0]: 1 if not by the maker */                                                   \
    X(REOPENED, "reopened")         /* the step is to be done again */                                              \
    X(MOVED, "moved")               /* number[0]: the step's new place */                                           \
    X(COMBINED, "combined")         /* temperatures of lye and oils in C; NAN where not taken */                    \
    X(STAGE, "stage")               /* trace stage 0 to 7; `what` the portion, PART_BATTER for the whole */         \
    X(TIMER, "timer")               /* length in s, repeat every s (0: once); text: its name */                     \
    X(TIMER_OFF, "timer off")       /* `other` the event that started it */                                         \
    X(PIECES, "pieces")             /* so many more good ones, of the kind of portion `what` */                     \
    X(REJECTS, "rejects")           /* so many rejects */                                                           \
    X(SCRAPED, "scraped back")      /* so many rejects back into the bag: no pieces any more */                     \
    X(LEFT, "left in bag")          /* mass_ug; number[0]: 1 weighed, 0 estimated */                                \
    X(RECOUNTED, "recounted")       /* good ones after lifting, rejects beside them; text: their kind */                                 \
    X(PLACED, "placed")             /* so many pieces; text: their batch and kind, "26-001 rosette" */ \
    X(LEFTOVER, "leftover")         /* mass_ug of portion `what`, days it keeps */                                  \
    X(GOING, "going")               /* the batter is setting: shortest way from here */                             \
    X(SPLASH, "splash")             /* alkali on somebody; first aid was shown */                                   \
    X(ACKNOWLEDGED, "acknowledged") /* the safety notes were read */                                                \
    X(REASON, "reason")             /* why a caution did not stop it: text */                                       \
    X(NOTE, "note")                 /* text */                                                                      \
    X(PROBLEM, "problem")           /* text: in the trade's words */                                                \
    X(ANSWER, "answer")             /* number[0]: which of the closing questions; number[1], text: the answer */    \
    X(CUT, "cut")                   /* bars, lightest in g */                                                       \
    X(TAKEN_BACK, "taken back")     /* `other` the event that does not count */                                     \
    X(SET_ASIDE, "set aside")       /* not to be used: text why */                                                  \
    X(FINISHED, "finished")                                                                                         \
    X(CURE_WEIGHED, "cure weighed") /* mass_ug of a marker bar; number[0]: which, from 1 */                         \
    X(TESTED, "tested")             /* number[0]: enum batch_test; number[1]: a pH, else 1 as it should be, 0 not;  \
                                       text: what was seen */                                                       \
    X(OUTCOME, "outcome")           /* number[0]: enum batch_outcome; text: why */                                  \
    X(LEFT_OUT, "left out")         /* teaches nothing: text why */                                                 \
    X(RESIDUE, "residue")           /* mass_ug left in number[1] vessels; number[0]: enum residue_place */          \
    X(DENSITY, "density")           /* mass_ug of number[0] mL of batter */

enum event_kind {
#define X(code, name) EVENT_##code,
    EVENT_KINDS(X)
#undef X
        EVENT_KIND_COUNT
};

/* `what` of weighings, beside the parts of a recipe: fragrance {PART_FRAGRANCE, fragrance, portion + 1}, sub 0 for the whole
 * batter; colourant {PART_COLOURANT, portion, colourant}; carrier the same with PART_CARRIER; a portion out of the jug
 * {PART_PORTION, portion}; alkali with sub 1: lye solution added to put right, sub 2: mixed lye of which only so much is used; {PART_OIL, oil, 1}: oil kept back for
 * carriers, below 0. */
struct batch_event {
    int64_t id;   /* unique in the batch, from 1, rising in time */
    int64_t at_s; /* UTC */
    enum event_kind kind;
    int64_t step; /* id of the step it belongs to; 0: none */
    struct part_ref what;
    int64_t mass_ug, planned_ug, reading_ug;
    int scale; /* index in plan.scale; -1: none */
    double number[2];
    int64_t other; /* id of another event; 0: none */
    bool taken_back; /* a later event takes it back; not a part of the record, work fills it in */
    char text[EVENT_TEXT_BYTES];
};

/* What is fixed when a batch is started. */
struct batch_head {
    int64_t id;
    uint8_t uuid[LW_UUID_BYTES];
    char number[BATCH_NUMBER_BYTES];
    char name[LW_NAME_BYTES]; /* of the recipe then */
    int64_t recipe_id;
    int revision;
    int64_t started_s;
    int32_t offset_s; /* of the maker's local time from UTC then */
    int vessels;
    struct batch_vessel {
        char name[LW_NAME_BYTES];
        int64_t empty_ug;
    } vessel[16];
};

/* Said after the batch is made (ISO 22716 for the outcome). */
enum batch_outcome { OUTCOME_NONE, OUTCOME_RELEASED, OUTCOME_ON_HOLD, OUTCOME_REJECTED };
enum batch_test { TEST_TONGUE, TEST_PH, TEST_LOOK, TESTS };
enum residue_place { RESIDUE_JUG, RESIDUE_BAG, RESIDUE_CUP, RESIDUES };

enum { BATCH_MARKERS = 6, CURE_WEIGHINGS = 96, BATCH_TESTS = 24 };

/* A marker bar on the scale. */
struct cure_weighing {
    int64_t event, at_s;
    int marker; /* from 1 */
    int64_t mass_ug;
};

struct test_result {
    int64_t event, at_s;
    enum batch_test test;
    double value; /* pH; else 1 as it should be, 0 not */
};

/* How far the batter is: what can still be put right depends on it (calculations, section 4). */
enum batch_phase {
    PHASE_APART,     /* nothing dissolved yet */
    PHASE_LYE_MIXED, /* lye is mixed, not combined */
    PHASE_COMBINED,  /* whole, fluid, at most thin trace */
    PHASE_SPLIT      /* split, coloured, scented, thicker, or poured */
};

/* What was really put in, in place of what the plan asks. Only what has been weighed counts; `has` says which. What is known
 * to be forgotten has a charge of 0. */
struct charge {
    bool has;
    int64_t mass_ug;
    int64_t half_ug; /* by which the mass may be off from the reading alone: half a division, a whole one for a
                        difference of two readings, summed over its weighings; 0: half a division */
    int scale;       /* that it was weighed on last; index in plan.scale, -1: the one planned */
};
struct charges {
    struct charge oil[RECIPE_OILS];
    struct charge alkali[ALKALIS]; /* dry alkali, or its ready-made solution where the plan has one */
    struct charge added_lye[ALKALIS]; /* lye solution to put right, as strong as planned (plan.water.strength); its mass */
    struct charge water;
    struct charge liquid[RECIPE_LIQUIDS];
    struct charge additive[RECIPE_ADDITIVES];
    double lye_used; /* share of the mixed lye (charged.h) that goes in: 1 or 0 all of it, less where only part is poured */
};

enum step_state { STEP_TODO, STEP_DONE, STEP_SKIPPED };

struct batch_step {
    struct step step;
    enum step_state state;
    int64_t done_s;
};

struct batch_timer {
    int64_t event; /* that started it */
    int64_t step;
    int64_t start_s, length_s, repeat_s;
    char name[LW_NAME_BYTES];
};

/* Pieces of one kind, all of whose portions are piped together. A reject that was scraped back is batter again: it counts neither as a
 * piece made nor as a reject, on the bench, in the book and in what is learned; only the time that it took was spent. */
struct batch_pieces {
    int portion; /* the first portion of the kind */
    int good, rejects, scraped; /* rejects: all, those scraped back among them */
    int piped; /* good and rejects not scraped back, as counted while piping: no count after lifting changes it */
    bool recounted; /* good and rejects are those after lifting */
    int64_t first_s, last_s; /* first and last piece counted; 0: none */
    bool left_weighed;
    int64_t left_ug; /* in the bags of the part with least batter (calc/piping.h) when last looked at; -1: never */
    int good_then;   /* pieces made (good and rejects not scraped back) when that was */
};

struct batch {
    struct batch_head head;
    int steps; /* in the order to be done */
    struct batch_step step[BATCH_STEPS];
    struct charges charges;
    int64_t kept_ug[RECIPE_OILS]; /* taken out of the jug for carriers */
    struct charge poured[PLAN_PORTIONS]; /* of each portion, from the jug */
    struct charge colourant[RECIPE_PORTIONS][PORTION_COLOURANTS], carrier[RECIPE_PORTIONS][PORTION_COLOURANTS];
    struct charge fragrance[PLAN_PORTIONS + 1][RECIPE_FRAGRANCES]; /* [0]: into the whole batter */
    struct charge jug; /* the full jug as checked */
    enum batch_phase phase;
    int64_t combined_s; /* 0: not yet */
    double lye_temp_c, oil_temp_c;
    int stage; /* last stamped; -1: none */
    int64_t stage_s[8]; /* when each stage was first stamped; 0: not */
    int kinds;
    struct batch_pieces pieces[BATCH_KINDS];
    int timers; /* that are running */
    struct batch_timer timer[BATCH_TIMERS];
    bool going, set_aside;
    int64_t finished_s; /* 0: not yet */
    int bars;
    double lightest_bar_g;
    int64_t cut_s; /* 0: not cut */
    int cure_weighings; /* the first CURE_WEIGHINGS of them, in time */
    struct cure_weighing cure[CURE_WEIGHINGS];
    int tests; /* the last BATCH_TESTS */
    struct test_result test[BATCH_TESTS];
    enum batch_outcome outcome;
    int64_t outcome_event; /* that said it; 0: none */
    int64_t left_out;      /* the event that said so; 0: the batch counts */
    double residue_g[RESIDUES]; /* left in one vessel of it, on average; NAN: not weighed */
    double density_g_ml;        /* of the batter as measured last; 0: not */
    int64_t last_event;
    int64_t acknowledged_s; /* last time the safety notes were read; 0: never */
};

#endif
