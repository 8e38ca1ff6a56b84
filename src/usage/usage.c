#include "model.h"
#include "step.h"

day_t
usage_since(day_t newest, day_t asked)
{
    struct span years = {3, STEP_YEARS};

    return day_earlier(asked, step_span(newest, years, -1, MONTH_END_CLAMP));
}

int
usage_is_between(const struct usage *u, day_t d)
{
    struct screened s;

    if (u->n == 0)
        return 0;
    screen(&s, u, d);
    return d >= s.at[0].day && d <= s.at[s.n - 1].day;
}

int64_t
usage_at(const struct usage *u, day_t d)
{
    struct model m;

    if (u->n == 0)
        return USAGE_UNKNOWN;
    /* Between two readings no rate is asked for. */
    const struct screened *s = &m.readings;
    screen(&m.readings, u, d);
    if (d >= s->at[0].day && d <= s->at[s->n - 1].day)
        return (int64_t)screened_at(s, d);
    model_make(&m, u, d);
    const struct reading *nearest = &s->at[d < s->at[0].day ? 0 : s->n - 1];
    if (m.basis == FORECAST_NONE)
        return nearest->value;
    double value =
        (double)nearest->value +
        m.rate.a_day * (wear_at(&m.wear, d) - wear_at(&m.wear, nearest->day));
    /* Only the scale of a meter that was replaced goes below 0. */
    return value > 0 || nearest->value < 0 ? (int64_t)value : 0;
}
