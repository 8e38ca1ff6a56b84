#ifndef FIXED_SERIES_H
#define FIXED_SERIES_H

#include "calc_context.h"

/*
 * A series of deadlines that runs on by itself, whenever the job is done.  The
 * series answers with its next deadline and moves on to it; DAY_NONE at the
 * end.
 */
typedef void fixed_series_step(const struct calc_context *r,
    const struct interval *every, struct limit *l);

/*
 * Count the completion on @day against the series, which must have a pending
 * deadline.  It satisfies that one, or, when it came late, the last one that
 * has passed, and also the next when @day lies in the rule's window before it.
 * One that comes before the window opens, or without a window in the first
 * half of the time since the deadline before, is an extra and changes nothing.
 * Returns where the series stood before its last step, which is for whoever
 * wants to explain that step.
 */
struct limit fixed_series_complete(const struct calc_context *r,
    const struct interval *every, day_t day, fixed_series_step *step,
    struct limit *l);

/* The first day on which work counts for the pending deadline: when the rule's
 * window before it opens, or without one half way from the deadline before;
 * DAY_NONE for any. */
day_t fixed_series_counts_from(
    const struct calc_context *r, const struct limit *l);

/*
 * Begin the series with the completion on @day and the first deadline after
 * it: the pending one is that, or the next when @day lies in its window.
 */
void fixed_series_begin(const struct calc_context *r,
    const struct interval *every, day_t day, day_t first,
    fixed_series_step *step, struct limit *l);

#endif
