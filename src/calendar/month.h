#ifndef MONTH_H
#define MONTH_H

#include <stdint.h>

/*
 * Inside the calendar layer only: months counted from January 1900, which is
 * 0, and the first day of each, as day.h counts days.  All of the civil
 * calendar is read from this one table.
 */
#define MONTH_EPOCH (-25567) /* 1900-01-01, the first day of month 0 */
#define MONTH_COUNT 3600

/* One more than there are months, so that each has a next. */
extern const int32_t month_first[MONTH_COUNT + 1];

/* The month that holds @d, which must be valid. */
static inline int
month_of(int32_t d)
{
    /* 34451 / 2^20 is 12 months in 365.2425 days.  Four days ahead, the
     * estimate is right or one too high for every month of the table. */
    uint32_t estimate = (uint32_t)(d - MONTH_EPOCH + 4) * 34451u >> 20;

    return (int)estimate - (d < month_first[estimate]);
}

/* How many days the month at @m has. */
static inline int
month_length(int m)
{
    return month_first[m + 1] - month_first[m];
}

#endif
