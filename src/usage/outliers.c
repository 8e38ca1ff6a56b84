#include "outliers.h"

#include "step.h"
#include "theil_sen.h"

#include <stdlib.h>

#define APART 14     /* days that a pair of readings must span to tell a rate */
#define LATELY 91    /* days */
#define LAST 5       /* of which one wrong reading spoils 4 of 10 pairs */
#define FASTEST 10.0 /* times the usual rate */
#define ANY_RATE 1e9 /* a day: nothing is usual, so nothing is too fast */

/* A reading, and how far it lies behind one that always rises fastest. */
struct point {
    struct reading reading;
    double behind;
};

day_t
usage_since(day_t newest, day_t asked)
{
    struct span years = {3, STEP_YEARS};

    return day_earlier(asked, step_span(newest, years, -1, MONTH_END_CLAMP));
}

/* The last reading of each of the days that count. */
static void
take_newest(struct screened *s, const struct usage *u, day_t asked)
{
    day_t newest = u->n > 0 ? u->readings[u->n - 1].day : DAY_NONE;
    day_t since = usage_since(newest, asked);
    int before = 0;
    size_t n = 0;

    for (size_t i = u->n; i > 0 && n < OUTLIERS_MOST; i--) {
        const struct reading *r = &u->readings[i - 1];
        if (i < u->n && r->day == u->readings[i].day)
            continue;
        if (r->day < since && ++before > USAGE_BEFORE)
            break;
        s->at[n++] = *r;
    }
    for (size_t i = 0; i < n / 2; i++) {
        struct reading swap = s->at[i];
        s->at[i] = s->at[n - 1 - i];
        s->at[n - 1 - i] = swap;
    }
    s->n = n;
}

/* The first of the readings on @d or later; their number when there is none. */
static size_t
first_since(const struct screened *s, day_t d)
{
    size_t low = 0;
    size_t high = s->n;

    while (low < high) {
        size_t middle = (low + high) / 2;
        if (s->at[middle].day < d)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* The usual rate of the last readings, or of the last quarter when there are
 * more of it; the newest does not speak for itself. */
static double
usual_lately(const struct screened *s)
{
    if (s->n <= LAST)
        return 0;
    size_t n = s->n - 1;
    size_t since = first_since(s, s->at[n - 1].day - LATELY);

    since = since < n - LAST ? since : n - LAST;
    return theil_sen_slope(s->at + since, n - since, APART);
}

/* The fastest that can be right, units a day.  A vehicle put to other use is
 * believed once some readings agree. */
static double
fastest(const struct screened *s)
{
    double usual = theil_sen_slope(s->at, s->n, APART);
    double lately = usual_lately(s);

    usual = lately > usual ? lately : usual;
    return usual > 0 ? usual * FASTEST : ANY_RATE;
}

static int
by_value(const void *left, const void *right)
{
    const struct point *a = left;
    const struct point *b = right;

    if (a->reading.value != b->reading.value)
        return a->reading.value < b->reading.value ? -1 : 1;
    return (a->behind > b->behind) - (a->behind < b->behind);
}

/* How many of the @n chains, by their last points, go on to such a point. */
static size_t
goes_on_from(
    const struct point *points, const int *last, size_t n, double behind)
{
    size_t low = 0;

    while (low < n) {
        size_t middle = (low + n) / 2;
        if (points[last[middle]].behind <= behind)
            low = middle + 1;
        else
            n = middle;
    }
    return low;
}

/* Keep the longest chain of the points, which are in order of value. */
static void
keep_longest(struct screened *s, const struct point *points)
{
    int last[OUTLIERS_MOST];   /* of the best chain of each length */
    int before[OUTLIERS_MOST]; /* of each point in its chain, -1 for none */
    size_t longest = 0;

    for (size_t i = 0; i < s->n; i++) {
        size_t length = goes_on_from(points, last, longest, points[i].behind);
        before[i] = length > 0 ? last[length - 1] : -1;
        last[length] = (int)i;
        if (length == longest)
            longest++;
    }
    s->left_out = s->n - longest;
    s->n = longest;
    int p = longest > 0 ? last[longest - 1] : -1;
    for (size_t i = longest; p >= 0; p = before[p])
        s->at[--i] = points[p].reading;
}

void
outliers_screen(struct screened *s, const struct usage *u, day_t asked)
{
    struct point points[OUTLIERS_MOST];

    take_newest(s, u, asked);
    double most = fastest(s);
    for (size_t i = 0; i < s->n; i++) {
        struct reading r = s->at[i];
        points[i] = (struct point){r, most * (double)r.day - (double)r.value};
    }
    /* Of one or none there is nothing to sort. */
    if (s->n > 1)
        qsort(points, s->n, sizeof *points, by_value);
    keep_longest(s, points);
}

double
screened_at(const struct screened *s, day_t d)
{
    size_t i = first_since(s, d);

    if (i == s->n)
        return (double)s->at[s->n - 1].value;
    if (i == 0 || s->at[i].day == d)
        return (double)s->at[i].value;
    const struct reading *a = &s->at[i - 1];
    const struct reading *b = &s->at[i];
    return (double)a->value + (double)(b->value - a->value) *
                                  (double)(d - a->day) /
                                  (double)(b->day - a->day);
}
