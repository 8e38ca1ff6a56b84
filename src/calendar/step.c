#include "step.h"

#include "month.h"

day_t
step_days(day_t d, int64_t n)
{
    if (d == DAY_NONE || n < DAY_FIRST - (int64_t)d ||
        n > DAY_LAST - (int64_t)d)
        return DAY_NONE;
    return (day_t)(d + n);
}

/* Counted from the table, so a step of a hundred years takes as long as one of
 * a month. */
day_t
step_months(day_t d, int64_t n, enum month_end rule)
{
    if (d == DAY_NONE)
        return DAY_NONE;
    int from = month_of(d);
    if (n < -from || n >= MONTH_COUNT - from)
        return DAY_NONE;
    int to = from + (int)n;
    int before = d - month_first[from]; /* days of the month before @d */
    int last = month_length(to) - 1;
    int sticks = rule == MONTH_END_STICKY && before == month_length(from) - 1;

    return month_first[to] + (before > last || sticks ? last : before);
}

day_t
step_span(day_t d, struct span length, int64_t times, enum month_end rule)
{
    int64_t n = length.n * times;

    switch (length.unit) {
    case STEP_DAYS:
        return step_days(d, n);
    case STEP_WEEKS:
        return step_days(d, n * 7);
    case STEP_MONTHS:
        return step_months(d, n, rule);
    case STEP_YEARS:
        return step_months(d, n * 12, rule);
    }
    return DAY_NONE;
}

day_t
step_period_last(day_t d, struct span length)
{
    day_t same = step_span(d, length, 1, MONTH_END_CLAMP);

    if (same == DAY_NONE)
        return DAY_NONE;
    /* A clamped date already is the day before the first of the next month. */
    if (length.unit >= STEP_MONTHS && day_ymd(same).day != day_ymd(d).day)
        return same;
    return step_days(same, -1);
}

day_t
step_month_last(day_t d)
{
    if (d == DAY_NONE)
        return DAY_NONE;
    return month_first[month_of(d) + 1] - 1;
}
