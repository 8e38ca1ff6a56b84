#include "seasonality.h"

#include <math.h>

#define YEARS 2
#define PARTS (YEARS * SEASONALITY_PARTS)
#define YEAR 365.2425
#define PART (YEAR / SEASONALITY_PARTS)
#define NEW_YEAR 10957 /* a first of January: 2000 */
#define READ_PARTS 16  /* of the 24, hold a reading at least */
#define ROAD_DAYS 7    /* of a twelfth, that say how it is used */
#define LEAST 0.05     /* no day of the year counts for less */

/* The twelfth that @d lies in, counted from the year 2000. */
static int
part_of(day_t d)
{
    return (int)floor((d - NEW_YEAR) / PART);
}

static day_t
part_begins(int part)
{
    return (day_t)(NEW_YEAR + ceil((double)part * PART));
}

static size_t
of_year(int part)
{
    return (size_t)(((part % SEASONALITY_PARTS) + SEASONALITY_PARTS) %
                    SEASONALITY_PARTS);
}

static int
days_off(const struct usage *u, day_t from, day_t until)
{
    int off = 0;

    for (size_t i = 0; i < u->n_spells; i++) {
        day_t first = day_later(u->spells[i].from, from);
        day_t last = day_earlier(u->spells[i].until, until);
        off += last >= first ? last - first + 1 : 0;
    }
    return off;
}

/* Use on a day on the road in each of the twelfths from @first on, or -1 where
 * there is no such day; how many of them hold a reading. */
static int
rates_by_part(const struct screened *s, const struct usage *u, int first,
    double rates[PARTS])
{
    int read = 0;
    size_t i = 0;

    for (int k = 0; k < PARTS; k++) {
        day_t from = part_begins(first + k);
        day_t until = part_begins(first + k + 1);
        int road = until - from - days_off(u, from, until - 1);
        double used = screened_at(s, until) - screened_at(s, from);
        rates[k] = road < ROAD_DAYS ? -1 : used / road;
        while (i < s->n && s->at[i].day < from)
            i++;
        read += i < s->n && s->at[i].day < until;
    }
    return read;
}

/* Where a year has no figure for a twelfth the other year's stands in; then
 * each year by its own average.  0 when there is not enough. */
static int
scale(double rates[PARTS])
{
    for (int k = 0; k < PARTS; k++)
        if (rates[k] < 0)
            rates[k] = rates[(k + SEASONALITY_PARTS) % PARTS];
    for (int y = 0; y < YEARS; y++) {
        double *year = rates + (ptrdiff_t)y * SEASONALITY_PARTS;
        double sum = 0;
        for (int k = 0; k < SEASONALITY_PARTS; k++) {
            if (year[k] < 0)
                return 0;
            sum += year[k];
        }
        if (sum <= 0)
            return 0;
        for (int k = 0; k < SEASONALITY_PARTS; k++)
            year[k] *= SEASONALITY_PARTS / sum;
    }
    return 1;
}

/* Pearson's correlation of the two years, whose averages are 1. */
static double
agreement(const double rates[PARTS])
{
    double both = 0, first = 0, second = 0;

    for (int k = 0; k < SEASONALITY_PARTS; k++) {
        double a = rates[k] - 1;
        double b = rates[k + SEASONALITY_PARTS] - 1;
        both += a * b;
        first += a * a;
        second += b * b;
    }
    double spread = first * second;
    return spread > 0 ? both / sqrt(spread) : 0;
}

static void
add_up(struct seasonality *p)
{
    double sum = 0;

    for (int k = 0; k < SEASONALITY_PARTS; k++)
        sum += p->share[k];
    p->before[0] = 0;
    for (int k = 0; k < SEASONALITY_PARTS; k++) {
        p->share[k] *= SEASONALITY_PARTS / sum;
        p->before[k + 1] = p->before[k] + p->share[k];
    }
}

void
seasonality_take(
    struct seasonality *p, const struct screened *s, const struct usage *u)
{
    double rates[PARTS];

    p->seasonal = 0;
    if (s->n < READ_PARTS)
        return;
    int first = part_of(s->at[s->n - 1].day) - PARTS;
    if (part_begins(first) < s->at[0].day ||
        rates_by_part(s, u, first, rates) < READ_PARTS || !scale(rates))
        return;
    double r = agreement(rates);
    if (r < SEASONALITY_AGREE)
        return;
    p->seasonal = 1;
    for (int k = 0; k < SEASONALITY_PARTS; k++) {
        double mean = (rates[k] + rates[k + SEASONALITY_PARTS]) / 2;
        double share = 1 + 2 * r / (1 + r) * (mean - 1);
        p->share[of_year(first + k)] = share > LEAST ? share : LEAST;
    }
    add_up(p);
}

double
seasonality_at(const struct seasonality *p, day_t d)
{
    if (!p->seasonal)
        return d;
    double parts = (d + 1 - NEW_YEAR) / PART;
    double years = floor(parts / SEASONALITY_PARTS);
    double rest = parts - years * SEASONALITY_PARTS;
    int k = rest >= SEASONALITY_PARTS ? SEASONALITY_PARTS - 1 : (int)rest;

    return PART * (years * SEASONALITY_PARTS + p->before[k] +
                      (rest - k) * p->share[k]);
}
