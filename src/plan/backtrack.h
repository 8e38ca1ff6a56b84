#ifndef BACKTRACK_H
#define BACKTRACK_H

#include "schedule.h"

/*
 * Inside the plan layer only: a day for a call that found none by making room,
 * by working out a few works from the beginning while the others stay.
 *
 * The works are those nearest to the call, ever more of them (large
 * neighbourhood search: Shaw, Using constraint programming and local search
 * methods to solve vehicle routing problems, 1998); within them every
 * combination of days is tried, the call with the fewest days first (Haralick
 * and Elliott, Increasing tree search efficiency for constraint satisfaction
 * problems, 1980), until a bound.
 */

/*
 * Have item @i, which is late or has no day yet, in time, with no other late
 * that was not.  No more than @looks single days are looked at; it becomes what
 * is left of them.
 * Returns 1; 0 with nothing changed when no way was found; -1 when memory is
 * out.
 */
int backtrack_item(
    const struct plan_problem *p, struct schedule *t, long i, long *looks);

#endif
