#ifndef LAY_H
#define LAY_H

#include "room.h"

/*
 * Inside the plan layer only: a day for every call.
 *
 * What somebody booked comes first, then what an earlier plan had, then the
 * rest by deadline; what found no day waits until all others have one, so that
 * it takes none from what can be in time.  Then visits are merged.  Returns 0,
 * or -1 when memory is out.
 */
int lay_out(
    const struct plan_problem *problem, struct timetable *t, struct room *r);

/* Everything where the plan before had it, or as somebody booked it since: 1; 0
 * with nothing changed when not all can be; -1 when memory is out. */
int lay_held(struct timetable *t, struct room *r);

/* Once all have a day, have fewer calls late: 1; 0 with nothing changed when no
 * way was found; -1 when memory is out. */
int lay_better(
    const struct plan_problem *problem, struct timetable *t, struct room *r);

/* Have what is overdue on the first day that is free by now, as others may have
 * left one; what comes after it is planned anew.  1 when something moved, 0, or
 * -1 when memory is out. */
int lay_overdue(
    const struct plan_problem *problem, struct timetable *t, struct room *r);

/* How many calls are late that need not be so: of those that are due today or
 * later, and that nobody booked so. */
size_t lay_late(const struct timetable *t);

#endif
