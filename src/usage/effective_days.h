#ifndef EFFECTIVE_DAYS_H
#define EFFECTIVE_DAYS_H

#include "seasonality.h"

/* Time as use goes: a day off the road does not count, and any other by its
 * share of a year's use, 1 on average. */
struct effective_days {
    const struct usage *usage;
    const struct seasonality *seasonality;
    day_t known; /* a spell without an end counts up to here: dates err early */
};

/* Effective days up to the end of @d; it never falls. */
double effective_days_at(const struct effective_days *w, day_t d);

/* The last day, @from or later, that ends before so many more effective days
 * are over, or with them; DAY_NONE when that is past the range of days. */
day_t effective_days_end(
    const struct effective_days *w, day_t from, double days);

#endif
