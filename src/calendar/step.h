#ifndef STEP_H
#define STEP_H

#include "day.h"

/*
 * Steps of whole days, weeks and months from an anchor day.  Step from the
 * anchor each time and never from the last result, or the day of the month
 * drifts: the third month after 31 January is 30 April, not 28 April.
 */

enum step_unit { STEP_DAYS, STEP_WEEKS, STEP_MONTHS, STEP_YEARS };

/* So many of a unit: a length of time on the calendar. */
struct span {
    int32_t n;
    enum step_unit unit;
};

/* What happens at the end of a month that lacks the corresponding day, or
 * when the anchor is the last day of its month. */
enum month_end {
    MONTH_END_CLAMP, /* the last day when there is no such day (Dodds v Walker
                        [1981] 1 WLR 1027; Reg. (EEC) 1182/71 art. 3(2)) */
    MONTH_END_STICKY /* the last day also when the anchor was a last day (FpML
                        roll convention EOM) */
};

/* @d and @n days. */
day_t step_days(day_t d, int64_t n);

/* The corresponding date @n months on, or back when negative. */
day_t step_months(day_t d, int64_t n, enum month_end rule);

/* @d and @times times @length. */
day_t step_span(
    day_t d, struct span length, int64_t times, enum month_end rule);

/*
 * The last day of the period that begins with @d and is @length long: the
 * day before the corresponding date, where a date that does not exist counts
 * as the first of the next month.  Passed 29 Feb 2024, runs out 28 Feb 2025.
 */
day_t step_period_last(day_t d, struct span length);

/* The last day of @d's month. */
day_t step_month_last(day_t d);

#endif
