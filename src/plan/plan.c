#include "plan.h"

#include "construct.h"
#include "plan_explain.h"

#include <stdlib.h>

struct plan {
    const struct plan_problem *problem;
    struct plan_booking *bookings;
    size_t n_bookings;
    struct plan_clash *clashes;
    size_t n_clashes;
};

static struct plan_booking
booking_of(const struct plan_problem *p, struct schedule *t, size_t i)
{
    const struct item *item = &t->items[i];
    struct plan_booking b = {
        .work = (size_t)(item->work - p->works),
        .unit = item->work->unit,
        .place = item->work->place,
        .cycle = item->cycle,
        .call = item->call,
        .day = item->day == schedule_nowhere(t) ? DAY_NONE : item->day,
        .on = DAY_NONE,
        .item = i,
    };

    plan_explain_booking(t, (long)i, &b);
    return b;
}

static int
by_day(const void *left, const void *right)
{
    const struct plan_booking *a = left;
    const struct plan_booking *b = right;

    if (a->day != b->day)
        return a->day < b->day ? -1 : 1;
    if (a->unit != b->unit)
        return a->unit < b->unit ? -1 : 1;
    if (a->work != b->work)
        return a->work < b->work ? -1 : 1;
    return (a->cycle > b->cycle) - (a->cycle < b->cycle);
}

/* Bookings name each other by their place in the list, not by their item. */
static int
link_bookings(struct plan *p, size_t n_items)
{
    size_t *where = malloc((n_items + 1) * sizeof *where);

    if (where == NULL)
        return -1;
    for (size_t i = 0; i < p->n_bookings; i++)
        where[p->bookings[i].item] = i;
    for (size_t i = 0; i < p->n_bookings; i++)
        if (p->bookings[i].cause == PLAN_TOGETHER)
            p->bookings[i].with = where[p->bookings[i].with];
    free(where);
    return 0;
}

/* The plan as the schedule has it: its bookings in their order, and for each
 * that is late what would help. */
static int
keep(struct plan *p, struct schedule *t, struct reassign *r)
{
    p->bookings = calloc(t->n + 1, sizeof *p->bookings);
    p->clashes = calloc(t->n + 1, sizeof *p->clashes);
    if (p->bookings == NULL || p->clashes == NULL)
        return -1;
    for (size_t i = 0; i < t->n; i++)
        if (t->items[i].day != DAY_NONE)
            p->bookings[p->n_bookings++] = booking_of(p->problem, t, i);
    qsort(p->bookings, p->n_bookings, sizeof *p->bookings, by_day);
    if (link_bookings(p, t->n))
        return -1;
    for (size_t i = 0; i < p->n_bookings; i++) {
        if (p->bookings[i].cause != PLAN_LATE)
            continue;
        struct plan_clash *c = &p->clashes[p->n_clashes++];
        c->booking = i;
        if (plan_explain_clash(t, r, (long)p->bookings[i].item, c))
            return -1;
    }
    return 0;
}

/* How often a plan is laid out again from its own days, at most. */
#define ROUNDS_MOST 4

/* A timetable with what is used to fill it. */
struct plan_draft {
    struct schedule *t;
    struct reassign *room;
};

static void
draft_free(struct plan_draft *d)
{
    reassign_free(d->room);
    schedule_free(d->t);
    *d = (struct plan_draft){NULL, NULL};
}

static int
draft_new(struct plan_draft *d, const struct plan_problem *p,
    const struct schedule *like)
{
    d->t = schedule_new(p, like);
    d->room = d->t ? reassign_new(p, d->t) : NULL;
    if (d->room != NULL)
        return 0;
    draft_free(d);
    return -1;
}

/*
 * Lay @out out: as the plan before had it where all of that still holds, and
 * better if that can be; else anew.  Returns 1 when it would be the same, laid
 * out once more from its own days; 0 when it may be another; -1 when memory is
 * out.
 */
static int
draft_make(struct plan_draft *out, const struct plan_problem *p,
    const struct schedule *like)
{
    if (draft_new(out, p, like))
        return -1;
    int rc = construct_held(out->t, out->room);
    int held = rc == 1;
    if (rc == 1)
        rc = construct_better(p, out->t, out->room);
    else if (rc == 0)
        rc = construct_anew(p, out->t, out->room);
    int moved = rc < 0 ? -1 : construct_overdue(p, out->t, out->room);
    if (moved < 0)
        return -1;
    return !moved && ((held && rc == 0) || construct_late(out->t) == 0);
}

/* A plan that settles: what is laid out from its own days is the same plan.
 * Else it would be another tomorrow though nothing has changed.  The one before
 * it is kept in @before, to which @out looks back. */
static int
draft_settled(struct plan_draft *out, struct plan_draft *before,
    const struct plan_problem *p)
{
    int rc = draft_make(out, p, NULL);

    for (int round = 0; rc == 0 && round < ROUNDS_MOST; round++) {
        draft_free(before);
        *before = *out;
        rc = draft_make(out, p, before->t);
    }
    return rc < 0 ? -1 : 0;
}

struct plan *
plan_new(const struct plan_problem *problem)
{
    struct plan *p = calloc(1, sizeof *p);
    struct plan_draft d = {NULL, NULL};
    struct plan_draft before = {NULL, NULL};

    if (p == NULL)
        return NULL;
    p->problem = problem;
    int rc = draft_settled(&d, &before, problem);
    if (rc == 0)
        rc = keep(p, d.t, d.room);
    draft_free(&d);
    draft_free(&before);
    if (rc == 0)
        return p;
    plan_free(p);
    return NULL;
}

void
plan_free(struct plan *p)
{
    if (p == NULL)
        return;
    free(p->bookings);
    free(p->clashes);
    free(p);
}

int
plan_is_late(const struct plan_booking *b)
{
    return b->day == DAY_NONE || b->day > b->call.to;
}

const struct plan_booking *
plan_bookings(const struct plan *p, size_t *n)
{
    *n = p->n_bookings;
    return p->bookings;
}

const struct plan_clash *
plan_clashes(const struct plan *p, size_t *n)
{
    *n = p->n_clashes;
    return p->clashes;
}

/* Nonzero when the booking @i is the first at its place of its unit's on that
 * day, which stand side by side. */
static int
begins_visit(const struct plan *p, size_t i)
{
    const struct plan_booking *b = &p->bookings[i];

    if (b->day == DAY_NONE)
        return 0;
    for (size_t k = i; k > 0; k--) {
        const struct plan_booking *other = &p->bookings[k - 1];
        if (other->day != b->day || other->unit != b->unit)
            break;
        if (other->place == b->place)
            return 0;
    }
    return 1;
}

size_t
plan_visits(const struct plan *p)
{
    size_t visits = 0;

    for (size_t i = 0; i < p->n_bookings; i++)
        visits += (size_t)begins_visit(p, i);
    return visits;
}
