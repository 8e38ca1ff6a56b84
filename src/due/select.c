#include "select.h"

#include <stdlib.h>

/* Equipment belongs to what carries it. */
static int
is_or_is_carried_by(const struct subject *s, const void *which)
{
    for (; s != NULL; s = s->carrier)
        if (s == which)
            return 1;
    return 0;
}

/* @v, and no due of it; for a person it ends as below. */
static int
vehicle_in_scope(const struct scope *scope, const struct subject *v)
{
    const struct person *p = scope->which;

    if (scope->kind == SCOPE_DEPOT)
        return fleet_depot(v) == scope->which;
    if (scope->kind == SCOPE_SUBJECT)
        return is_or_is_carried_by(scope->which, v);
    for (size_t i = 0; scope->kind == SCOPE_PERSON && i < p->n_told; i++)
        if (vehicle_in_scope(&p->told[i], v))
            return 1;
    return scope->kind == SCOPE_ALL;
}

int
select_vehicle(const struct filter *f, const struct subject *v)
{
    if (f->subject != NULL && !is_or_is_carried_by(f->subject, v))
        return 0;
    if (f->depot != NULL && fleet_depot(v) != f->depot)
        return 0;
    for (size_t i = 0; i < f->n_scopes; i++)
        if (vehicle_in_scope(&f->scopes[i], v))
            return 1;
    return f->n_scopes == 0;
}

/* A person is told of no person, so this ends. */
static int
told_of(const struct person *p, const struct due *d)
{
    for (size_t i = 0; i < p->n_told; i++)
        if (select_in_scope(&p->told[i], d))
            return 1;
    return 0;
}

int
select_in_scope(const struct scope *scope, const struct due *d)
{
    const struct task *t = d->task;

    switch (scope->kind) {
    case SCOPE_ALL:
        return 1;
    case SCOPE_DEPOT:
        return fleet_depot(t->subject) == scope->which;
    case SCOPE_SUBJECT:
        return is_or_is_carried_by(t->subject, scope->which);
    case SCOPE_JOB:
        return t->job == scope->which;
    case SCOPE_PERSON:
        return told_of(scope->which, d);
    }
    return 0;
}

static int
in_scopes(const struct filter *f, const struct due *d)
{
    for (size_t i = 0; i < f->n_scopes; i++)
        if (select_in_scope(&f->scopes[i], d))
            return 1;
    return f->n_scopes == 0;
}

static int
in_time(const struct filter *f, const struct due *d)
{
    day_t day = due_day(d);

    if (f->until == 0 || f->until == DAY_NONE || day == DAY_NONE)
        return 1;
    if (d->cycle.ahead == 0 &&
        (d->besides == DUE_NEEDS_READING || d->state == DUE_FAILED))
        return 1;
    /* What was last done on a day to come has to be seen now.  Calendars, which
     * have cycles to come, stay calm when the clock errs. */
    return day <= f->until || (!f->projected && d->warnings & WARN_DONE_LATER);
}

/* While one cycle is overdue, those projected from it may lie in the past; and
 * those far ahead are there for somebody who looks further. */
static int
still_to_come(const struct filter *f, const struct due *d)
{
    return due_day(d) >= f->from && (f->to == 0 || due_day(d) <= f->to);
}

static int
wanted(const struct filter *f, const struct due *d)
{
    const struct subject *s = d->task->subject;

    if (d->cycle.ahead > 0 && !(f->projected && still_to_come(f, d)))
        return 0;
    if (f->subject != NULL && !is_or_is_carried_by(s, f->subject))
        return 0;
    if (f->job != NULL && d->task->job != f->job)
        return 0;
    if (f->depot != NULL && fleet_depot(s) != f->depot)
        return 0;
    if (f->states != 0 && !(f->states >> d->state & 1u))
        return 0;
    return in_scopes(f, d) && in_time(f, d);
}

int
select_dues(const struct snapshot *s, const struct filter *filter,
    struct selection *out)
{
    size_t n;
    const struct due *dues = snapshot_dues(s, &n);

    *out = (struct selection){.of = s};
    out->dues = malloc((n ? n : 1) * sizeof *out->dues);
    if (out->dues == NULL)
        return -1;
    for (size_t i = 0; i < n; i++)
        if (wanted(filter, &dues[i]))
            out->dues[out->n++] = &dues[i];
    return 0;
}
