/* run.h - a batch on the bench: its record, the step at hand, and what follows from what was weighed.
 *
 * Everything a maker does becomes an event at the moment it happens. It shows at once and waits until run_save writes it,
 * which the loop calls after the paint; a save that fails leaves it waiting and says so. Nothing in a run lives outside of its
 * record: opened again, it stands at the same step.
 *
 * Two things no call lets by: combining while an alkali weighing was not typed, and combining while the superfat as weighed
 * is below 0.
 */
#ifndef WORK_RUN_H
#define WORK_RUN_H

#include "calc/piping.h"
#include "calc/put_right.h"
#include "lyeway/batch.h"
#include "lyeway/document.h"
#include "store/batches.h"
#include "work/plan_file.h"
#include "work/workshop.h"

struct run;

/* How a batch is to be made: chosen before it starts. */
struct run_choice {
    int64_t recipe_id;
    int revision;          /* that it is made of; 0: the recipe as it is now */
    struct plan_size size; /* plan_file.h: as the recipe, or so many grams of oils or batter */
    enum lye_order order;  /* settings.h */
    char number[BATCH_NUMBER_BYTES];
    int lye_vessel, jug;           /* index of settings.vessel; -1: none is chosen, it is tared */
    char reason[EVENT_TEXT_BYTES]; /* why a caution about lye does not stop it; "" none */
};

/* The choice to begin with: the recipe's own size, the settings' order, the next number by the settings' pattern, no vessels. */
enum lw_status run_choose(struct workshop *workshop, int64_t recipe_id, struct run_choice *choice,
                          struct lw_error *error);

/* What the batch would be at that choice; to be freed by version_free. *stopped: it cannot be started (error has why);
 * *reason_wanted: a caution about lye asks for a typed reason. */
struct version;
enum lw_status run_preview(struct workshop *workshop, const struct run_choice *choice, struct version **version,
                           bool *stopped, bool *reason_wanted, struct lw_error *error);

/* The revision that the batch is made of: its number, and whether it is kept already; else it is kept at the start, under that number. */
enum lw_status run_revision(struct workshop *workshop, const struct run_choice *choice, int *number, bool *kept,
                            struct lw_error *error);

/* Keeps the recipe's draft as a revision where it is not one yet, freezes plan, facts and settings, lays the steps out. LW_INVALID
 * where a stop or a missing reason stands against it, LW_CONFLICT where the number is taken. */
enum lw_status run_start(struct workshop *workshop, const struct run_choice *choice, int64_t *batch_id,
                         struct lw_error *error);

enum lw_status run_open(struct workshop *workshop, int64_t batch_id, struct run **run, struct lw_error *error);
void run_free(struct run *run);

const struct batch *run_batch(const struct run *run);
const struct plan_document *run_planned(const struct run *run);
const struct plan *run_charged(const struct run *run);      /* the plan with what was weighed in it */
const char *run_margin_word(const struct run *run);         /* of that: LYE-HEAVY, TIGHT, WIDE */
const struct settings *run_settings(const struct run *run); /* units and bounds as frozen */

/* ---- the step at hand */

enum ask_kind {
    ASK_ENTER,        /* Enter when it is done */
    ASK_READING,      /* what the scale reads */
    ASK_TEMPERATURES, /* two, both may be left out */
    ASK_STAGE,        /* a digit 0 to 7, and Enter when it is to go on */
    ASK_PIECES,       /* counts one by one; Enter when it is done */
    ASK_TWO_COUNTS,   /* recount: good ones, rejects; cut: bars, lightest in g */
    ASK_COUNT         /* pieces placed, of those on the shelf; Enter when all are */
};

enum { ASK_LINES = 14 };

struct ask {
    enum ask_kind kind;
    int step;           /* index in run_batch()->step */
    bool typed;         /* Enter alone does not take it: alkali */
    bool safety;        /* a lye step: show the safety notes (base/safety.h) in full */
    int64_t target_ug;  /* what is still to go in: runs on what was weighed */
    int64_t reading_ug; /* what the scale should then show, vessel and content included where they stand on it */
    int64_t before_ug;  /* what it shows before */
    int64_t division_ug, tolerance_ug;
    int scale;         /* index in plan.scale */
    char title[160];   /* "coconut oil into jug B" */
    char large[32];    /* what is drawn large: "913", "31"; "" nothing */
    char unit[8];      /* beside it */
    char explain[200]; /* "jug B 212, olive as weighed 451, and now 250" */
    int lines;
    char line[ASK_LINES][160]; /* what to do, one thing a line */
    struct words shift;        /* a colour that changes: what it looks like now and later; "" none */
};

/* Index of the first step that is to be done; -1: none is left. */
int run_at(const struct run *run);
void run_ask(const struct run *run, int step, const struct lw_now *now, struct ask *ask);

/* The name of the timer for rinsing lye off, which comes before all others. */
#define RUN_RINSE "rinse"

/* ---- weighing. The reading is what the scale shows; a number typed without the vessel is one where `before` was tared away. */

struct judgement {
    bool fine;                   /* within tolerance */
    int64_t mass_ug;             /* what went in by this reading */
    struct slip slip;            /* what it most likely is */
    char what[WORDS_WHAT_BYTES]; /* what happened and where the margin would be, a sentence or two; "" where fine */
};

/* Looks at a reading without recording it. LW_INVALID where it cannot be: beyond the scale, less than the empty vessel. */
enum lw_status run_judge(const struct run *run, int64_t reading_ug, struct judgement *judgement,
                         struct lw_error *error);

/* Records the reading of the step at hand, right or wrong, and goes on. echo: "139.81: NaOH into the cup". */
enum lw_status run_weigh(struct run *run, const struct lw_now *now, int64_t reading_ug, char *echo, size_t size,
                         struct lw_error *error);

/* What can be done about the weighing of that part, best first, each with its words; 0: nothing has to be. `words` may be NULL. */
int run_remedies(const struct run *run, struct part_ref what, struct remedy remedies[REMEDIES],
                 struct words words[REMEDIES]);

/* Takes it: steps are added before the step at hand, or the batch is left or set aside; the record says which. */
enum lw_status run_put_right(struct run *run, const struct lw_now *now, const struct remedy *remedy, const char *words,
                             struct lw_error *error);

/* States what is really in of a part, found out later (0: it was forgotten): in place of its weighings so far. */
enum lw_status run_correct(struct run *run, const struct lw_now *now, struct part_ref what, int64_t mass_ug,
                           struct lw_error *error);

/* ---- the other things a maker does. Each refuses with a sentence what cannot be now. */

/* The step at hand is done. LW_INVALID for a weighing, and for combining where the alkali was not typed or superfat as weighed is below 0:
 * the sentence says what to do. */
enum lw_status run_done(struct run *run, const struct lw_now *now, struct lw_error *error);
enum lw_status run_combine(struct run *run, const struct lw_now *now, double lye_c, double oil_c,
                           struct lw_error *error); /* NAN: not taken */
enum lw_status run_skip(struct run *run, const struct lw_now *now,
                        struct lw_error *error); /* never alkali, combining */
/* Takes back what was said last of the step before, which is then to be done again. */
enum lw_status run_back(struct run *run, const struct lw_now *now, char *echo, size_t size, struct lw_error *error);
/* The step at hand after the one that follows it. */
enum lw_status run_later(struct run *run, const struct lw_now *now, struct lw_error *error);
/* A step in the maker's own words, before the step at hand. */
enum lw_status run_add_step(struct run *run, const struct lw_now *now, const char *text, struct lw_error *error);
/* "unmixed", "emulsion" ... "set up" for 0 to 7. */
const char *run_stage_name(int stage);
enum lw_status run_stage(struct run *run, const struct lw_now *now, int stage, struct lw_error *error);
enum lw_status run_note(struct run *run, const struct lw_now *now, const char *text, struct lw_error *error);
enum lw_status run_problem(struct run *run, const struct lw_now *now, const char *text, struct lw_error *error);
/* The safety notes were not acknowledged yet on this day of the maker, in no batch. */
bool run_acknowledge_due(const struct run *run, const struct lw_now *now);
enum lw_status run_acknowledge(struct run *run, const struct lw_now *now, struct lw_error *error);
enum lw_status run_splash(struct run *run, const struct lw_now *now,
                          struct lw_error *error); /* with a timer of 20 minutes */
enum lw_status run_going(struct run *run, const struct lw_now *now,
                         struct lw_error *error); /* keeps the shortest way */
enum lw_status run_timer(struct run *run, const struct lw_now *now, const char *name, int64_t length_s,
                         int64_t repeat_s, struct lw_error *error);
enum lw_status run_timer_off(struct run *run, const struct lw_now *now, int64_t event, struct lw_error *error);
/* The timer that is offered for a step: its name, length and repeat; false where it has none. */
bool run_timer_offered(const struct run *run, int step, char name[LW_NAME_BYTES], int64_t *length_s, int64_t *repeat_s);

/* Counting pieces at an ASK_PIECES step. what: EVENT_PIECES, EVENT_REJECTS or EVENT_SCRAPED; how_many may be -1 to take one back. */
enum lw_status run_count(struct run *run, const struct lw_now *now, enum event_kind what, int how_many,
                         struct lw_error *error);
enum lw_status run_left(struct run *run, const struct lw_now *now, int64_t mass_ug, bool weighed,
                        struct lw_error *error);
/* Kind index in run_batch()->pieces of the step at hand; -1: it pipes nothing. */
int run_kind(const struct run *run);
void run_piping(const struct run *run, const struct lw_now *now, struct piping *piping);
/* How the mass a piece of that kind comes about; false where it cannot be told. */
bool run_own_mass(const struct run *run, int kind, struct piping_terms *terms);
/* What can be done where too few will come out of the kind at hand. */
void run_piping_help(const struct run *run, const struct lw_now *now, struct piping_help *help);

/* ASK_TWO_COUNTS: records and goes on. */
enum lw_status run_recount(struct run *run, const struct lw_now *now, int good, int rejects, struct lw_error *error);
enum lw_status run_cut(struct run *run, const struct lw_now *now, int bars, double lightest_g, struct lw_error *error);
/* More may follow until the step is done. LW_INVALID where fewer are on the shelf. */
enum lw_status run_place(struct run *run, const struct lw_now *now, int pieces, const struct pieces_line *from,
                         struct lw_error *error);
enum lw_status run_leftover(struct run *run, const struct lw_now *now, int portion, int64_t mass_ug, int days,
                            struct lw_error *error);

/* ---- the end: five questions, each with its answers by number; answered with one key. */
struct question {
    const char *text;
    const char *answers[6]; /* NULL-ended; key 1 is the first */
};
enum { QUESTIONS = 5 };
const struct question *run_questions(void);
int run_answered(const struct run *run); /* how many have an answer, in their order */
enum lw_status run_answer(struct run *run, const struct lw_now *now, int question, int answer, struct lw_error *error);
enum lw_status run_finish(struct run *run, const struct lw_now *now, struct lw_error *error);
enum lw_status run_set_aside(struct run *run, const struct lw_now *now, const char *why, struct lw_error *error);

/* ---- after it is made: these may be said of a batch that is finished, and of one that is not yet. */

/* A marker bar, from 1 to BATCH_MARKERS, on the scale. LW_INVALID before the cut, for a mass more than the batter, and for a bar that was
 * not weighed within a day of the first one: the curve is of bars that began together. Whether a mass can be: curing_doubt. */
enum lw_status run_cure_may(const struct run *run, const struct lw_now *now, int marker, int64_t mass_ug,
                            struct lw_error *error);
enum lw_status run_cure_weigh(struct run *run, const struct lw_now *now, int marker, int64_t mass_ug,
                              struct lw_error *error);
/* value: a pH from 0 to 14 for TEST_PH, else 1 as it should be, 0 not. text: what was seen, may be "". */
enum lw_status run_tested(struct run *run, const struct lw_now *now, enum batch_test test, double value,
                          const char *text, struct lw_error *error);
/* Released, on hold or rejected; a reason is wanted for the last two, and for a release that an own test or the least days of the cure
 * (run_release_doubt) speak against. */
enum lw_status run_outcome(struct run *run, const struct lw_now *now, enum batch_outcome outcome, const char *why,
                           struct lw_error *error);
/* All that speaks against releasing it now, a sentence each; false where nothing does. */
enum { RUN_DOUBT_BYTES = 400 };
bool run_release_doubt(const struct run *run, const struct lw_now *now, char *sentence, size_t size);
/* From here on it teaches nothing, or teaches again. A reason is wanted for the first. */
enum lw_status run_leave_out(struct run *run, const struct lw_now *now, const char *why, struct lw_error *error);
enum lw_status run_count_again(struct run *run, const struct lw_now *now, struct lw_error *error);
/* The last thing said since it was finished that was not taken back; NULL: there is none. To be taken back by run_unsay. */
const struct batch_event *run_last_said(const struct run *run);
enum lw_status run_unsay(struct run *run, const struct lw_now *now, struct lw_error *error);
/* What was left in so many jugs, bags or cups together. */
enum lw_status run_residue(struct run *run, const struct lw_now *now, enum residue_place place, int64_t mass_ug,
                           int vessels, struct lw_error *error);
/* So many mL of batter weigh that much. */
enum lw_status run_density(struct run *run, const struct lw_now *now, int64_t mass_ug, double ml,
                           struct lw_error *error);

/* Events of the record in their order, those taken back among them. */
int run_events(const struct run *run);
const struct batch_event *run_event_at(const struct run *run, int index);
/* What an event says, in words: "coconut oil 251 g (250 g)", "medium trace". */
void run_event_words(const struct run *run, const struct batch_event *event, char *out, size_t size);

/* What the batch can be said to be up to, for the head of the screen: "step 9 of 31". */
void run_progress(const struct run *run, int *done, int *all);

bool run_unsaved(const struct run *run);
enum lw_status run_save(struct run *run, struct lw_error *error);
/* Reads what another window added to the record; true if there was anything. */
bool run_refresh(struct run *run, struct lw_error *error);

#endif
