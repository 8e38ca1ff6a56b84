#include "isoweek.h"

#include "step.h"

/* The week belongs to the year of its Thursday.  Arithmetic is done beside
 * day_t's range on purpose: the week of 1 January 1900 starts inside it, but
 * the last week of 2199 ends outside. */
struct isoweek
isoweek_of(day_t d)
{
    day_t thursday = d - day_weekday(d) + 3;

    if (thursday > DAY_LAST)
        return (struct isoweek){2200, 1};
    int year = day_ymd(thursday).year;
    return (struct isoweek){year, (thursday - day_of(year, 1, 1)) / 7 + 1};
}

day_t
isoweek_last(day_t d)
{
    return d == DAY_NONE ? DAY_NONE : step_days(d, 6 - day_weekday(d));
}

day_t
isoweek_end(day_t d)
{
    day_t last = isoweek_last(d);

    return d == DAY_NONE || last != DAY_NONE ? last : DAY_LAST;
}

day_t
isoweek_first(day_t d)
{
    return d == DAY_NONE ? DAY_NONE : step_days(d, -day_weekday(d));
}

int
isoweek_count(int year)
{
    day_t late = day_of(year, 12, 28); /* always in the last week */

    return late == DAY_NONE ? 0 : isoweek_of(late).week;
}

day_t
isoweek_monday(int year, int week)
{
    if (week < 1 || week > isoweek_count(year))
        return DAY_NONE;
    day_t first = isoweek_first(day_of(year, 1, 4));
    return step_days(first, 7 * ((int64_t)week - 1));
}
