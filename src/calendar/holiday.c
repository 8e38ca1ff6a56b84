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

static day_t
nth_weekday(const struct holiday_rule *r, int year)
{
    day_t first = day_of(year, r->month, 1);
    int length = day_month_length(year, r->month);
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

/*
 * Substitutes come last, in the order of the rules: they go where the other
 * holidays leave room.
 */
static void
add_substitutes(struct year *y, const struct holiday_set *set, int year)
{
    for (size_t i = 0; i < set->n_rules; i++) {
        day_t d = rule_day(&set->rules[i], year);
        if (!moves(&set->rules[i], d))
            continue;
        while (d != DAY_NONE && (day_weekday(d) >= 5 || has(y, d)))
            d = step_days(d, 1);
        insert(y, d, set->rules[i].name);
    }
}

size_t
holiday_year(
    const struct holiday_set *set, int year, struct named_day out[HOLIDAY_MOST])
{
    struct year y = {out, 0};

    for (size_t i = 0; i < set->n_rules; i++) {
        day_t d = rule_day(&set->rules[i], year);
        if (!moves(&set->rules[i], d))
            insert(&y, d, set->rules[i].name);
    }
    add_substitutes(&y, set, year);
    for (size_t i = 0; i < set->n_removed; i++)
        erase(&y, set->removed[i]);
    for (size_t i = 0; i < set->n_added; i++)
        if (day_ymd(set->added[i].day).year == year)
            insert(&y, set->added[i].day, set->added[i].name);
    return y.n;
}
