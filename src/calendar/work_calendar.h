#ifndef WORK_CALENDAR_H
#define WORK_CALENDAR_H

#include "day.h"
#include "holiday.h"

/*
 * A working-day calendar: which days of the whole range are open, and why a
 * closed one is closed.  Made once, then only read; every question is answered
 * in constant time but for work_calendar_why().
 */
struct work_calendar;

/* Which days of the week are open: bit 0 Monday to bit 6 Sunday. */
typedef unsigned weekdays_t;
#define WEEKDAYS_ALL 0x7fu

/* What a calendar is made from.  The lists are read, not kept; the names in
 * them must outlive the calendar. */
struct work_calendar_plan {
    weekdays_t works;
    const struct holiday_set *const *holidays;
    size_t n_holidays;
    const struct named_day *closed; /* closures, on top of the holidays */
    size_t n_closed;
    const day_t *open; /* extra openings; they win over all the rest */
    size_t n_open;
};

/* Make a calendar, or NULL when memory is out.  Free with work_calendar_free().
 */
struct work_calendar *work_calendar_new(const struct work_calendar_plan *plan);

/*
 * A calendar that is open when both @a and @b are; NULL when memory is out.
 * The two are not kept, their names are.
 */
struct work_calendar *work_calendar_both(
    const struct work_calendar *a, const struct work_calendar *b);

/* Free @c; NULL is ignored. */
void work_calendar_free(struct work_calendar *c);

/* Nonzero when @d, which must be valid, is a working day. */
int work_calendar_is_open(const struct work_calendar *c, day_t d);

/* The last working day on or before @d, or DAY_NONE. */
day_t work_calendar_preceding(const struct work_calendar *c, day_t d);

/* The first working day on or after @d, or DAY_NONE. */
day_t work_calendar_following(const struct work_calendar *c, day_t d);

/*
 * NEAREST of FpML's BusinessDayConventionEnum: a day that is not a working
 * day moves to the following one when it is a Sunday or a Monday, otherwise
 * to the preceding one.
 */
day_t work_calendar_nearest(const struct work_calendar *c, day_t d);

/*
 * The working day @n working days after @d, or before when @n is negative.
 * @d itself is not counted and need not be a working day; @n = 0 is @d.
 */
day_t work_calendar_add(const struct work_calendar *c, day_t d, int n);

/* How many working days lie after @from, up to and including @to; 0 when @to
 * is not later. */
int work_calendar_between(const struct work_calendar *c, day_t from, day_t to);

/*
 * Why @d is closed: the name of the holiday or closure, or NULL when it is
 * open or only the weekly pattern closes it.
 */
const char *work_calendar_why(const struct work_calendar *c, day_t d);

/* The last day the holiday sets speak for, or DAY_NONE: they never end. */
day_t work_calendar_known_until(const struct work_calendar *c);

#endif
