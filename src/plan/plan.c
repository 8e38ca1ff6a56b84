#include "plan.h"

#include "cause.h"
#include "choose.h"
#include "merge.h"
#include "room.h"
#include "search.h"

#include <stdlib.h>

/* How often a plan is searched for calls that are late. */
#define SEARCHES_MOST 40

struct plan {
    const struct plan_problem *problem;
    struct plan_booking *bookings;
    size_t n_bookings;
    struct plan_clash *clashes;
    size_t n_clashes;
};

/* Where a booking comes from, while the bookings are put in order. */
struct origin {
    struct plan_booking booking;
    long item;
};

/* Put @i on the best day that is free; else make room; else it is late. */
static int
place(struct timetable *t, struct room *r, long i)
{
    day_t d = choose_day(t, i);

    if (d == DAY_NONE) {
        int rc = room_make(r, i);
        if (rc != 0)
            return rc;
        d = choose_late(t, i);
    }
    return timetable_put(t, i, d == DAY_NONE ? timetable_last(t) : d);
}

static int
place_all(struct timetable *t, struct room *r)
{
    for (long i; (i = timetable_waiting(t)) >= 0;) {
        if (place(t, r, i) < 0)
            return -1;
        timetable_settle(t);
    }
    return 0;
}

static struct plan_booking
booking_of(struct plan *p, struct timetable *t, long i)
{
    const struct item *item = timetable_item(t, i);
    struct plan_booking b = {
        .work = (size_t)(item->work - p->problem->works),
        .cycle = item->cycle,
        .call = item->call,
        .day = item->day,
        .on = DAY_NONE,
    };

    cause_of(t, i, &b);
    return b;
}

static int
by_day(const void *left, const void *right)
{
    const struct plan_booking *a = &((const struct origin *)left)->booking;
    const struct plan_booking *b = &((const struct origin *)right)->booking;

    if (a->day != b->day)
        return a->day < b->day ? -1 : 1;
    if (a->work != b->work)
        return a->work < b->work ? -1 : 1;
    return (a->cycle > b->cycle) - (a->cycle < b->cycle);
}

/* Bookings name each other by their place in the list, not by their item. */
static int
link_bookings(struct plan *p, struct timetable *t, const struct origin *from,
    size_t n_items)
{
    size_t *where = malloc((n_items + 1) * sizeof *where);

    if (where == NULL)
        return -1;
    for (size_t i = 0; i < p->n_bookings; i++)
        where[from[i].item] = i;
    for (size_t i = 0; i < p->n_bookings; i++) {
        struct plan_booking *b = &p->bookings[i];
        *b = from[i].booking;
        if (b->cause == PLAN_TOGETHER)
            b->with = where[b->with];
        if (b->cause != PLAN_LATE)
            continue;
        struct plan_clash *c = &p->clashes[p->n_clashes++];
        c->booking = i;
        cause_cure(t, from[i].item, c);
    }
    free(where);
    return 0;
}

static int
keep(struct plan *p, struct timetable *t)
{
    size_t n_items;
    (void)timetable_items(t, &n_items);
    struct origin *from = malloc((n_items + 1) * sizeof *from);
    p->bookings = malloc((n_items + 1) * sizeof *p->bookings);
    p->clashes = malloc((n_items + 1) * sizeof *p->clashes);
    int rc = -1;

    if (from == NULL || p->bookings == NULL || p->clashes == NULL)
        goto out;
    p->n_bookings = 0;
    for (size_t i = 0; i < n_items; i++)
        if (timetable_item(t, (long)i)->day != DAY_NONE)
            from[p->n_bookings++] =
                (struct origin){booking_of(p, t, (long)i), (long)i};
    qsort(from, p->n_bookings, sizeof *from, by_day);
    rc = link_bookings(p, t, from, n_items);
out:
    free(from);
    return rc;
}

/* The first late item from @i on that nobody wanted so, or -1. */
static long
find_late(const struct timetable *t, long i)
{
    size_t n;
    const struct item *items = timetable_items(t, &n);

    for (; i < (long)n; i++)
        if (items[i].day > items[i].call.to &&
            items[i].day != items[i].call.fixed)
            return i;
    return -1;
}

/* Look again, and further, for a day for each that is late. */
static int
mend(const struct plan_problem *p, struct timetable *t)
{
    int left = SEARCHES_MOST;

    for (long i = 0; (i = find_late(t, i)) >= 0 && left-- > 0; i++) {
        if (search_days(p, t, i) < 0)
            return -1;
        timetable_settle(t);
    }
    return 0;
}

static int
lay_out(const struct plan_problem *p, struct timetable *t)
{
    struct room *r = room_new(p, t);
    int rc = -1;

    if (r == NULL)
        return -1;
    if (place_all(t, r) || mend(p, t) || merge_visits(p, t))
        goto out;
    rc = place_all(t, r);
out:
    room_free(r);
    return rc;
}

struct plan *
plan_new(const struct plan_problem *problem)
{
    struct plan *p = calloc(1, sizeof *p);
    struct timetable *t = timetable_new(problem);
    int rc = -1;

    if (p == NULL || t == NULL)
        goto out;
    p->problem = problem;
    if (lay_out(problem, t) == 0)
        rc = keep(p, t);
out:
    timetable_free(t);
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

/* Bookings of one unit, place and day need not stand side by side. */
size_t
plan_visits(const struct plan *p)
{
    size_t visits = 0;

    for (size_t i = 0; i < p->n_bookings; i++) {
        const struct plan_booking *b = &p->bookings[i];
        const struct plan_work *w = &p->problem->works[b->work];
        int first = 1;
        for (size_t k = i; k > 0 && first; k--) {
            const struct plan_booking *other = &p->bookings[k - 1];
            const struct plan_work *v = &p->problem->works[other->work];
            if (other->day != b->day)
                break;
            first = v->unit != w->unit || v->place != w->place;
        }
        visits += (size_t)first;
    }
    return visits;
}
