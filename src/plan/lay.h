#ifndef LAY_H
#define LAY_H

#include "room.h"

/*
 * Inside the plan layer only: a day for every call.
 *
 * What somebody booked comes first, then what an earlier plan had, then the
 * rest by deadline; what found no day waits until all others have one, so that
 * it takes none from what can be in time.  Then visits are merged, and what is
 * late is looked at once more.  Returns 0, or -1 when memory is out.
 */
int lay_out(
    const struct plan_problem *problem, struct timetable *t, struct room *r);

#endif
