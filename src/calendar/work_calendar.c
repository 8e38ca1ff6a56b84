#include "work_calendar.h"

#include "step.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#define DAYS (DAY_LAST - DAY_FIRST + 1)
#define WORDS (DAYS / 64 + 1)

/*
 * One bit a day, for each word of 64 days how many working days come before
 * it, and all working days in order: counting is a popcount, the nth one is
 * looked up.
 */
struct work_calendar {
    uint64_t open[WORDS];
    int32_t before[WORDS + 1];
    day_t *nth;               /* before[WORDS] of them */
    struct named_day *closed; /* in order, one entry a day */
    size_t n_closed;
    size_t size_closed;
    day_t known_until;
};

static void
set_open(struct work_calendar *c, day_t d, int is_open)
{
    uint64_t bit = (uint64_t)1 << ((d - DAY_FIRST) & 63);
    uint64_t *word = &c->open[(d - DAY_FIRST) >> 6];

    *word = is_open ? *word | bit : *word & ~bit;
}

static int
keep_name(struct work_calendar *c, struct named_day day)
{
    if (c->n_closed == c->size_closed) {
        size_t size = c->size_closed ? c->size_closed * 2 : 64;
        void *list = realloc(c->closed, size * sizeof *c->closed);
        if (list == NULL)
            return -1;
        c->closed = list;
        c->size_closed = size;
    }
    c->closed[c->n_closed++] = day;
    return 0;
}

static int
close_day(struct work_calendar *c, struct named_day day)
{
    set_open(c, day.day, 0);
    return keep_name(c, day);
}

static int
close_holidays(struct work_calendar *c, const struct holiday_set *set)
{
    struct named_day days[HOLIDAY_MOST];

    for (int year = 1900; year <= 2199; year++) {
        size_t n = holiday_year(set, year, days);
        for (size_t i = 0; i < n; i++)
            if (close_day(c, days[i]))
                return -1;
    }
    c->known_until = day_earlier(c->known_until, set->known_until);
    return 0;
}

static int
by_day(const void *left, const void *right)
{
    day_t a = ((const struct named_day *)left)->day;
    day_t b = ((const struct named_day *)right)->day;

    return (a > b) - (a < b);
}

static int
by_day_and_name(const void *left, const void *right)
{
    const struct named_day *a = left;
    const struct named_day *b = right;

    return a->day == b->day ? strcmp(a->name, b->name) : by_day(a, b);
}

/* Put the names in order and keep one a day. */
static void
order_names(struct work_calendar *c)
{
    size_t kept = 0;

    if (c->n_closed > 1)
        qsort(c->closed, c->n_closed, sizeof *c->closed, by_day_and_name);
    for (size_t i = 0; i < c->n_closed; i++)
        if (kept == 0 || c->closed[i].day != c->closed[kept - 1].day)
            c->closed[kept++] = c->closed[i];
    c->n_closed = kept;
}

/* Count and list the working days: the last step of making one.  Returns -1
 * when memory is out. */
static int
seal(struct work_calendar *c)
{
    size_t n = 0;

    order_names(c);
    for (size_t i = 0; i < WORDS; i++)
        c->before[i + 1] =
            c->before[i] + (int32_t)__builtin_popcountll(c->open[i]);
    c->nth = malloc(((size_t)c->before[WORDS] + 1) * sizeof *c->nth);
    if (c->nth == NULL)
        return -1;
    for (day_t d = DAY_FIRST; d <= DAY_LAST; d++)
        if (work_calendar_is_open(c, d))
            c->nth[n++] = d;
    return 0;
}

/* All days there are, a bit each: what is asked for most is a look at one word.
 * What is stated to be open comes last and wins over any holiday. */
struct work_calendar *
work_calendar_new(const struct work_calendar_plan *plan)
{
    struct work_calendar *c = calloc(1, sizeof *c);

    if (c == NULL)
        return NULL;
    c->known_until = DAY_NONE;
    for (day_t d = DAY_FIRST; d <= DAY_LAST; d++)
        set_open(c, d, (plan->works >> day_weekday(d) & 1) != 0);
    for (size_t i = 0; i < plan->n_holidays; i++)
        if (close_holidays(c, plan->holidays[i]))
            goto err;
    for (size_t i = 0; i < plan->n_closed; i++)
        if (close_day(c, plan->closed[i]))
            goto err;
    for (size_t i = 0; i < plan->n_open; i++)
        set_open(c, plan->open[i], 1);
    if (seal(c))
        goto err;
    return c;
err:
    work_calendar_free(c);
    return NULL;
}

static int
keep_names(struct work_calendar *c, const struct work_calendar *from)
{
    for (size_t i = 0; i < from->n_closed; i++)
        if (!work_calendar_is_open(from, from->closed[i].day) &&
            keep_name(c, from->closed[i]))
            return -1;
    return 0;
}

struct work_calendar *
work_calendar_both(const struct work_calendar *a, const struct work_calendar *b)
{
    struct work_calendar *c = calloc(1, sizeof *c);

    if (c == NULL)
        return NULL;
    for (size_t i = 0; i < WORDS; i++)
        c->open[i] = a->open[i] & b->open[i];
    c->known_until = day_earlier(a->known_until, b->known_until);
    if (keep_names(c, a) || keep_names(c, b) || seal(c)) {
        work_calendar_free(c);
        return NULL;
    }
    return c;
}

void
work_calendar_free(struct work_calendar *c)
{
    if (c == NULL)
        return;
    free(c->nth);
    free(c->closed);
    free(c);
}

int
work_calendar_is_open(const struct work_calendar *c, day_t d)
{
    assert(day_valid(d));
    uint32_t i = (uint32_t)(d - DAY_FIRST);
    return (int)(c->open[i >> 6] >> (i & 63) & 1);
}

day_t
work_calendar_preceding(const struct work_calendar *c, day_t d)
{
    if (d == DAY_NONE)
        return DAY_NONE;
    int32_t i = d - DAY_FIRST;
    int32_t w = i >> 6;
    /* Drop the days after @d from its word. */
    uint64_t bits = c->open[w] << (63 - (i & 63));
    if (bits != 0)
        return d - __builtin_clzll(bits);
    while (--w >= 0)
        if (c->open[w] != 0)
            return DAY_FIRST + w * 64 + 63 - __builtin_clzll(c->open[w]);
    return DAY_NONE;
}

day_t
work_calendar_following(const struct work_calendar *c, day_t d)
{
    if (d == DAY_NONE)
        return DAY_NONE;
    int32_t i = d - DAY_FIRST;
    int32_t w = i >> 6;
    uint64_t bits = c->open[w] >> (i & 63);
    if (bits != 0)
        return d + __builtin_ctzll(bits);
    while (++w < (int32_t)WORDS)
        if (c->open[w] != 0)
            return DAY_FIRST + w * 64 + __builtin_ctzll(c->open[w]);
    return DAY_NONE;
}

day_t
work_calendar_nearest(const struct work_calendar *c, day_t d)
{
    if (d == DAY_NONE || work_calendar_is_open(c, d))
        return d;
    int weekday = day_weekday(d);
    if (weekday == 6 || weekday == 0)
        return work_calendar_following(c, d);
    return work_calendar_preceding(c, d);
}

/* How many working days there are from the first day up to and with @i. */
static int32_t
count_to(const struct work_calendar *c, int32_t i)
{
    uint64_t bits = c->open[i >> 6] << (63 - (i & 63));

    return c->before[i >> 6] + (int32_t)__builtin_popcountll(bits);
}

day_t
work_calendar_add(const struct work_calendar *c, day_t d, int n)
{
    if (d == DAY_NONE || n == 0)
        return d;
    int64_t at = (int64_t)count_to(c, d - DAY_FIRST) + n;
    /* Going back from a day that is closed, the first one found is the last
     * one counted. */
    if (n < 0 && !work_calendar_is_open(c, d))
        at++;
    if (at < 1 || at > c->before[WORDS])
        return DAY_NONE;
    return c->nth[at - 1];
}

int
work_calendar_between(const struct work_calendar *c, day_t from, day_t to)
{
    if (from == DAY_NONE || to == DAY_NONE || to <= from)
        return 0;
    return count_to(c, to - DAY_FIRST) - count_to(c, from - DAY_FIRST);
}

const char *
work_calendar_why(const struct work_calendar *c, day_t d)
{
    struct named_day key = {d, NULL};

    if (work_calendar_is_open(c, d) || c->n_closed == 0)
        return NULL;
    const struct named_day *found =
        bsearch(&key, c->closed, c->n_closed, sizeof key, by_day);
    return found ? found->name : NULL;
}

day_t
work_calendar_known_until(const struct work_calendar *c)
{
    return c->known_until;
}
