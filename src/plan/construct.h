#ifndef CONSTRUCT_H
#define CONSTRUCT_H

#include "reassign.h"

/*
 * Inside the plan layer only: a day for every call.
 *
 * What somebody booked comes first, then what an earlier plan had, then the
 * rest by deadline; what found no day waits until all others have one, so that
 * it takes none from what can be in time.  Then visits are merged.  Returns 0,
 * or -1 when memory is out.
 */
int construct_anew(
    const struct plan_problem *problem, struct schedule *t, struct reassign *r);

/* Everything where the plan before had it, or as somebody booked it since: 1; 0
 * with nothing changed when not all can be; -1 when memory is out. */
int construct_held(struct schedule *t, struct reassign *r);

/* Once all have a day, have fewer calls late: 1; 0 with nothing changed when no
 * way was found; -1 when memory is out. */
int construct_better(
    const struct plan_problem *problem, struct schedule *t, struct reassign *r);

/* Have what is overdue on the first day that is free by now, as others may have
 * left one; what comes after it is planned anew.  1 when something moved, 0, or
 * -1 when memory is out. */
int construct_overdue(
    const struct plan_problem *problem, struct schedule *t, struct reassign *r);

/* How many calls are late that need not be so: of those that are due today or
 * later, and that nobody booked so. */
size_t construct_late(const struct schedule *t);

#endif
