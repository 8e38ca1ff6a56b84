#include "model.h"

#define STATED_FAST 1.5 /* how far use may be off what was stated */
#define STATED_SLOW 0.7

/* What was last read, right or wrong. */
static struct reading
last_read(const struct usage *u)
{
    return u->n > 0 ? u->readings[u->n - 1] : (struct reading){DAY_NONE, 0};
}

/* The first day since the cycle began on which the due reading was shown.  The
 * newest reading counts although it may be wrong: until another one says so,
 * that is the safe side. */
static day_t
reached_on(const struct usage *u, const struct model *m, struct reading from,
    int64_t due)
{
    const struct screened *s = &m->readings;
    struct reading last = last_read(u);

    if (from.value >= due)
        return from.day;
    for (size_t i = 0; i < s->n; i++)
        if (s->at[i].day >= from.day && s->at[i].value >= due)
            return s->at[i].day;
    return last.day >= from.day && last.value >= due ? last.day : DAY_NONE;
}

/* The day on which use at @factor times the rate has come from @from to @due.
 */
static day_t
reach(const struct model *m, struct reading from, int64_t due, double factor)
{
    double left = (double)(due - from.value);

    return effective_days_end(
        &m->effective, from.day, left / (m->rate.a_day * factor));
}

/* The factors by which use may be faster, and slower, over the way to @due. */
static double
fast(const struct model *m, struct reading from, int64_t due)
{
    if (m->basis == FORECAST_STATED)
        return STATED_FAST;
    return rate_doubt(&m->rate, (double)(due - from.value) / m->rate.a_day);
}

static double
slow(const struct model *m, struct reading from, int64_t due)
{
    return m->basis == FORECAST_STATED ? STATED_SLOW : 1 / fast(m, from, due);
}

/* The meter was read on @last and did not show it. */
static day_t
not_before(day_t last, day_t d)
{
    return d == DAY_NONE ? DAY_NONE : day_later(last, d);
}

struct forecast
usage_forecast(const struct usage *u, struct reading from, int64_t due)
{
    struct model m;
    struct reading last = last_read(u);

    model_make(&m, u, from.day);
    struct forecast f = {.basis = m.basis,
        .early = DAY_NONE,
        .likely = DAY_NONE,
        .late = DAY_NONE,
        .seasonal = m.seasonality.seasonal,
        .left_out = m.readings.left_out};
    day_t reached = reached_on(u, &m, from, due);
    if (reached != DAY_NONE) {
        f.basis = FORECAST_REACHED;
        f.early = f.likely = f.late = reached;
        return f;
    }
    if (m.basis == FORECAST_NONE)
        return f;
    if (m.newest.day > from.day)
        from = m.newest;
    f.likely = not_before(last.day, reach(&m, from, due, 1));
    f.late = not_before(last.day, reach(&m, from, due, slow(&m, from, due)));
    /* Until another reading says that it is wrong, the early day counts it. */
    if (last.day > from.day && last.value > from.value)
        from = last;
    f.early = not_before(last.day, reach(&m, from, due, fast(&m, from, due)));
    return f;
}

int
usage_is_between(const struct usage *u, day_t d)
{
    struct screened s;

    if (u->n == 0)
        return 0;
    outliers_screen(&s, u, d);
    return d >= s.at[0].day && d <= s.at[s.n - 1].day;
}

/* Between two readings no rate is asked for, which is what takes long. */
int64_t
usage_at(const struct usage *u, day_t d)
{
    struct model m;

    if (u->n == 0)
        return USAGE_UNKNOWN;
    const struct screened *s = &m.readings;
    outliers_screen(&m.readings, u, d);
    if (d >= s->at[0].day && d <= s->at[s->n - 1].day)
        return (int64_t)screened_at(s, d);
    model_make(&m, u, d);
    const struct reading *nearest = &s->at[d < s->at[0].day ? 0 : s->n - 1];
    if (m.basis == FORECAST_NONE)
        return nearest->value;
    double value =
        (double)nearest->value +
        m.rate.a_day * (effective_days_at(&m.effective, d) -
                           effective_days_at(&m.effective, nearest->day));
    /* Only the scale of a meter that was replaced goes below 0. */
    return value > 0 || nearest->value < 0 ? (int64_t)value : 0;
}
