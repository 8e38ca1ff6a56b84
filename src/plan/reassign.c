#include "reassign.h"

#include "choose.h"

#include <stdlib.h>

/* So many visits on one day are tried in turn. */
#define VISITS_MOST 64

/* So many moves are tried in one search, which keeps a hopeless one short; and
 * so many, each to make room for the last, keep the stack shallow. */
#define MOVES_MOST 4000
#define DEPTH_MOST 600

struct reassign {
    const struct plan_problem *problem;
    struct schedule *t;
    size_t days;
    unsigned *tried; /* by place and day: in which search */
    unsigned search;
    int moves; /* left in this search */
    int depth;
};

/* Items that stand in the way on one day: each begins a visit to be moved. */
struct blockers {
    long items[VISITS_MOST];
    size_t n;
};

struct reassign *
reassign_new(const struct plan_problem *p, struct schedule *t)
{
    struct reassign *r = calloc(1, sizeof *r);

    if (r == NULL)
        return NULL;
    r->problem = p;
    r->t = t;
    r->days = (size_t)(t->last - p->today) + 1;
    r->tried = calloc(p->n_places * r->days + 1, sizeof *r->tried);
    if (r->tried)
        return r;
    free(r);
    return NULL;
}

void
reassign_free(struct reassign *r)
{
    if (r == NULL)
        return;
    free(r->tried);
    free(r);
}

static int seat(struct reassign *r, long i, day_t d);

static unsigned *
tried(const struct reassign *r, const struct plan_work *w, day_t d)
{
    return &r->tried[w->place * r->days + (size_t)(d - r->problem->today)];
}

/* The last day that @item may be moved to: what is late anyway may wait. */
static day_t
last_for(const struct reassign *r, const struct item *item)
{
    return item->day > item->call.to ? r->t->last : item->call.to;
}

/* Put item @i on @d, or leave all as it is.  Its window may be another by now,
 * or it may not be called any more: the call before it may be among what was
 * moved. */
static int
put(struct reassign *r, long i, day_t d)
{
    size_t mark = r->t->n_log;
    const struct item *item = &r->t->items[i];

    if (r->moves-- <= 0 || !schedule_is_called(r->t, i) ||
        d < choose_from(r->t, item) || d > last_for(r, item))
        return 0;
    int rc = schedule_put(r->t, i, d);
    if (rc != 1)
        schedule_back(r->t, mark);
    return rc;
}

/* Room that is being made is not for those that are moved. */
static int
is_open_to(const struct reassign *r, const struct plan_work *w, day_t d)
{
    return *tried(r, w, d) != r->search &&
           load_check(r->t->load, w, d).limit == PLAN_FREE;
}

/* Move item @i, which is late, from the day @d to the next that is free. */
static int
move_late(struct reassign *r, long i, day_t d)
{
    const struct plan_work *w = r->t->items[i].work;
    int rc = 0;

    for (day_t to = d + 1; to <= r->t->last && rc == 0; to++)
        if (is_open_to(r, w, to))
            rc = put(r, i, to);
    return rc;
}

/* Move item @i off the day @d: to where its unit is anyway, to a free day, or
 * to one where others make room in turn. */
static int
move(struct reassign *r, long i, day_t d)
{
    const struct item item = r->t->items[i];
    day_t first = choose_from(r->t, &item);
    day_t together = choose_together(r->t, i, d);
    int rc = 0;

    if (item.call.fixed != DAY_NONE)
        return 0;
    if (item.day > item.call.to)
        return move_late(r, i, d);
    if (together != DAY_NONE)
        rc = put(r, i, together);
    for (day_t to = item.call.to; to >= first && rc == 0; to--)
        if (to != d && is_open_to(r, item.work, to))
            rc = put(r, i, to);
    for (day_t to = item.call.to; to >= first && rc == 0; to--)
        if (to != d)
            rc = seat(r, i, to);
    return rc;
}

/* Move everything that takes the unit of @item away on that day. */
static int
move_visit(struct reassign *r, size_t unit, day_t d)
{
    size_t mark = r->t->n_log;
    int rc = 1;

    for (long k = r->t->of[unit]; k >= 0 && rc == 1;) {
        const struct item *item = &r->t->items[k];
        long next = item->akin;
        if (item->day == d && !item->work->stays)
            rc = move(r, k, d);
        k = next;
    }
    if (rc != 1)
        schedule_back(r->t, mark);
    return rc;
}

static int
in_group(const struct plan_unit *u, size_t group)
{
    for (size_t i = 0; i < u->n_groups; i++)
        if (u->groups[i] == group)
            return 1;
    return 0;
}

/* Nonzero when moving @other would help @w against @h. */
static int
is_in_the_way(const struct reassign *r, const struct item *other,
    const struct plan_work *w, const struct hindrance *h)
{
    int own = other->work->unit == w->unit;

    switch (h->limit) {
    case PLAN_MINUTES:
        return other->work->place == w->place && other->work->minutes > 0;
    case PLAN_VEHICLES:
        return other->work->place == w->place && !own && !other->work->stays;
    case PLAN_ELSEWHERE:
        return own && other->work->place != w->place && !other->work->stays;
    case PLAN_AWAY:
        return !own && !other->work->stays &&
               in_group(&r->problem->units[other->work->unit], h->group);
    case PLAN_FREE:
    case PLAN_SHUT:
        break;
    }
    return 0;
}

static int
has_unit(const struct reassign *r, const struct blockers *b, size_t unit)
{
    for (size_t i = 0; i < b->n; i++)
        if (r->t->items[b->items[i]].work->unit == unit)
            return 1;
    return 0;
}

static void
find_at(const struct reassign *r, const struct plan_work *at,
    const struct plan_work *w, day_t d, const struct hindrance *h,
    struct blockers *b)
{
    for (long k = *schedule_head(r->t, at, d); k >= 0 && b->n < VISITS_MOST;
         k = r->t->items[k].beside) {
        const struct item *item = &r->t->items[k];
        int alone = h->limit == PLAN_MINUTES;
        if (is_in_the_way(r, item, w, h) &&
            (alone || !has_unit(r, b, item->work->unit)))
            b->items[b->n++] = k;
    }
}

/* Hours are at the same place; who is away may be anywhere. */
static void
find_blockers(const struct reassign *r, const struct plan_work *w, day_t d,
    const struct hindrance *h, struct blockers *b)
{
    b->n = 0;
    if (h->limit == PLAN_MINUTES || h->limit == PLAN_VEHICLES) {
        find_at(r, w, w, d, h, b);
        return;
    }
    for (size_t p = 0; p < r->problem->n_places; p++) {
        struct plan_work there = {.place = p};
        find_at(r, &there, w, d, h, b);
    }
}

/* Move one thing that hinders @w on @d: 1, 0 or -1. */
static int
clear(struct reassign *r, const struct plan_work *w, day_t d,
    const struct hindrance *h)
{
    struct blockers b;
    int rc = 0;

    find_blockers(r, w, d, h, &b);
    for (size_t i = 0; i < b.n && rc == 0; i++) {
        size_t unit = r->t->items[b.items[i]].work->unit;
        rc = h->limit == PLAN_MINUTES ? move(r, b.items[i], d)
                                      : move_visit(r, unit, d);
    }
    return rc;
}

/* Have item @i on @d, moving others as needed. */
static int
seat(struct reassign *r, long i, day_t d)
{
    const struct plan_work *w = r->t->items[i].work;
    size_t mark = r->t->n_log;
    int rc = 1;

    if (*tried(r, w, d) == r->search || r->depth == DEPTH_MOST)
        return 0;
    *tried(r, w, d) = r->search;
    r->depth++;
    while (rc == 1) {
        struct hindrance h = load_check(r->t->load, w, d);
        if (h.limit != PLAN_FREE)
            rc = clear(r, w, d, &h);
        else if ((rc = put(r, i, d)) == 1)
            break;
    }
    r->depth--;
    if (rc != 1)
        schedule_back(r->t, mark);
    return rc;
}

static void
begin(struct reassign *r)
{
    r->search++;
    r->moves = MOVES_MOST;
}

int
reassign_item(struct reassign *r, long i)
{
    const struct item item = r->t->items[i];
    day_t first = choose_from(r->t, &item);
    int rc = 0;

    begin(r);
    for (day_t d = item.call.to; d >= first && rc == 0; d--)
        rc = seat(r, i, d);
    return rc;
}

int
reassign_to(struct reassign *r, long i, day_t d)
{
    begin(r);
    return seat(r, i, d);
}

int
reassign_booked(struct reassign *r, long i, day_t d)
{
    const struct plan_work *w = r->t->items[i].work;
    int rc = 1;

    begin(r);
    while (rc == 1) {
        struct hindrance h = load_check_open(r->t->load, w, d);
        rc = h.limit == PLAN_FREE ? 0 : clear(r, w, d, &h);
    }
    if (rc < 0 || !schedule_is_called(r->t, i))
        return rc;
    return schedule_put(r->t, i, d) < 0 ? -1 : 1;
}
