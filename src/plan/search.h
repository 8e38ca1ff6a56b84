#ifndef SEARCH_H
#define SEARCH_H

#include "timetable.h"

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
 * A timetable in which item @i of @t is in time and no other is late that was
 * not, in @found; NULL there when none was found.  Returns 0, or -1 when
 * memory is out.
 */
int search_days(const struct plan_problem *p, const struct timetable *t, long i,
    struct timetable **found);

#endif
