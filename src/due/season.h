#ifndef SEASON_H
#define SEASON_H

#include "reckon.h"

/*
 * Deadlines that the calendar names, whenever the job is done: what kinds with
 * a date_from have in common.
 */

/* The first of them on or after the first day of the rule. */
void season_first(
    const struct reckoning *r, const struct interval *every, struct limit *l);

/* The next after a completion: a rhythm, see rhythm.h. */
void season_next(const struct reckoning *r, const struct interval *every,
    size_t i, struct limit *l);

#endif
