#include "plan.h"

#include "cause.h"
#include "choose.h"
#include "merge.h"
#include "room.h"
#include "search.h"

#include <stdlib.h>

/* How many single days are looked at, at most, in search of one for calls that
 * are late, and how often merging and mending take turns. */
#define LOOKS_MOST 3000000L
#define ROUNDS_MOST 4

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
    size_t unit;
    long item;
};

/* What a plan is made with. */
struct planner {
    const struct plan_problem *problem;
    struct timetable *t;
    struct room *room;
    long looks; /* at days, left for all searches together */
};

/* Put @i on @d, or leave all as it is. */
static int
put(struct timetable *t, long i, day_t d)
{
    size_t mark = timetable_mark(t);
    int rc = timetable_put(t, i, d);

    if (rc != 1)
        timetable_back(t, mark);
    return rc;
}

/* Put @i where an earlier plan had it; or it waits for those that can be. */
static int
place_kept(struct planner *p, long i)
{
    day_t d = choose_kept(p->t, i);

    int rc = d == DAY_NONE ? 0 : put(p->t, i, d);

    if (rc == 0)
        timetable_defer(p->t, i, TURN_OPEN);
    return rc;
}

/* Put @i on the best day that is free; else make room; or it is late. */
static int
place_open(struct planner *p, long i)
{
    day_t d = choose_day(p->t, i);

    int rc = d == DAY_NONE ? 0 : put(p->t, i, d);

    if (rc == 0)
        rc = room_make(p->room, i);
    if (rc == 0)
        timetable_defer(p->t, i, TURN_LATE);
    return rc;
}

static int
place_late(struct planner *p, long i)
{
    int rc = search_days(p->problem, p->t, i, &p->looks);

    if (rc != 0)
        return rc;
    day_t d = choose_day(p->t, i);
    if (d == DAY_NONE)
        d = choose_late(p->t, i);
    return timetable_force(
        p->t, i, d == DAY_NONE ? timetable_nowhere(p->t) : d);
}

static int
place(struct planner *p, long i)
{
    const struct item *item = timetable_item(p->t, i);

    switch (item->turn) {
    case TURN_FIXED:
        return room_book(p->room, i, item->call.fixed);
    case TURN_KEPT:
        return place_kept(p, i);
    case TURN_OPEN:
        return place_open(p, i);
    case TURN_LATE:
        break;
    }
    return place_late(p, i);
}

static int
place_all(struct planner *p)
{
    for (long i; (i = timetable_waiting(p->t)) >= 0;) {
        if (place(p, i) < 0)
            return -1;
        timetable_settle(p->t);
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
        .day = item->day == timetable_nowhere(t) ? DAY_NONE : item->day,
        .on = DAY_NONE,
    };

    cause_of(t, i, &b);
    return b;
}

static int
by_day(const void *left, const void *right)
{
    const struct origin *one = left;
    const struct origin *other = right;
    const struct plan_booking *a = &one->booking;
    const struct plan_booking *b = &other->booking;

    if (a->day != b->day)
        return a->day < b->day ? -1 : 1;
    if (one->unit != other->unit)
        return one->unit < other->unit ? -1 : 1;
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
                (struct origin){booking_of(p, t, (long)i),
                    timetable_item(t, (long)i)->work->unit, (long)i};
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

/* Look once more, now that all have a day, for one for each that is late.
 * Returns how many found one, or -1. */
static int
mend(struct planner *p)
{
    int mended = 0;

    for (long i = 0; (i = find_late(p->t, i)) >= 0; i++) {
        int rc = room_make(p->room, i);
        if (rc == 0)
            rc = search_days(p->problem, p->t, i, &p->looks);
        if (rc < 0)
            return -1;
        mended += rc;
        timetable_settle(p->t);
    }
    return mended;
}

static int
lay_out(const struct plan_problem *problem, struct timetable *t)
{
    struct planner p = {problem, t, room_new(problem, t), LOOKS_MOST};
    int rc = p.room ? 1 : -1;

    for (int round = 0; rc > 0 && round < ROUNDS_MOST; round++) {
        rc = place_all(&p);
        if (rc == 0)
            rc = merge_visits(problem, t);
        if (rc == 0)
            rc = place_all(&p);
        if (rc == 0)
            rc = mend(&p);
    }
    if (rc > 0)
        rc = place_all(&p);
    room_free(p.room);
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

/* Nonzero when the booking @i is the first at its place of its unit's on that
 * day, which stand side by side. */
static int
begins_visit(const struct plan *p, size_t i)
{
    const struct plan_work *works = p->problem->works;
    const struct plan_booking *b = &p->bookings[i];

    if (b->day == DAY_NONE)
        return 0;
    for (size_t k = i; k > 0; k--) {
        const struct plan_booking *other = &p->bookings[k - 1];
        if (other->day != b->day ||
            works[other->work].unit != works[b->work].unit)
            break;
        if (works[other->work].place == works[b->work].place)
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
