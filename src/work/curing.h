/* curing.h - how far the bars of a batch have dried: marker bars, curve, day, mass for the label. */
#ifndef WORK_CURING_H
#define WORK_CURING_H

#include "calc/cure.h"
#include "work/lessons.h"
#include "work/run.h"

struct curing {
    int64_t cut_s; /* 0: not cut */
    double day;    /* since the cut */
    int markers;   /* marker bars that were weighed */
    int points;
    struct cure_point point[CURE_WEIGHINGS]; /* share of its marker's first mass, all markers together */
    int marker_of[CURE_WEIGHINGS];
    struct cure_fit fit; /* of the weighings; else what other batches or practice expect */
    int from_batches;    /* -1: its own weighings; 0: common practice; else the batches that it is expected by */
    double least_days, threshold;
    double cured_day;       /* since the cut; NAN: not known */
    bool cured;             /* by the curve; tests are said apart */
    double loss_a_day;      /* share, now */
    double label_g;         /* 0: not known */
    bool may_label;         /* released */
    char why_no_curve[120]; /* "Too few weighings for a curve: 2 of 4 days"; "" */
};

void curing_of(const struct run *run, const struct lessons *lessons, const struct lw_now *now, struct curing *curing);

/* What speaks against such a weighing of a marker bar, as a sentence: drying bars do not gain, nor lose more than all their water. False
 * where nothing does. */
bool curing_doubt(const struct run *run, int marker, int64_t ug, char *sentence, size_t size);

/* What the batch wants next, and when; common practice: marker bars on the scale at the cut, then after days and weeks until it is
 * cured, a test once the least days have passed, then its outcome; one on hold is looked at again after a week. */
enum cure_want curing_want(const struct run *run, const struct curing *curing, int64_t *when_s);

/* A batch that wants something. */
struct cure_due {
    int64_t batch_id;
    char number[BATCH_NUMBER_BYTES], name[LW_NAME_BYTES];
    enum cure_want want;
    int64_t due_s;
    char text[120]; /* "weigh the marker bars, 3 days late" */
};

/* Those due now or within a week, the soonest first, as the book has them. What nobody has done for three months is not asked for any
 * more. */
enum lw_status curing_due(struct workshop *workshop, const struct lw_now *now, struct cure_due due[], int most, int *n,
                          struct lw_error *error);

#endif
