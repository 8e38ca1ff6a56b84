#ifndef WEAR_H
#define WEAR_H

#include "seasonality.h"

/* Time as use goes: a day off the road does not count, and any other by its
 * share of a year's use, 1 on average. */
struct wear {
    const struct usage *usage;
    const struct seasonality *seasonality;
    day_t known; /* a spell without an end counts up to here: dates err early */
};

/* The wear up to the end of @d; it never falls. */
double wear_at(const struct wear *w, day_t d);

/* The last day, @from or later, that ends before so many more days of wear are
 * over, or with them; DAY_NONE when that is past the range of days. */
day_t wear_day(const struct wear *w, day_t from, double days);

#endif
