#ifndef RHYTHM_H
#define RHYTHM_H

#include "reckon.h"

/*
 * A series of deadlines that runs on by itself, whenever the job is done.  The
 * series answers with its next deadline and moves on to it; DAY_NONE at the
 * end.
 */
typedef void rhythm_step(
    const struct reckoning *r, const struct interval *every, struct limit *l);

/*
 * Count the completion on @day against the series.  It satisfies the pending
 * deadline, or, when it came late, the last one that has passed.  One that
 * comes before the deadline last satisfied has itself passed is an extra and
 * changes nothing.
 */
void rhythm_complete(const struct reckoning *r, const struct interval *every,
    day_t day, rhythm_step *step, struct limit *l);

#endif
