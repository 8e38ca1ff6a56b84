#ifndef HOLIDAY_H
#define HOLIDAY_H

#include "day.h"

/* How a yearly holiday finds its day. */
enum holiday_kind {
    HOLIDAY_FIXED,   /* a day and a month */
    HOLIDAY_WEEKDAY, /* the nth, or the last, such weekday of a month */
    HOLIDAY_EASTER   /* so many days after Easter Sunday, or before */
};

struct holiday_rule {
    enum holiday_kind kind;
    int month;        /* fixed and weekday */
    int day;          /* fixed: day of the month, a 29 Feb only in leap years */
    int nth;          /* weekday: 1 to 5, or -1 for the last */
    int weekday;      /* weekday: 0 Monday to 6 Sunday */
    int offset;       /* Easter */
    int substitute;   /* a Saturday or Sunday moves to the next weekday that is
                         neither a holiday itself nor another substitute */
    const char *name; /* not owned */
};

/* A day with a name, which is not owned. */
struct named_day {
    day_t day;
    const char *name;
};

/*
 * The holidays of one authority: rules that hold every year, days added and
 * days taken out.
 */
struct holiday_set {
    const struct holiday_rule *rules;
    size_t n_rules;
    const struct named_day *added;
    size_t n_added;
    const day_t *removed;
    size_t n_removed;
    day_t known_until; /* the last day the set speaks for, or DAY_NONE when it
                          holds for ever */
};

/* The most holidays one year of a set may have. */
#define HOLIDAY_MOST 64

/*
 * The holidays of @set that @year brings, in order, one entry a day; a
 * substitute for the end of December can lie in the next year.  Returns how
 * many were put into @out; a set with more than HOLIDAY_MOST a year is cut
 * there, which the reader of the fleet file refuses beforehand.
 */
size_t holiday_year(const struct holiday_set *set, int year,
    struct named_day out[HOLIDAY_MOST]);

#endif
