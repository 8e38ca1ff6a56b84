#include "holiday.h"

#include "easter.h"
#include "step.h"

#include <string.h>

/* The days of one year while they are being found. */
struct year {
    struct named_day *days;
    size_t n;
};

static int
has(const struct year *y, day_t d)
{
    for (size_t i = 0; i < y->n; i++)
        if (y->days[i].day == d)
            return 1;
    return 0;
}

/* Keep the list in order; the first name for a day stays. */
static void
insert(struct year *y, day_t d, const char *name)
{
    size_t at = y->n;

    if (d == DAY_NONE || has(y, d) || y->n == HOLIDAY_MOST)
        return;
    while (at > 0 && y->days[at - 1].day > d)
        at--;
    memmove(&y->days[at + 1], &y->days[at], (y->n - at) * sizeof *y->days);
    y->days[at] = (struct named_day){d, name};
    y->n++;
}

static void
erase(struct year *y, day_t d)
{
    for (size_t i = 0; i < y->n; i++) {
        if (y->days[i].day != d)
            continue;
        y->n--;
        memmove(&y->days[i], &y->days[i + 1], (y->n - i) * sizeof *y->days);
        return;
    }
}

/* A fifth one that a month has not is no day that year. */
static day_t
nth_weekday(const struct holiday_rule *r, int year)
{
    day_t first = day_of(year, r->month, 1);
    int length = day_month_length(year, r->month);

    if (first == DAY_NONE)
        return DAY_NONE;
    int to_weekday = (r->weekday - day_weekday(first) + 7) % 7;
    int nth = r->nth;

    if (nth < 0)
        nth = (length - 1 - to_weekday) / 7 + 1;
    int offset = to_weekday + 7 * (nth - 1);
    return offset < length ? first + offset : DAY_NONE;
}

static day_t
rule_day(const struct holiday_rule *r, int year)
{
    switch (r->kind) {
    case HOLIDAY_FIXED:
        return day_of(year, r->month, r->day);
    case HOLIDAY_WEEKDAY:
        return nth_weekday(r, year);
    case HOLIDAY_EASTER:
        return step_days(easter_of(year), r->offset);
    }
    return DAY_NONE;
}

static int
moves(const struct holiday_rule *r, day_t d)
{
    return d != DAY_NONE && r->substitute && day_weekday(d) >= 5;
}

static void
add_unmoved(struct year *y, const struct holiday_set *set, int year)
{
    for (size_t i = 0; i < set->n_rules; i++) {
        day_t d = rule_day(&set->rules[i], year);
        if (!moves(&set->rules[i], d))
            insert(y, d, set->rules[i].name);
    }
}

/* A year with the ones beside it, for a substitute can lie in the next. */
enum { BEFORE, THIS, AFTER, YEARS };

static int
is_taken(const struct year years[YEARS], day_t d)
{
    return has(&years[BEFORE], d) || has(&years[THIS], d) ||
           has(&years[AFTER], d);
}

/*
 * Substitutes come last, in the order of the rules: they go where the other
 * holidays leave room.
 */
static void
add_substitutes(struct year years[YEARS], int which,
    const struct holiday_set *set, int year)
{
    for (size_t i = 0; i < set->n_rules; i++) {
        day_t d = rule_day(&set->rules[i], year);
        if (!moves(&set->rules[i], d))
            continue;
        while (d != DAY_NONE && (day_weekday(d) >= 5 || is_taken(years, d)))
            d = step_days(d, 1);
        insert(&years[which], d, set->rules[i].name);
    }
}

/* A substitute may lie in the year after, or come from the year before, so all
 * three are worked out. */
size_t
holiday_year(
    const struct holiday_set *set, int year, struct named_day out[HOLIDAY_MOST])
{
    struct named_day before[HOLIDAY_MOST];
    struct named_day after[HOLIDAY_MOST];
    struct year years[YEARS] = {{before, 0}, {out, 0}, {after, 0}};
    struct year *y = &years[THIS];

    for (int i = BEFORE; i < YEARS; i++)
        add_unmoved(&years[i], set, year - THIS + i);
    for (int i = BEFORE; i <= THIS; i++)
        add_substitutes(years, i, set, year - THIS + i);
    for (size_t i = 0; i < set->n_removed; i++)
        erase(y, set->removed[i]);
    for (size_t i = 0; i < set->n_added; i++)
        if (day_ymd(set->added[i].day).year == year)
            insert(y, set->added[i].day, set->added[i].name);
    return y->n;
}
