#include "rate.h"

#include <math.h>

#define MONTH 28
#define QUARTER 91
#define YEAR 365.25

#define MEMORY 91.0            /* days after which use counts 1/e */
#define MEMORY_OF_MISSES 730.0 /* the same of how far a forecast was off */
#define WORST 1.5              /* a miss counts as 4.5 times at most */

/* What is usual of a vehicle of which nothing is known, as if seen so often:
 * standard deviations of 14 and 10 %.  While less than a year was seen, what
 * the rest of it may bring: 32 % when nothing was. */
#define USUAL_TIMES 3
#define USUAL_MONTH 0.02
#define USUAL_QUARTER 0.01
#define UNSEEN 0.10

/* Misses in the two years that the seasons were taken from are too small: each
 * year is half of the average that it is held against. */
#define FITTED 2

#define LARGEST 2.0 /* doubt, as a logarithm: 7.4 times */

/* An average whose past fades. */
struct fading {
    double sum;
    double weight;
};

static void
fading_add(struct fading *f, double rate, double days)
{
    double keep = exp(-days / MEMORY);

    f->sum = f->sum * keep + rate * (1 - keep);
    f->weight = f->weight * keep + (1 - keep);
}

static double
fading_rate(const struct fading *f)
{
    return f->weight > 0 ? f->sum / f->weight : 0;
}

/* Forecasts that were made at the end of each period for the next one. */
struct misses {
    int period;  /* days on the calendar, so that they stay where they are
                    when readings are added */
    double rate; /* foretold, 0 for none */
    struct reading from;
    double at;      /* the effective days then */
    double squares; /* of the misses */
    double times;
    double fastest;
};

static double
miss(double use, double foretold)
{
    if (use <= 0)
        return -WORST;
    return fmax(-WORST, fmin(log(use / foretold), WORST));
}

/* The meter stands at @now, the effective days at @at, and the rate is now
 * @rate. */
static void
misses_add(struct misses *m, struct reading now, double at, double rate)
{
    double days = at - m->at;

    if (now.day / m->period == m->from.day / m->period)
        return;
    if (m->rate > 0 && days >= m->period / 2.0) {
        double use = (double)(now.value - m->from.value) / days;
        double off = miss(use, m->rate);
        double keep = exp(-days / MEMORY_OF_MISSES);
        m->squares = m->squares * keep + off * off;
        m->times = m->times * keep + 1;
        m->fastest = fmax(m->fastest, use);
    }
    m->rate = rate;
    m->from = now;
    m->at = at;
}

static double
variance(const struct misses *m, double usual)
{
    return (USUAL_TIMES * usual + m->squares) / (USUAL_TIMES + m->times);
}

/* What the forecasts made until now were worth. */
static void
judge(struct rate *r, const struct misses *month, const struct misses *quarter,
    double seen, int seasonal)
{
    double unseen = UNSEEN * fmax(0, 1 - seen / YEAR);
    double fitted = seasonal ? FITTED : 1;

    r->month = fitted * variance(month, USUAL_MONTH + unseen);
    r->quarter = fitted * variance(quarter, USUAL_QUARTER + unseen);
    r->freedom = USUAL_TIMES + quarter->times;
    r->fastest = !seasonal && seen < 2 * YEAR ? month->fastest : 0;
}

struct rate
rate_of(const struct screened *s, const struct effective_days *w)
{
    struct rate r = {0};
    struct fading use = {0, 0};

    if (s->n == 0)
        return r;
    double first = effective_days_at(w, s->at[0].day);
    double before = first;
    struct misses month = {.period = MONTH, .from = s->at[0], .at = first};
    struct misses quarter = {.period = QUARTER, .from = s->at[0], .at = first};
    if (w->usage->yearly > 0)
        fading_add(&use, (double)w->usage->yearly / YEAR, QUARTER);
    for (size_t i = 1; i < s->n; i++) {
        double at = effective_days_at(w, s->at[i].day);
        double used = (double)(s->at[i].value - s->at[i - 1].value);
        if (at > before)
            fading_add(&use, used / (at - before), at - before);
        misses_add(&month, s->at[i], at, fading_rate(&use));
        misses_add(&quarter, s->at[i], at, fading_rate(&use));
        before = at;
    }
    r.a_day = fading_rate(&use);
    judge(&r, &month, &quarter, before - first, w->seasonality->seasonal);
    return r;
}

double
rate_student(double freedom)
{
    return 1.28155 + 0.84659 / freedom + 0.57090 / (freedom * freedom);
}

double
rate_doubt(const struct rate *r, double days)
{
    double power = log(r->month / r->quarter) / log((double)QUARTER / MONTH);
    double by = fmax(0, fmin(power, 1));
    double spread = sqrt(r->quarter * pow(QUARTER / days, by));
    double doubt = exp(fmin(rate_student(r->freedom) * spread, LARGEST));

    return fmax(doubt, r->fastest / r->a_day);
}
