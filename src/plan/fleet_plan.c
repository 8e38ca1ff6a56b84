#include "fleet_plan.h"

#include "plan_problem.h"

#include <stdlib.h>
#include <string.h>

static int
by_task_and_entry(const void *left, const void *right)
{
    const struct booked *a = left;
    const struct booked *b = right;

    if (a->task != b->task)
        return a->task < b->task ? -1 : 1;
    if (a->day != b->day)
        return a->day < b->day ? -1 : 1;
    return (a->id > b->id) - (a->id < b->id);
}

static int
by_task_and_day(const void *left, const void *right)
{
    const struct fleet_plan_day *a = left;
    const struct fleet_plan_day *b = right;

    if (a->task != b->task)
        return a->task < b->task ? -1 : 1;
    return (a->day > b->day) - (a->day < b->day);
}

/* A sorted copy in the arena, or NULL when memory is out. */
static void *
sorted(struct arena *a, const void *list, size_t n, size_t each,
    int (*order)(const void *, const void *))
{
    void *copy = arena_take(a, (n + 1) * each);

    if (copy == NULL)
        return NULL;
    if (n > 0)
        memcpy(copy, list, n * each);
    qsort(copy, n, each, order);
    return copy;
}

static int
by_work_and_cycle(const void *left, const void *right)
{
    const struct plan_booking *a = *(const struct plan_booking *const *)left;
    const struct plan_booking *b = *(const struct plan_booking *const *)right;

    if (a->work != b->work)
        return a->work < b->work ? -1 : 1;
    return (a->cycle > b->cycle) - (a->cycle < b->cycle);
}

static int
sort_bookings(struct fleet_plan *a)
{
    size_t n;
    const struct plan_booking *b = plan_bookings(a->plan, &n);

    a->by_work = arena_take(a->arena, (n + 1) * sizeof *a->by_work);
    if (a->by_work == NULL)
        return -1;
    for (size_t i = 0; i < n; i++)
        a->by_work[i] = &b[i];
    qsort(a->by_work, n, sizeof *a->by_work, by_work_and_cycle);
    return 0;
}

static int
make(struct fleet_plan *a)
{
    struct fleet_plan_options *o = &a->options;

    a->arena = arena_new();
    if (a->arena == NULL)
        return -1;
    a->fixed = sorted(
        a->arena, o->fixed, o->n_fixed, sizeof *a->fixed, by_task_and_entry);
    a->kept =
        sorted(a->arena, o->kept, o->n_kept, sizeof *a->kept, by_task_and_day);
    a->fixed_for = arena_take(a->arena, (o->n_fixed + 1) * sizeof(int));
    o->fixed = a->fixed; /* the caller's lists are his */
    o->kept = a->kept;
    a->forward = forward_new(a->facts);
    if (a->fixed == NULL || a->fixed_for == NULL || a->kept == NULL ||
        a->forward == NULL || plan_problem_make(a))
        return -1;
    a->plan = plan_new(&a->problem);
    return a->plan ? sort_bookings(a) : -1;
}

struct fleet_plan *
fleet_plan_new(
    const struct facts *facts, const struct fleet_plan_options *options)
{
    struct fleet_plan *a = calloc(1, sizeof *a);

    if (a == NULL)
        return NULL;
    a->facts = facts;
    a->options = *options;
    if (make(a) == 0)
        return a;
    fleet_plan_free(a);
    return NULL;
}

void
fleet_plan_free(struct fleet_plan *a)
{
    if (a == NULL)
        return;
    plan_free(a->plan);
    for (const struct cut_calendar *c = a->cut; c != NULL; c = c->next)
        work_calendar_free(c->made);
    forward_free(a->forward);
    arena_free(a->arena);
    free(a->done);
    free(a);
}

const struct fleet *
fleet_plan_fleet(const struct fleet_plan *a)
{
    return a->facts->fleet;
}

const struct fleet_plan_options *
fleet_plan_options(const struct fleet_plan *a)
{
    return &a->options;
}

const struct plan_problem *
fleet_plan_problem(const struct fleet_plan *a)
{
    return &a->problem;
}

const struct plan *
fleet_plan_solution(const struct fleet_plan *a)
{
    return a->plan;
}

const struct task *
fleet_plan_task(const struct fleet_plan *a, size_t work)
{
    return a->works[work].task;
}

const struct subject *
fleet_plan_subject(const struct fleet_plan *a, size_t work)
{
    return plan_problem_root(a->works[work].task->subject);
}

const struct subject *
fleet_plan_unit_subject(const struct fleet_plan *a, size_t unit)
{
    return a->subjects[unit];
}

int
fleet_plan_is_off_road(
    const struct fleet_plan *a, const struct subject *s, day_t d)
{
    return s->n_tasks > 0 && forward_is_off_road(a->forward, s->first_task, d);
}

/* The first booking in the order of work that is of @work or a later one. */
static size_t
first_of(const struct fleet_plan *a, size_t n, size_t work)
{
    size_t first = 0;

    while (first < n) {
        size_t middle = first + (n - first) / 2;
        if (a->by_work[middle]->work < work)
            first = middle + 1;
        else
            n = middle;
    }
    return first;
}

static size_t
work_of(const struct fleet_plan *a, const struct task *t)
{
    return a->work_of[t - a->facts->fleet->tasks];
}

const struct plan_booking *
fleet_plan_find(
    const struct fleet_plan *a, const struct task *t, day_t deadline)
{
    size_t n;
    size_t work = work_of(a, t);

    (void)plan_bookings(a->plan, &n);
    for (size_t i = first_of(a, n, work); i < n && a->by_work[i]->work == work;
         i++)
        if (a->by_work[i]->call.to == deadline)
            return a->by_work[i];
    return NULL;
}

const struct plan_booking *const *
fleet_plan_by_task(const struct fleet_plan *a, size_t *n)
{
    (void)plan_bookings(a->plan, n);
    return a->by_work;
}

day_t
fleet_plan_passed(const struct fleet_plan *a, const struct task *t)
{
    size_t work = work_of(a, t);

    return work != FLEET_PLAN_NO_WORK ? a->works[work].passed : DAY_NONE;
}

day_t
fleet_plan_failed(const struct fleet_plan *a, const struct plan_booking *b)
{
    return b->cycle == 0 ? a->works[b->work].failed : DAY_NONE;
}

const struct fleet_plan_covered *
fleet_plan_covered(const struct fleet_plan *a, size_t *n)
{
    *n = a->n_covered;
    return a->covered;
}

const struct plan_booking *
fleet_plan_wider(const struct fleet_plan *a, const struct fleet_plan_covered *c)
{
    size_t n;
    size_t work = work_of(a, c->with);
    (void)plan_bookings(a->plan, &n);
    size_t first = first_of(a, n, work);

    return first < n && a->by_work[first]->work == work ? a->by_work[first]
                                                        : NULL;
}

const struct booked *
fleet_plan_fixed(const struct fleet_plan *a, const struct plan_booking *b)
{
    const struct plan_task *w = &a->works[b->work];

    for (size_t i = w->first_fixed; i < w->first_fixed + w->n_fixed; i++)
        if (a->fixed[i].day == b->day && b->cause == PLAN_FIXED)
            return &a->fixed[i];
    return NULL;
}

const struct fleet_plan_undated *
fleet_plan_undated(const struct fleet_plan *a, size_t *n)
{
    *n = a->n_undated;
    return a->undated;
}
