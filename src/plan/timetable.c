#include "timetable_inside.h"

#include "step.h"

#include <stdlib.h>

/* How long after the last deadline what is late may still find a day. */
#define LATE_DAYS 180

struct timetable *
timetable_new(const struct plan_problem *p, const struct timetable *like)
{
    struct timetable *t = calloc(1, sizeof *t);

    if (t == NULL)
        return NULL;
    t->problem = p;
    t->like = like;
    t->last = day_earlier(step_days(p->until, LATE_DAYS), DAY_LAST);
    size_t heads = p->n_places * ((size_t)(t->last - p->today) + 1);
    t->load = load_new(p, p->today, t->last);
    t->waiting = queue_new();
    t->at = malloc((heads + 1) * sizeof *t->at);
    t->of = malloc((p->n_units + 1) * sizeof *t->of);
    t->newest = malloc((p->n_works + 1) * sizeof *t->newest);
    if (!t->load || !t->waiting || !t->at || !t->of || !t->newest)
        goto err;
    for (size_t i = 0; i < heads; i++)
        t->at[i] = -1;
    for (size_t i = 0; i < p->n_units; i++)
        t->of[i] = -1;
    for (size_t i = 0; i < p->n_works; i++)
        t->newest[i] = -1;
    if (timetable_begin(t))
        goto err;
    return t;
err:
    timetable_free(t);
    return NULL;
}

void
timetable_free(struct timetable *t)
{
    if (t == NULL)
        return;
    load_free(t->load);
    queue_free(t->waiting);
    free(t->items);
    free(t->at);
    free(t->of);
    free(t->newest);
    free(t->log);
    free(t->done);
    free(t);
}

const struct item *
timetable_items(const struct timetable *t, size_t *n)
{
    *n = t->n;
    return t->items;
}

const struct item *
timetable_item(const struct timetable *t, long i)
{
    return &t->items[i];
}

struct load *
timetable_load(const struct timetable *t)
{
    return t->load;
}

long
timetable_at(const struct timetable *t, const struct plan_work *w, day_t d)
{
    return *timetable_head(t, w, d);
}

long
timetable_of(const struct timetable *t, size_t unit)
{
    return t->of[unit];
}

long
timetable_newest(const struct timetable *t, size_t work)
{
    return t->newest[work];
}

day_t
timetable_first(const struct timetable *t)
{
    return t->problem->today;
}

day_t
timetable_last(const struct timetable *t)
{
    return t->last;
}

day_t
timetable_nowhere(const struct timetable *t)
{
    return t->last + 1;
}

long
timetable_waiting(const struct timetable *t)
{
    return queue_first(t->waiting);
}

int
timetable_is_called(const struct timetable *t, long i)
{
    const struct item *item = &t->items[i];

    size_t work = (size_t)(item->work - t->problem->works);

    return item->day != DAY_NONE || t->newest[work] == i;
}

long
timetable_first_of(const struct timetable *t, long i)
{
    while (t->items[i].previous >= 0)
        i = t->items[i].previous;
    return i;
}

size_t
timetable_mark(const struct timetable *t)
{
    return t->n_log;
}

void
timetable_settle(struct timetable *t)
{
    t->n_log = 0;
}
