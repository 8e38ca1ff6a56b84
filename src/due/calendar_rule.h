#ifndef CALENDAR_RULE_H
#define CALENDAR_RULE_H

#include "calc_context.h"

/*
 * Deadlines that the calendar names, whenever the job is done: what kinds with
 * a date_from have in common.
 */

/* The first of them on or after the first day of the rule. */
void calendar_rule_first(const struct calc_context *r,
    const struct interval *every, struct limit *l);

/* The last of them before @deadline; where the deadline is none of them, or the
 * first, as long before it as the two nearest are apart. */
day_t calendar_rule_before(
    const struct calc_context *r, const struct interval *every, day_t deadline);

/* The next after a completion: a rhythm, see fixed_series.h. */
void calendar_rule_next(const struct calc_context *r,
    const struct interval *every, size_t i, struct limit *l);

#endif
