#include "meters.h"

#include <stdlib.h>

/* A new meter, and how much more it shows than the old one would. */
struct replacement {
    const struct record *by;
    int64_t shift; /* USAGE_UNKNOWN when the old one was never read */
};

static struct reading *
list_of(const struct meters *m, enum meter meter)
{
    return meter == METER_HOURS ? m->hours.at : m->distance.at;
}

static int
add(struct meters *m, enum meter meter, struct reading reading)
{
    return meter == METER_HOURS ? LIST_ADD(m->hours, reading)
                                : LIST_ADD(m->distance, reading);
}

static int
replace(struct meters *m, const struct record *k)
{
    int hours = k->meter == METER_HOURS;
    struct reading *old = hours ? m->hours.at : m->distance.at;
    size_t n = hours ? m->hours.n : m->distance.n;
    int64_t shift = n > 0 ? k->reading - old[n - 1].value : USAGE_UNKNOWN;
    struct replacement replacement = {k, shift};

    for (size_t i = 0; i < n; i++)
        old[i].value += shift;
    return LIST_ADD(m->replaced, replacement);
}

int
meters_take(struct meters *m, const struct record *k, const struct record *end)
{
    m->distance.n = m->hours.n = m->replaced.n = 0;
    for (; k < end; k++) {
        if (k->reading < 0)
            continue;
        if (k->kind == RECORD_REPLACED && replace(m, k))
            return -1;
        if (add(m, k->meter, (struct reading){k->day, k->reading}))
            return -1;
    }
    return 0;
}

int
meters_add(struct meters *m, enum meter meter, struct reading reading)
{
    size_t n = meter == METER_HOURS ? m->hours.n : m->distance.n;

    if (reading.value == USAGE_UNKNOWN)
        return 0;
    for (size_t i = 0; i < n; i++)
        if (list_of(m, meter)[i].day == reading.day)
            return 0;
    if (add(m, meter, reading))
        return -1;
    struct reading *at = list_of(m, meter);
    for (; n > 0 && at[n - 1].day > reading.day; n--)
        at[n] = at[n - 1];
    at[n] = reading;
    return 0;
}

/* Nonzero when @c was read before the new meter came.  On one day the order
 * of entry decides; the fleet file tells of the meter at the end of it. */
static int
is_before(const struct completion *c, const struct record *k)
{
    if (c->day != k->day)
        return c->day < k->day;
    return c->by != NULL && c->record < k->id;
}

int64_t
meters_at(const struct meters *m, enum meter meter, const struct completion *c)
{
    int64_t reading = c->reading;

    for (size_t i = 0; i < m->replaced.n && reading != USAGE_UNKNOWN; i++) {
        const struct replacement *r = &m->replaced.at[i];
        if (r->by->meter != meter || !is_before(c, r->by))
            continue;
        reading = r->shift == USAGE_UNKNOWN ? r->shift : reading + r->shift;
    }
    return reading;
}

void
meters_free(struct meters *m)
{
    free(m->distance.at);
    free(m->hours.at);
    free(m->replaced.at);
}
