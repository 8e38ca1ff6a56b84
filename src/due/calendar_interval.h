#ifndef CALENDAR_INTERVAL_H
#define CALENDAR_INTERVAL_H

#include "calc_context.h"

/* The day on which a length of time from the anchor ends. */
day_t calendar_interval_end(
    day_t anchor, struct span length, enum ends ends, enum month_end rule);

/*
 * The first deadline by the rule's `first`, before any work was done, or
 * DAY_NONE when the day it counts from is not known.  Says why.
 */
day_t calendar_interval_first(const struct calc_context *r);

/* The day from which the first deadline is counted; DAY_NONE when it is stated
 * or not known. */
day_t calendar_interval_first_from(const struct task *t);

/* The day of @origin for the task's subject, or DAY_NONE. */
day_t calendar_interval_origin(const struct task *t, enum origin origin);

#endif
