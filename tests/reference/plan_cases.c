/*
 * Work out the plans of problems given as numbers, for a solver from outside
 * to be held against.  Each problem on the standard input is
 *
 *   N_PLACES N_GROUPS N_UNITS N_WORKS DAYS
 *   places:  VEHICLES MINUTES
 *   groups:  AWAY N UNIT...
 *   works:   UNIT PLACE MINUTES STAYS CYCLES FROM TO GAP_FROM GAP_TO OPEN
 *
 * where OPEN is a word of a 0 or 1 for each of the seven days of a week, and
 * the cycle after one done on day d has the window d + GAP_FROM to d + GAP_TO.
 * The answer is a line "LATE VISITS", then "WORK CYCLE DAY" for each booking.
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
};

struct problem {
    struct plan_problem plan;
    struct plan_place places[MOST];
    struct plan_group groups[MOST];
    struct plan_unit units[MOST];
    size_t groups_of[MOST][MOST];
    struct plan_work works[MOST];
    struct cycle_rule rules[MOST];
    struct workcal *calendars[MOST];
};

static int
next_call(
    void *with, size_t work, const day_t *done, size_t n, struct plan_call *out)
{
    const struct cycle_rule *r = &((struct problem *)with)->rules[work];

    if (n >= r->cycles)
        return 0;
    *out = (struct plan_call){r->from, r->to, DAY_NONE, DAY_NONE};
    if (n > 0) {
        out->from = done[n - 1] + r->gap_from;
        out->to = done[n - 1] + r->gap_to;
    }
    return 1;
}

static int
read_work(struct problem *p, size_t i)
{
    struct plan_work *w = &p->works[i];
    struct cycle_rule *r = &p->rules[i];
    char open[8];
    struct workcal_plan plan = {0};

    if (scanf("%zu %zu %d %d %zu %d %d %d %d %7s", &w->unit, &w->place,
            &w->minutes, &w->stays, &r->cycles, &r->from, &r->to, &r->gap_from,
            &r->gap_to, open) != 10)
        return -1;
    for (unsigned day = 0; day < 7; day++)
        plan.works |= (weekdays_t)(open[day] == '1') << day;
    p->calendars[i] = workcal_new(&plan);
    w->open = p->calendars[i];
    return w->open ? 0 : -1;
}

static int
read_group(struct problem *p, size_t i)
{
    size_t n;

    if (scanf("%d %zu", &p->groups[i].away, &n) != 2)
        return -1;
    for (size_t k = 0; k < n; k++) {
        size_t unit;
        if (scanf("%zu", &unit) != 1 || unit >= MOST)
            return -1;
        struct plan_unit *u = &p->units[unit];
        p->groups_of[unit][u->n_groups++] = i;
        u->groups = p->groups_of[unit];
    }
    return 0;
}

/* 1, or 0 at the end of the input, or -1. */
static int
read_problem(struct problem *p)
{
    struct plan_problem *q = &p->plan;

    memset(p, 0, sizeof *p);
    if (scanf("%zu %zu %zu %zu %d", &q->n_places, &q->n_groups, &q->n_units,
            &q->n_works, &q->until) != 5)
        return 0;
    if (q->n_places > MOST || q->n_groups > MOST || q->n_units > MOST ||
        q->n_works > MOST)
        return -1;
    q->places = p->places;
    q->groups = p->groups;
    q->units = p->units;
    q->works = p->works;
    q->next = next_call;
    q->with = p;
    for (size_t i = 0; i < q->n_places; i++)
        if (scanf("%d %d", &p->places[i].vehicles, &p->places[i].minutes) != 2)
            return -1;
    for (size_t i = 0; i < q->n_groups; i++)
        if (read_group(p, i))
            return -1;
    for (size_t i = 0; i < q->n_works; i++)
        if (read_work(p, i))
            return -1;
    return 1;
}

static int
answer(struct problem *p)
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
        printf("%zu %zu %d\n", b[i].work, b[i].cycle, b[i].day);
    plan_free(plan);
    for (size_t i = 0; i < p->plan.n_works; i++)
        workcal_free(p->calendars[i]);
    return 0;
}

int
main(void)
{
    static struct problem p;
    int rc;

    while ((rc = read_problem(&p)) > 0)
        if (answer(&p))
            return 1;
    return rc < 0;
}
