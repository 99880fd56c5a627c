/* band.h - an interval drawn on an axis: a likely range inside a worst one, a point in it, and a mark that must not be passed. */
#ifndef KIT_BAND_H
#define KIT_BAND_H

#include "ui/kit/surface.h"

struct band {
    double from, to;             /* of the axis */
    double mark;                 /* drawn as '|' with mark_name */
    double worst_lo, worst_hi;   /* '.' */
    double likely_lo, likely_hi; /* '[====]' */
    double point;                /* 'o' */
    const char *mark_name;       /* "0" */
    const char *left, *right;    /* words at the ends */
};

/* One row over the whole width. What lies beyond the axis is drawn at its end as '<' or '>'. */
void band_paint(const struct canvas *canvas, int row, const struct band *band, uint16_t style);

#endif
