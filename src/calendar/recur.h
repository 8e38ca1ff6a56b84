#ifndef RECUR_H
#define RECUR_H

#include "day.h"

/*
 * A recurrence rule of RFC 5545, section 3.3.10, for whole days: a day belongs
 * to it when its period does and every part agrees.  Where a part can be read
 * in two ways, the readings are these: the year of a rule with week numbers is
 * that of its weeks, and a position is counted in the whole period, also when
 * the rule begins within it.
 */

enum recur_freq { RECUR_DAILY, RECUR_WEEKLY, RECUR_MONTHLY, RECUR_YEARLY };

#define RECUR_PLACES 366

/* Some of the places 1, 2, 3 ... of a row, and -1, -2, -3 ... from its end. */
struct recur_places {
    uint64_t front[RECUR_PLACES / 64 + 1];
    uint64_t back[RECUR_PLACES / 64 + 1];
    int any; /* nonzero when there is one */
};

struct recur {
    enum recur_freq freq;
    int interval;   /* 1 for every period */
    int week_start; /* 0 Monday to 6 Sunday */
    day_t first;    /* which lies in the first period */
    day_t until;    /* the last day there can be */
    int skips_back; /* a day that a month lacks is its last (RFC 7529) */
    struct recur_places months;
    struct recur_places weeks;
    struct recur_places year_days;
    struct recur_places month_days;
    struct recur_places weekdays[7]; /* of the month, or of the year */
    unsigned all_weekdays; /* bits: those that count wherever they are */
    int by_weekday;        /* nonzero when one of these two is set */
    int weekdays_of_month; /* where those are counted in a year */
    struct recur_places positions; /* among the days of a period */
};

/* Add the place @n, from -@most to @most and not 0: 0, or -1 when it is none.
 */
int recur_add(struct recur_places *p, int n, int most);

/* The first day of @r on or after @d, or DAY_NONE when there is none. */
day_t recur_from(const struct recur *r, day_t d);

#endif
