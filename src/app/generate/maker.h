/* maker.h - runs while building: an invented maker who works through a batch of the demo as a hand would, with a clock that is moved and
 * chances that are the same each time. Everything goes by the calls that the bench makes, so that what comes out is a record as any. */
#ifndef GENERATE_MAKER_H
#define GENERATE_MAKER_H

#include "work/run.h"

struct maker {
    struct workshop *workshop; /* whose clock is `now` */
    struct lw_now now;
    uint64_t seed;
    uint64_t chance;     /* state of the generator, from the seed anew for each batch */
    int64_t end_s;       /* nothing is said after that */
    double skill;        /* 0 a beginner, 1 of long practice: fewer rejects */
    double own_pace;     /* times of this bench's batter, of those that a plan says */
    double jug_g, bag_g; /* that really stay in the jug and in an emptied bag of the batch at hand */
};

enum story {
    STORY_PLAIN,
    STORY_EARLY,
    STORY_WARM,
    STORY_COOL,
    STORY_SLIP,
    STORY_OUT,
    STORY_SEIZED,
    STORY_ASIDE,
    STORY_HOLD,
    STORY_REJECTED,
    STORY_BROWN,
    STORY_COMPLAINT,
    STORY_OVER, /* of today only: the last portion is poured over, so that the first runs short */
    STORIES
};

/* Ends the tool with the sentence unless the status is LW_OK. */
void must(enum lw_status status, const struct lw_error *error);

/* From 0 up to 1; around 0 with a standard deviation of 1. */
double maker_chance(struct maker *maker);
double maker_normal(struct maker *maker);

/* Makes a batch from maker->now on, and what is said of it up to maker->end_s. `note` may be "". */
void maker_make(struct maker *maker, const char *recipe, enum story story, const char *note);

/* Starts a batch and works up to the first step of that kind that is about that part; the run is to be saved and freed. */
struct run *maker_begin(struct maker *maker, const char *recipe, enum story story, enum step_kind kind, enum part part);

#endif
