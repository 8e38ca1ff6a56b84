#include "recur.h"

int
recur_add(struct recur_places *p, int n, int most)
{
    int place = n < 0 ? -n : n;

    if (place < 1 || place > most || place > RECUR_PLACES)
        return -1;
    uint64_t *row = n < 0 ? p->back : p->front;
    row[place / 64] |= (uint64_t)1 << (place % 64);
    p->any = 1;
    return 0;
}

/* Nonzero when the place is one of them, in a row of @count. */
static int
has(const struct recur_places *p, int place, int count)
{
    int back = count - place + 1;

    return (p->front[place / 64] >> (place % 64) & 1) ||
           (p->back[back / 64] >> (back % 64) & 1);
}

static int
agrees(const struct recur_places *p, int place, int count)
{
    return !p->any || has(p, place, count);
}

/* The first day of @d's week; this can lie just outside the range of days. */
static int32_t
week_of(const struct recur *r, int32_t d)
{
    int weekday = (int)((d - DAY_FIRST + 7) % 7);

    return d - (weekday - r->week_start + 7) % 7;
}

/* A week belongs to the year that has most of it.  Of the weeks that lie partly
 * outside the range of days, none belongs to a year. */
static int
week_year(const struct recur *r, day_t d)
{
    int32_t middle = week_of(r, d) + 3;

    return day_valid(middle) ? day_ymd(middle).year : 0;
}

static int
week_agrees(const struct recur *r, day_t d)
{
    int year = week_year(r, d);

    if (!r->weeks.any || year == 0)
        return !r->weeks.any;
    int32_t first = week_of(r, day_of(year, 1, 4));
    int32_t next = week_of(r, day_of(year, 12, 31) + 4);
    return has(&r->weeks, (week_of(r, d) - first) / 7 + 1, (next - first) / 7);
}

static int
month_day_agrees(const struct recur *r, int day, int length)
{
    if (agrees(&r->month_days, day, length))
        return 1;
    for (int lacking = length + 1; lacking <= 31; lacking++)
        if (r->skips_back && day == length &&
            has(&r->month_days, lacking, RECUR_PLACES))
            return 1;
    return 0;
}

/* Which of its weekdays in the month or the year, counted from either end. */
static int
weekday_agrees(const struct recur *r, day_t d, int day, int length)
{
    int weekday = day_weekday(d);
    int nth = (day - 1) / 7 + 1;

    if (!r->by_weekday || r->all_weekdays >> weekday & 1)
        return 1;
    return has(&r->weekdays[weekday], nth, nth + (length - day) / 7);
}

/* Nonzero when all parts but the positions agree on @d. */
static int
day_agrees(const struct recur *r, day_t d)
{
    struct ymd t = day_ymd(d);
    int length = day_month_length(t.year, t.month);
    day_t new_year = day_of(t.year, 1, 1);
    int year_day = d - new_year + 1;
    int year_length = day_of(t.year, 12, 31) - new_year + 1;
    int in_month = r->weekdays_of_month;

    return agrees(&r->months, t.month, 12) && week_agrees(r, d) &&
           agrees(&r->year_days, year_day, year_length) &&
           month_day_agrees(r, t.day, length) &&
           weekday_agrees(r, d, in_month ? t.day : year_day,
               in_month ? length : year_length);
}

/* The number of @d's period; those of a year of weeks are numbered as its year
 * is. */
static int32_t
period_of(const struct recur *r, day_t d)
{
    struct ymd t = day_ymd(d);

    switch (r->freq) {
    case RECUR_DAILY:
        return d;
    case RECUR_WEEKLY:
        return (week_of(r, d) - DAY_FIRST + 7) / 7;
    case RECUR_MONTHLY:
        return t.year * 12 + t.month;
    case RECUR_YEARLY:
        return r->weeks.any ? week_year(r, d) : t.year;
    }
    return 0;
}

/* Nonzero when @d has one of the positions among the days of its period. */
static int
position_agrees(const struct recur *r, day_t d)
{
    int32_t period = period_of(r, d);
    int place = 1;
    int after = 0;

    if (!r->positions.any)
        return 1;
    for (day_t k = d - 1; day_valid(k) && period_of(r, k) == period; k--)
        place += day_agrees(r, k);
    for (day_t k = d + 1; day_valid(k) && period_of(r, k) == period; k++)
        after += day_agrees(r, k);
    return has(&r->positions, place, place + after);
}

day_t
recur_from(const struct recur *r, day_t d)
{
    int32_t begin = period_of(r, r->first);

    if (d == DAY_NONE)
        return DAY_NONE;
    for (d = day_later(d, r->first); d <= r->until; d++)
        if ((period_of(r, d) - begin) % r->interval == 0 && day_agrees(r, d) &&
            position_agrees(r, d))
            return d;
    return DAY_NONE;
}
