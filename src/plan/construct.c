#include "construct.h"

#include "backtrack.h"
#include "choose.h"
#include "improve.h"

/* How many single days are looked at, at most, in search of one for calls that
 * are late. */
#define LOOKS_MOST 1000000L

/* What a plan is made with. */
struct planner {
    const struct plan_problem *problem;
    struct schedule *t;
    struct reassign *room;
    long looks; /* at days, left for all searches together */
};

/* The same for one that waits, though somebody's booking for the next call then
 * lies outside its window: 1 or -1. */
static int
force(struct schedule *t, long i, day_t d)
{
    return schedule_put(t, i, d) < 0 ? -1 : 1;
}

/* Put @i on @d, or leave all as it is. */
static int
put(struct schedule *t, long i, day_t d)
{
    size_t mark = t->n_log;
    int rc = schedule_put(t, i, d);

    if (rc != 1)
        schedule_back(t, mark);
    return rc;
}

/* Put @i where an earlier plan had it; or it waits for those that can be. */
static int
place_kept(struct planner *p, long i)
{
    day_t d = choose_kept(p->t, i);

    int rc = d == DAY_NONE ? 0 : put(p->t, i, d);

    if (rc == 0)
        schedule_defer(p->t, i, PHASE_OPEN);
    return rc;
}

/* Put @i on the best day that is free; else make room; or it is late. */
static int
place_open(struct planner *p, long i)
{
    day_t d = choose_day(p->t, i);

    int rc = d == DAY_NONE ? 0 : put(p->t, i, d);

    if (rc == 0)
        rc = reassign_item(p->room, i);
    if (rc == 0)
        schedule_defer(p->t, i, PHASE_LATE);
    return rc;
}

/* Put @i where it is sooner than it likes, on as late a day as can be. */
static int
place_sooner(struct planner *p, long i)
{
    day_t d = choose_sooner(p->t, i);
    int rc = schedule_hasten(p->t, i, DAY_FIRST);

    if (rc == 0 && d != DAY_NONE)
        rc = put(p->t, i, d);
    if (rc == 0)
        rc = reassign_item(p->room, i);
    if (rc == 0)
        return backtrack_item(p->problem, p->t, i, &p->looks);
    /* No sooner than that for the sake of fewer visits. */
    if (rc == 1 && schedule_hasten(p->t, i, p->t->items[i].day))
        return -1;
    return rc;
}

static int
place_late(struct planner *p, long i)
{
    int rc = backtrack_item(p->problem, p->t, i, &p->looks);

    if (rc == 0 && p->t->items[i].call.sooner > 0)
        rc = place_sooner(p, i);
    if (rc != 0)
        return rc;
    day_t d = choose_day(p->t, i);
    if (d == DAY_NONE)
        d = choose_kept_late(p->t, i);
    if (d == DAY_NONE)
        d = choose_late(p->t, i);
    return force(p->t, i, d == DAY_NONE ? schedule_nowhere(p->t) : d);
}

static int
place(struct planner *p, long i)
{
    const struct item *item = &p->t->items[i];

    switch (item->phase) {
    case PHASE_FIXED:
        return reassign_booked(p->room, i, item->call.fixed);
    case PHASE_KEPT:
        return place_kept(p, i);
    case PHASE_OPEN:
        return place_open(p, i);
    case PHASE_LATE:
        break;
    }
    return place_late(p, i);
}

static int
place_all(struct planner *p)
{
    for (long i; (i = queue_first(p->t->waiting)) >= 0;)
        if (place(p, i) < 0)
            return -1;
    return 0;
}

/* The first late item from @i on that nobody wanted so, or -1.  What is overdue
 * today is late whatever is done. */
static long
find_late(const struct schedule *t, long i)
{
    const struct item *items = t->items;

    for (; i < (long)t->n; i++)
        if (items[i].day > items[i].call.to &&
            items[i].day != items[i].call.fixed &&
            items[i].call.to >= t->problem->today)
            return i;
    return -1;
}

size_t
construct_late(const struct schedule *t)
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
        int rc = reassign_item(p->room, i);
        if (rc == 0)
            rc = backtrack_item(p->problem, p->t, i, &p->looks);
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
    p->t->n_log = 0;
    if (improve_visits(p->problem, p->t))
        return -1;
    return place_all(p);
}

int
construct_anew(
    const struct plan_problem *problem, struct schedule *t, struct reassign *r)
{
    struct planner p = {problem, t, r, LOOKS_MOST};

    return place_and_merge(&p);
}

int
construct_better(
    const struct plan_problem *problem, struct schedule *t, struct reassign *r)
{
    struct planner p = {problem, t, r, LOOKS_MOST};
    size_t late = construct_late(t);

    if (late == 0)
        return 0;
    t->n_log = 0;
    size_t mark = t->n_log;
    if (look_again(&p))
        return -1;
    if (construct_late(t) < late)
        return place_and_merge(&p) ? -1 : 1;
    schedule_back(t, mark);
    return 0;
}

/* The first item from @i on that is overdue today and has a day that others
 * have left an earlier one than, which is @d; or -1. */
static long
find_overdue(const struct schedule *t, long i, day_t *d)
{
    const struct item *items = t->items;

    for (; i < (long)t->n; i++) {
        if (items[i].call.to >= t->problem->today || items[i].day == DAY_NONE ||
            items[i].day == items[i].call.fixed)
            continue;
        *d = choose_late(t, i);
        if (*d != DAY_NONE && *d < items[i].day)
            return i;
    }
    return -1;
}

int
construct_overdue(
    const struct plan_problem *problem, struct schedule *t, struct reassign *r)
{
    struct planner p = {problem, t, r, LOOKS_MOST};
    int moved = 0;
    day_t d;

    for (long i = 0; (i = find_overdue(t, i, &d)) >= 0; i++, moved = 1)
        if (schedule_withdraw(t, i) || force(t, i, d) < 0)
            return -1;
    return moved && place_all(&p) ? -1 : moved;
}

/* The day on which a plan before had item @i, or DAY_NONE when that is no day
 * for it now: one that is late, or sooner than the call likes, stays so. */
static day_t
held_day(const struct schedule *t, const struct item *item)
{
    day_t d = schedule_held(t, item);
    day_t first = item->call.from == DAY_NONE
                      ? DAY_NONE
                      : item->call.from - item->call.sooner;

    if (d == DAY_NONE || d < day_later(first, t->problem->today))
        return DAY_NONE;
    struct hindrance h = load_check(t->load, item->work, d);
    return h.limit == PLAN_FREE ? d : DAY_NONE;
}

/* Item @i where the plan before had it: 1, 0 or -1. */
static int
hold(struct schedule *t, struct reassign *r, long i)
{
    const struct item *item = &t->items[i];

    if (item->phase == PHASE_FIXED)
        return reassign_booked(r, i, item->call.fixed);
    day_t d = held_day(t, item);
    if (d == DAY_NONE) {
        int nowhere = schedule_held(t, item) == DAY_NONE &&
                      choose_day(t, i) == DAY_NONE &&
                      choose_late(t, i) == DAY_NONE;
        return nowhere ? force(t, i, schedule_nowhere(t)) : 0;
    }
    if (d < item->call.from && schedule_hasten(t, i, d))
        return -1;
    return schedule_put(t, i, d);
}

int
construct_held(struct schedule *t, struct reassign *r)
{
    size_t mark = t->n_log;
    int rc = 1;

    for (long i; rc == 1 && (i = queue_first(t->waiting)) >= 0;)
        rc = hold(t, r, i);
    if (rc != 1)
        schedule_back(t, mark);
    return rc;
}
