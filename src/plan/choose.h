#ifndef CHOOSE_H
#define CHOOSE_H

#include "schedule.h"

/*
 * Inside the plan layer only: the best day for one item while all others stay
 * where they are.  Nothing is changed.
 */

/*
 * The day for item @i by its deadline: the booked one; else where an earlier
 * plan had it; else the last on which its unit is there anyway; else, in the
 * last week that has a free day, the least busy.  DAY_NONE when none is free.
 */
day_t choose_day(const struct schedule *t, long i);

/* The last day in the window of item @i, but for @but, on which its unit is
 * at its place anyway and which is free; or DAY_NONE. */
day_t choose_together(const struct schedule *t, long i, day_t but);

/* Where an earlier plan had item @i, if that still is a day for it; or, to be
 * late, one after the deadline; or DAY_NONE. */
day_t choose_kept(const struct schedule *t, long i);
day_t choose_kept_late(const struct schedule *t, long i);

/* The last free day before the window of item @i on which it still would
 * count, or DAY_NONE. */
day_t choose_sooner(const struct schedule *t, long i);

/* The first free day after the deadline, or DAY_NONE. */
day_t choose_late(const struct schedule *t, long i);

/* The first day of the window that can still be planned. */
day_t choose_from(const struct schedule *t, const struct item *item);

#endif
