#ifndef ISOWEEK_H
#define ISOWEEK_H

#include "day.h"

/* A week of ISO 8601: Monday to Sunday; week 1 holds the first Thursday. */
struct isoweek {
    int year;
    int week; /* 1 to 53 */
};

/* The week that holds @d, which must be valid. */
struct isoweek isoweek_of(day_t d);

/* The Sunday of @d's week. */
day_t isoweek_last(day_t d);

/* The last day of @d's week that there is: the Sunday, or DAY_LAST. */
day_t isoweek_end(day_t d);

/* The Monday of @d's week. */
day_t isoweek_first(day_t d);

/* The Monday of that week, or DAY_NONE when the year has no such week. */
day_t isoweek_monday(int year, int week);

/* How many weeks the year has, 52 or 53. */
int isoweek_count(int year);

#endif
