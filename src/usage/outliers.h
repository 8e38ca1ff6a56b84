#ifndef OUTLIERS_H
#define OUTLIERS_H

#include "usage.h"

/* So many days with a reading count at most, the newest: daily ones of almost
 * three years. */
#define OUTLIERS_MOST 1024

/* The readings that can be right together, in order of day. */
struct screened {
    size_t n;
    size_t left_out; /* of those looked at */
    struct reading at[OUTLIERS_MOST];
};

/*
 * Of the readings that count when @asked is asked for, see usage_since(), and
 * of several of one day the last; of these keep the longest chain in
 * which none is below the one before and none has risen since faster than ten
 * times the usual rate.  Both hold between any two when they hold between
 * neighbours, so it is a longest chain of points in the plane, in n log n:
 * Fredman, "On computing the length of longest increasing subsequences",
 * Discrete Mathematics 11 (1975) 29-35.  Of several that are as long, the one
 * that ends highest for its day: it errs early.
 */
void outliers_screen(struct screened *s, const struct usage *u, day_t asked);

/* What the meter showed on @d by straight line between the readings kept on
 * either side, or by the nearest one beyond them.  One there must be. */
double screened_at(const struct screened *s, day_t d);

#endif
