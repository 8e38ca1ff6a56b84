#include "lay.h"

#include "choose.h"
#include "merge.h"
#include "rework.h"

/* How many single days are looked at, at most, in search of one for calls that
 * are late. */
#define LOOKS_MOST 1000000L

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

/* Put @i where it is sooner than it likes, on as late a day as can be. */
static int
place_sooner(struct planner *p, long i)
{
    day_t d = choose_sooner(p->t, i);
    int rc = timetable_hasten(p->t, i, DAY_FIRST);

    if (rc == 0 && d != DAY_NONE)
        rc = put(p->t, i, d);
    if (rc == 0)
        rc = room_make(p->room, i);
    if (rc == 0)
        return rework_days(p->problem, p->t, i, &p->looks);
    /* No sooner than that for the sake of fewer visits. */
    if (rc == 1 && timetable_hasten(p->t, i, timetable_item(p->t, i)->day))
        return -1;
    return rc;
}

static int
place_late(struct planner *p, long i)
{
    int rc = rework_days(p->problem, p->t, i, &p->looks);

    if (rc == 0 && timetable_item(p->t, i)->call.sooner > 0)
        rc = place_sooner(p, i);
    if (rc != 0)
        return rc;
    day_t d = choose_day(p->t, i);
    if (d == DAY_NONE)
        d = choose_kept_late(p->t, i);
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
    for (long i; (i = timetable_waiting(p->t)) >= 0;)
        if (place(p, i) < 0)
            return -1;
    return 0;
}

/* The first late item from @i on that nobody wanted so, or -1.  What is overdue
 * today is late whatever is done. */
static long
find_late(const struct timetable *t, long i)
{
    size_t n;
    const struct item *items = timetable_items(t, &n);

    for (; i < (long)n; i++)
        if (items[i].day > items[i].call.to &&
            items[i].day != items[i].call.fixed &&
            items[i].call.to >= timetable_first(t))
            return i;
    return -1;
}

size_t
lay_late(const struct timetable *t)
{
    size_t n = 0;

    for (long i = 0; (i = find_late(t, i)) >= 0; i++)
        n++;
    return n;
}

/* Look once more, now that all have a day, for one for each that is late. */
static int
look_again(struct planner *p)
{
    for (long i = 0; (i = find_late(p->t, i)) >= 0; i++) {
        int rc = room_make(p->room, i);
        if (rc == 0)
            rc = rework_days(p->problem, p->t, i, &p->looks);
        if (rc < 0)
            return -1;
    }
    return place_all(p);
}

static int
place_and_merge(struct planner *p)
{
    if (place_all(p))
        return -1;
    timetable_settle(p->t);
    if (merge_visits(p->problem, p->t))
        return -1;
    return place_all(p);
}

int
lay_out(const struct plan_problem *problem, struct timetable *t, struct room *r)
{
    struct planner p = {problem, t, r, LOOKS_MOST};

    return place_and_merge(&p);
}

int
lay_better(
    const struct plan_problem *problem, struct timetable *t, struct room *r)
{
    struct planner p = {problem, t, r, LOOKS_MOST};
    size_t late = lay_late(t);

    if (late == 0)
        return 0;
    timetable_settle(t);
    size_t mark = timetable_mark(t);
    if (look_again(&p))
        return -1;
    if (lay_late(t) < late)
        return place_and_merge(&p) ? -1 : 1;
    timetable_back(t, mark);
    return 0;
}

/* The first item from @i on that is overdue today and has a day that others
 * have left an earlier one than, which is @d; or -1. */
static long
find_overdue(const struct timetable *t, long i, day_t *d)
{
    size_t n;
    const struct item *items = timetable_items(t, &n);

    for (; i < (long)n; i++) {
        if (items[i].call.to >= timetable_first(t) ||
            items[i].day == DAY_NONE || items[i].day == items[i].call.fixed)
            continue;
        *d = choose_late(t, i);
        if (*d != DAY_NONE && *d < items[i].day)
            return i;
    }
    return -1;
}

int
lay_overdue(
    const struct plan_problem *problem, struct timetable *t, struct room *r)
{
    struct planner p = {problem, t, r, LOOKS_MOST};
    int moved = 0;
    day_t d;

    for (long i = 0; (i = find_overdue(t, i, &d)) >= 0; i++, moved = 1)
        if (timetable_withdraw(t, i) || timetable_force(t, i, d) < 0)
            return -1;
    return moved && place_all(&p) ? -1 : moved;
}

/* The day on which a plan before had item @i, or DAY_NONE when that is no day
 * for it now: one that is late, or sooner than the call likes, stays so. */
static day_t
held_day(const struct timetable *t, const struct item *item)
{
    day_t d = timetable_held(t, item);
    day_t first = item->call.from == DAY_NONE
                      ? DAY_NONE
                      : item->call.from - item->call.sooner;

    if (d == DAY_NONE || d < day_later(first, timetable_first(t)))
        return DAY_NONE;
    struct hindrance h = load_check(timetable_load(t), item->work, d);
    return h.limit == PLAN_FREE ? d : DAY_NONE;
}

/* Item @i where the plan before had it: 1, 0 or -1. */
static int
hold(struct timetable *t, struct room *r, long i)
{
    const struct item *item = timetable_item(t, i);

    if (item->turn == TURN_FIXED)
        return room_book(r, i, item->call.fixed);
    day_t d = held_day(t, item);
    if (d == DAY_NONE) {
        int nowhere = timetable_held(t, item) == DAY_NONE &&
                      choose_day(t, i) == DAY_NONE &&
                      choose_late(t, i) == DAY_NONE;
        return nowhere ? timetable_force(t, i, timetable_nowhere(t)) : 0;
    }
    if (d < item->call.from && timetable_hasten(t, i, d))
        return -1;
    return timetable_put(t, i, d);
}

int
lay_held(struct timetable *t, struct room *r)
{
    size_t mark = timetable_mark(t);
    int rc = 1;

    for (long i; rc == 1 && (i = timetable_waiting(t)) >= 0;)
        rc = hold(t, r, i);
    if (rc != 1)
        timetable_back(t, mark);
    return rc;
}
