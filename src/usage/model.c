#include "model.h"

#define APART 14 /* days that readings must span to tell a rate */
#define YEAR 365.25

void
model_make(struct model *m, const struct usage *u, day_t asked)
{
    const struct screened *s = &m->readings;

    outliers_screen(&m->readings, u, asked);
    m->newest = s->n > 0 ? s->at[s->n - 1] : (struct reading){DAY_NONE, 0};
    seasonality_take(&m->seasonality, s, u);
    m->effective = (struct effective_days){
        u, &m->seasonality, day_later(m->newest.day, DAY_FIRST)};
    m->rate = rate_of(s, &m->effective);
    m->basis = FORECAST_READINGS;
    if (m->rate.a_day > 0 && m->newest.day - s->at[0].day >= APART)
        return;
    m->rate.a_day = (double)u->yearly / YEAR;
    m->basis = u->yearly > 0 ? FORECAST_STATED : FORECAST_NONE;
}
