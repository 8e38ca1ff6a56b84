#ifndef EARLY_H
#define EARLY_H

#include "earliest_limit.h"

/*
 * Inside the due layer only: the first day on which doing @r's task satisfies
 * @d, which its intervals came to in @all, and wastes none of its interval.  As
 * its rule states; else the window's first day for a date that is kept, the
 * day from which work counts for a rhythm, and otherwise a sixth of the
 * interval before the deadline, at least 3 days and at most 4 weeks.
 * DAY_NONE without a deadline.
 */
day_t early_from(const struct calc_context *r, const struct decision *all,
    const struct due *d);

/* The first day on which doing it counts for @d at all, though that may waste
 * some of its interval: never after early_from(), and DAY_NONE with it. */
day_t early_counts(const struct calc_context *r, const struct decision *all,
    const struct due *d);

#endif
