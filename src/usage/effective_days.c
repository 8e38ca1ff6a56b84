#include "effective_days.h"

#define HIT 1e-6 /* effective days that are nothing */

double
effective_days_at(const struct effective_days *w, day_t d)
{
    double at = seasonality_at(w->seasonality, d);

    for (size_t i = 0; i < w->usage->n_spells; i++) {
        const struct spell *s = &w->usage->spells[i];
        day_t until = s->until == DAY_NONE ? w->known : s->until;
        until = day_earlier(until, d);
        if (until >= s->from)
            at -= seasonality_at(w->seasonality, until) -
                  seasonality_at(w->seasonality, s->from - 1);
    }
    return at;
}

day_t
effective_days_end(const struct effective_days *w, day_t from, double days)
{
    double goal = effective_days_at(w, from) + days;
    day_t low = from - 1;
    day_t high = DAY_LAST;

    if (effective_days_at(w, high) < goal - HIT)
        return DAY_NONE;
    while (high - low > 1) {
        day_t middle = low + (high - low) / 2;
        if (effective_days_at(w, middle) < goal - HIT)
            low = middle;
        else
            high = middle;
    }
    return effective_days_at(w, high) > goal + HIT && high > from ? high - 1
                                                                  : high;
}
