#include "meters.h"

#include <stdlib.h>

/* A new meter, and how much more it shows than the old one would. */
struct replacement {
    const struct record *by;
    int64_t shift; /* USAGE_UNKNOWN when the old one was never read */
};

/* What is noted with several jobs of one day was read once. */
static int
add_reading(struct meters *m, enum meter meter, struct reading reading)
{
    const struct reading *at =
        meter == METER_HOURS ? m->hours.at : m->distance.at;
    size_t n = meter == METER_HOURS ? m->hours.n : m->distance.n;

    if (n > 0 && at[n - 1].day == reading.day &&
        at[n - 1].value == reading.value)
        return 0;
    return meter == METER_HOURS ? LIST_ADD(m->hours, reading)
                                : LIST_ADD(m->distance, reading);
}

/* What the old meter showed at last.  When it was not read on that day, it has
 * gone on since at the usual rate: to count nothing would be late. */
static int64_t
last_of_old(const struct usage *old, day_t day)
{
    if (old->n > 0 && old->readings[old->n - 1].day == day)
        return old->readings[old->n - 1].value;
    return usage_at(old, day);
}

static int
replace(struct meters *m, const struct subject *s, const struct record *k)
{
    struct reading *readings =
        k->meter == METER_HOURS ? m->hours.at : m->distance.at;
    struct usage old = meters_usage(m, s, k->meter);
    int64_t last = last_of_old(&old, k->day);
    struct replacement replacement = {k, USAGE_UNKNOWN};

    if (old.n > 0)
        replacement.shift = record_reading(k) - last;
    for (size_t i = 0; i < old.n; i++)
        readings[i].value += replacement.shift;
    return LIST_ADD(m->replaced, replacement);
}

/* The task whose stated reading comes next after that of @last, or first of
 * all: by day, then in the order of the file. */
static const struct task *
next_stated(const struct task *tasks, size_t n_tasks, const struct task *last)
{
    const struct task *next = NULL;

    for (const struct task *t = tasks; t < tasks + n_tasks; t++) {
        day_t day = t->baseline.last;
        if (day == DAY_NONE ||
            (last != NULL && (day < last->baseline.last ||
                                 (day == last->baseline.last && t <= last))))
            continue;
        if (next == NULL || day < next->baseline.last)
            next = t;
    }
    return next;
}

static int
add_stated(struct meters *m, const struct task *t)
{
    const struct baseline *b = &t->baseline;

    for (enum meter meter = METER_DISTANCE; meter <= METER_HOURS; meter++) {
        struct reading reading = {b->last, b->last_reading[meter]};
        if (reading.value >= 0 && add_reading(m, meter, reading))
            return -1;
    }
    return 0;
}

static int
add_record(struct meters *m, const struct subject *s, const struct record *k)
{
    struct reading reading = {k->day, record_reading_at_most(k)};

    if (k->reading < 0)
        return 0;
    if (k->kind == RECORD_REPLACED && replace(m, s, k))
        return -1;
    return add_reading(m, k->meter, reading);
}

int
meters_take(struct meters *m, const struct subject *s, const struct task *tasks,
    const struct record *k, const struct record *end)
{
    const struct task *t = next_stated(tasks, s->n_tasks, NULL);

    m->distance.n = m->hours.n = m->replaced.n = 0;
    while (k < end || t != NULL) {
        /* What the file states of a day is of its end. */
        if (t != NULL && (k == end || t->baseline.last < k->day)) {
            if (add_stated(m, t))
                return -1;
            t = next_stated(tasks, s->n_tasks, t);
        } else if (add_record(m, s, k++))
            return -1;
    }
    return 0;
}

struct usage
meters_usage(const struct meters *m, const struct subject *s, enum meter meter)
{
    if (meter == METER_HOURS)
        return (struct usage){.readings = m->hours.at,
            .n = m->hours.n,
            .yearly = s->yearly_hours};
    return (struct usage){.readings = m->distance.at,
        .n = m->distance.n,
        .yearly = s->yearly_distance};
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
meters_at(const struct meters *m, enum meter meter, const struct completion *c,
    int64_t reading)
{
    if (reading < 0)
        return USAGE_UNKNOWN;
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
