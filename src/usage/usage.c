#include "usage.h"

#include "step.h"

#include <math.h>
#include <stdlib.h>

/*
 * The rate of use is the median of the slopes between all pairs of recent
 * readings (Theil 1950, Sen 1968): a wrong reading spoils few of the pairs.
 * The spread of those slopes is what the early and the late day go by.
 */

#define RECENT 24       /* readings; their pairs are what is sorted */
#define SHORTEST 14     /* days that a pair must span to count */
#define STATED_FAST 1.5 /* how far use may be off what was stated */
#define STATED_SLOW 0.7
#define DAYS_A_YEAR 365.25

struct rates {
    double slow;
    double median;
    double fast;
};

static int
by_size(const void *left, const void *right)
{
    double a = *(const double *)left;
    double b = *(const double *)right;

    return (a > b) - (a < b);
}

/* The value below which @share of the @n sorted ones lie. */
static double
quantile(const double *sorted, size_t n, double share)
{
    double at = share * (double)(n - 1);
    size_t below = (size_t)at;

    if (below + 1 >= n)
        return sorted[n - 1];
    return sorted[below] +
           (at - (double)below) * (sorted[below + 1] - sorted[below]);
}

/* Rates from the readings; 0 when they are too few or too close. */
static int
rates_of_readings(const struct usage *u, struct rates *out)
{
    double slopes[RECENT * (RECENT - 1) / 2];
    size_t first = u->n > RECENT ? u->n - RECENT : 0;
    size_t n = 0;

    for (size_t i = first; i < u->n; i++)
        for (size_t j = i + 1; j < u->n; j++) {
            const struct reading *a = &u->readings[i];
            const struct reading *b = &u->readings[j];
            if (b->day - a->day >= SHORTEST && b->value >= a->value)
                slopes[n++] =
                    (double)(b->value - a->value) / (double)(b->day - a->day);
        }
    if (n == 0)
        return 0;
    qsort(slopes, n, sizeof *slopes, by_size);
    *out = (struct rates){quantile(slopes, n, 0.1), quantile(slopes, n, 0.5),
        quantile(slopes, n, 0.9)};
    return out->median > 0;
}

static int
rates_as_stated(const struct usage *u, struct rates *out)
{
    double rate = (double)u->yearly / DAYS_A_YEAR;

    *out = (struct rates){rate * STATED_SLOW, rate, rate * STATED_FAST};
    return u->yearly > 0;
}

/* The day on which @rate covers the way from @from to @due. */
static day_t
reach(struct reading from, int64_t due, double rate)
{
    if (rate <= 0)
        return DAY_NONE;
    double days = floor((double)(due - from.value) / rate);
    return days > DAY_LAST ? DAY_NONE : step_days(from.day, (int64_t)days);
}

/* The first day on which a reading showed @due, or DAY_NONE. */
static day_t
reached_on(const struct usage *u, day_t since, int64_t due)
{
    for (size_t i = 0; i < u->n; i++)
        if (u->readings[i].day >= since && u->readings[i].value >= due)
            return u->readings[i].day;
    return DAY_NONE;
}

struct forecast
usage_forecast(const struct usage *u, struct reading from, int64_t due)
{
    struct rates r;
    day_t reached = reached_on(u, from.day, due);
    struct forecast f = {FORECAST_READINGS, DAY_NONE, DAY_NONE, DAY_NONE};

    if (reached != DAY_NONE)
        return (struct forecast){FORECAST_REACHED, reached, reached, reached};
    if (!rates_of_readings(u, &r)) {
        f.basis = FORECAST_STATED;
        if (!rates_as_stated(u, &r))
            return (struct forecast){
                FORECAST_NONE, DAY_NONE, DAY_NONE, DAY_NONE};
    }
    if (u->n > 0 && u->readings[u->n - 1].day > from.day)
        from = u->readings[u->n - 1];
    f.early = reach(from, due, r.fast);
    f.likely = reach(from, due, r.median);
    f.late = reach(from, due, r.slow);
    return f;
}

int64_t
usage_at(const struct usage *u, day_t d)
{
    struct rates r;
    size_t i = 0;

    if (u->n == 0)
        return USAGE_UNKNOWN;
    while (i < u->n && u->readings[i].day < d)
        i++;
    if (i < u->n && u->readings[i].day == d)
        return u->readings[i].value;
    if (i > 0 && i < u->n) {
        const struct reading *a = &u->readings[i - 1];
        const struct reading *b = &u->readings[i];
        return a->value +
               (b->value - a->value) * (d - a->day) / (b->day - a->day);
    }
    const struct reading *nearest = &u->readings[i == 0 ? 0 : u->n - 1];
    if (!rates_of_readings(u, &r) && !rates_as_stated(u, &r))
        return nearest->value;
    double value =
        (double)nearest->value + r.median * (double)(d - nearest->day);
    /* Only the scale of a meter that was replaced goes below 0. */
    return value > 0 || nearest->value < 0 ? (int64_t)value : 0;
}
