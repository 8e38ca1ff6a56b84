#include "posed.h"

#include <stdlib.h>
#include <string.h>

/*
 * A vehicle off the road is away already: on those days the rest may be fewer,
 * and what is done on it meanwhile costs nobody.  A limit is therefore posed
 * once for each run of days on which the same vehicles are off.
 */
struct run {
    day_t from;
    day_t to;
    unsigned char *off; /* for each vehicle of the limit */
    int n_off;
};

static int
find_off(
    struct agenda *a, const struct away_limit *l, day_t d, unsigned char *off)
{
    int n = 0;

    for (size_t i = 0; i < l->n_of; i++) {
        const struct subject *s = l->of[i];
        off[i] =
            s->n_tasks > 0 && forward_is_off_road(a->forward, s->first_task, d);
        n += off[i];
    }
    return n;
}

static int
away_of(const struct agenda *a, const struct away_limit *l)
{
    int away = (int)l->away;

    for (size_t i = 0; i < a->options.n_changes; i++)
        if (a->options.changes[i].kind == CHANGE_AWAY &&
            a->options.changes[i].limit == l)
            away = a->options.changes[i].amount;
    return away;
}

/* Open on all days from @from to @to and no others. */
static struct work_calendar *
span_of_days(day_t from, day_t to)
{
    size_t n = (size_t)(to - from) + 1;
    day_t *open = malloc(n * sizeof *open);

    if (open == NULL)
        return NULL;
    for (size_t i = 0; i < n; i++)
        open[i] = from + (day_t)i;
    struct work_calendar *c = work_calendar_new(
        &(struct work_calendar_plan){.open = open, .n_open = n});
    free(open);
    return c;
}

/* The days of a run on which the limit holds; a whole plan's needs no calendar
 * of its own. */
static int
set_days(struct agenda *a, const struct away_limit *l, const struct run *run,
    const struct work_calendar **on)
{
    const struct work_calendar *of = l->on ? l->on->calendar : NULL;
    struct cut_calendar key = {NULL, NULL, NULL, NULL, NULL};

    *on = of;
    if (run->from == a->options.today && run->to == posed_last(a))
        return 0;
    struct work_calendar *days = span_of_days(run->from, run->to);
    if (days != NULL && of != NULL) {
        struct work_calendar *both = work_calendar_both(of, days);
        work_calendar_free(days);
        days = both;
    }
    *on = posed_keep(a, days, key);
    return *on ? 0 : -1;
}

static struct plan_unit *
unit_of(struct agenda *a, const struct subject *s)
{
    for (size_t i = 0; i < a->problem.n_units; i++)
        if (a->subjects[i] == s)
            return &a->units[i];
    return NULL;
}

static int
join(struct agenda *a, struct plan_unit *u, size_t group)
{
    size_t *groups = arena_grow(
        a->arena, u->groups, u->n_groups, u->n_groups + 1, sizeof *groups);

    if (groups == NULL)
        return -1;
    groups[u->n_groups++] = group;
    u->groups = groups;
    return 0;
}

static int
pose(struct agenda *a, const struct away_limit *l, const struct run *run)
{
    size_t n = a->problem.n_groups;
    struct plan_group *groups =
        arena_grow(a->arena, a->groups, n, n + 1, sizeof *groups);
    int away = away_of(a, l) - run->n_off;

    if (groups == NULL)
        return -1;
    groups[n] = (struct plan_group){l->title, NULL, away > 0 ? away : 0};
    if (set_days(a, l, run, &groups[n].on))
        return -1;
    a->problem.groups = a->groups = groups;
    a->problem.n_groups++;
    for (size_t i = 0; i < l->n_of; i++) {
        struct plan_unit *u = run->off[i] ? NULL : unit_of(a, l->of[i]);
        if (u != NULL && join(a, u, n))
            return -1;
    }
    return 0;
}

static int
pose_limit(struct agenda *a, const struct away_limit *l)
{
    day_t last = posed_last(a);
    unsigned char *off = arena_take(a->arena, 2 * l->n_of + 1);
    struct run run = {.from = a->options.today};

    if (off == NULL)
        return -1;
    run.off = off + l->n_of;
    run.n_off = find_off(a, l, run.from, run.off);
    for (day_t d = run.from + 1; d <= last; d++) {
        int n = find_off(a, l, d, off);
        if (memcmp(off, run.off, l->n_of) == 0)
            continue;
        run.to = d - 1;
        if (pose(a, l, &run))
            return -1;
        memcpy(run.off, off, l->n_of);
        run.n_off = n;
        run.from = d;
    }
    run.to = last;
    return pose(a, l, &run);
}

int
posed_limits(struct agenda *a)
{
    const struct fleet *f = a->facts->fleet;

    const void **order =
        posed_in_order(a, f->limits, f->n_limits, sizeof *f->limits);

    if (order == NULL)
        return -1;
    for (size_t i = 0; i < f->n_limits; i++)
        if (pose_limit(a, order[i]))
            return -1;
    return 0;
}
