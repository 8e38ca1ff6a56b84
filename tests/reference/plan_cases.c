/*
 * Work out the plans of problems given as numbers, for a solver from outside
 * to be held against.  Days are numbers from 0, which is today.  Each problem
 * on the standard input is
 *
 *   PLACES GROUPS UNITS CALENDARS WORKS UNTIL
 *   calendars:  OPEN N CLOSED...
 *   places:     VEHICLES MINUTES
 *   groups:     AWAY CALENDAR N UNIT...
 *   works:      UNIT PLACE MINUTES STAYS CALENDAR CYCLES FROM TO GAP_FROM
 * GAP_TO N (CYCLE DAY)...
 *
 * where OPEN is a number of seven bits, Monday lowest, CALENDAR counts from 0
 * and is -1 for a group that holds on all days, the first call has the window
 * FROM to TO, the one after a day d has d + GAP_FROM to d + GAP_TO, and those
 * cycles are booked for those days.  The answer is a line
 * "BOOKINGS LATE VISITS", then "WORK CYCLE DAY" for each booking, with "-" for
 * no day.
 */
#include "plan.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MOST 64

struct cycle_rule {
    size_t cycles;
    day_t from;
    day_t to;
    day_t gap_from;
    day_t gap_to;
    day_t fixed[MOST];
};

struct problem {
    struct plan_problem plan;
    struct plan_place places[MOST];
    struct plan_group groups[MOST];
    struct plan_unit units[MOST];
    size_t groups_of[MOST][MOST];
    struct plan_work works[MOST];
    struct cycle_rule rules[MOST];
    struct work_calendar *calendars[MOST];
    size_t n_calendars;
};

/* The next number of the input, which has to be from @least to @most. */
static long
number(long least, long most)
{
    long n;

    if (scanf("%ld", &n) != 1 || n < least || n > most) {
        fputs("plan_cases: not a problem\n", stderr);
        exit(1);
    }
    return n;
}

static size_t
count(void)
{
    return (size_t)number(0, MOST);
}

static day_t
day(void)
{
    return (day_t)number(-10000, 10000);
}

static int
next_call(
    void *with, size_t work, const day_t *done, size_t n, struct plan_call *out)
{
    const struct cycle_rule *r = &((struct problem *)with)->rules[work];

    if (n >= r->cycles)
        return 0;
    *out = (struct plan_call){r->from, r->to, r->fixed[n], DAY_NONE, 0};
    if (n > 0) {
        out->from = done[n - 1] + r->gap_from;
        out->to = done[n - 1] + r->gap_to;
    }
    return 1;
}

static struct work_calendar *
read_calendar(void)
{
    struct named_day closed[MOST];
    struct work_calendar_plan plan = {
        .works = (weekdays_t)number(0, WEEKDAYS_ALL)};

    plan.closed = closed;
    plan.n_closed = count();
    for (size_t i = 0; i < plan.n_closed; i++)
        closed[i] = (struct named_day){.day = day(), .name = "closed"};
    struct work_calendar *c = work_calendar_new(&plan);
    if (c == NULL)
        exit(1);
    return c;
}

static void
read_group(struct problem *p, size_t i)
{
    struct plan_group *g = &p->groups[i];

    g->away = (int)count();
    long calendar = number(-1, MOST - 1);
    g->on = calendar < 0 ? NULL : p->calendars[calendar];
    for (size_t n = count(); n > 0; n--) {
        size_t unit = count() % MOST;
        struct plan_unit *u = &p->units[unit];
        p->groups_of[unit][u->n_groups++] = i;
        u->groups = p->groups_of[unit];
    }
}

static void
read_work(struct problem *p, size_t i)
{
    struct plan_work *w = &p->works[i];
    struct cycle_rule *r = &p->rules[i];

    w->unit = count();
    w->place = count();
    w->minutes = (int)number(0, 1440);
    w->stays = (int)number(0, 1);
    w->open = p->calendars[number(0, MOST - 1)];
    r->cycles = count();
    r->from = day();
    r->to = day();
    r->gap_from = day();
    r->gap_to = day();
    for (size_t cycle = 0; cycle < MOST; cycle++)
        r->fixed[cycle] = DAY_NONE;
    for (size_t n = count(); n > 0; n--) {
        size_t cycle = count() % MOST;
        r->fixed[cycle] = day();
    }
}

/* 1, or 0 at the end of the input. */
static int
read_problem(struct problem *p)
{
    struct plan_problem *q = &p->plan;

    memset(p, 0, sizeof *p);
    if (scanf("%zu", &q->n_places) != 1)
        return 0;
    q->n_groups = count();
    q->n_units = count();
    p->n_calendars = count();
    q->n_works = count();
    q->until = day();
    q->places = p->places;
    q->groups = p->groups;
    q->units = p->units;
    q->works = p->works;
    q->next = next_call;
    q->with = p;
    for (size_t i = 0; i < p->n_calendars; i++)
        p->calendars[i] = read_calendar();
    for (size_t i = 0; i < q->n_places; i++) {
        p->places[i].vehicles = (int)count();
        p->places[i].minutes = (int)number(0, 1440);
    }
    for (size_t i = 0; i < q->n_groups; i++)
        read_group(p, i);
    for (size_t i = 0; i < q->n_works; i++)
        read_work(p, i);
    return 1;
}

static int
answer(const struct problem *p)
{
    struct plan *plan = plan_new(&p->plan);
    size_t n;
    size_t late;

    if (plan == NULL)
        return -1;
    const struct plan_booking *b = plan_bookings(plan, &n);
    (void)plan_clashes(plan, &late);
    printf("%zu %zu %zu\n", n, late, plan_visits(plan));
    for (size_t i = 0; i < n; i++)
        if (b[i].day == DAY_NONE)
            printf("%zu %zu -\n", b[i].work, b[i].cycle);
        else
            printf("%zu %zu %d\n", b[i].work, b[i].cycle, b[i].day);
    plan_free(plan);
    return 0;
}

int
main(void)
{
    static struct problem p;

    while (read_problem(&p)) {
        if (answer(&p))
            return 1;
        for (size_t i = 0; i < p.n_calendars; i++)
            work_calendar_free(p.calendars[i]);
    }
    return 0;
}
