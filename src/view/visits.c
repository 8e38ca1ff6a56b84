#include "visits.h"

#include <stdlib.h>

static int
by_visit(const void *left, const void *right)
{
    const struct plan_booking *a = *(const struct plan_booking *const *)left;
    const struct plan_booking *b = *(const struct plan_booking *const *)right;

    if (a->day != b->day)
        return a->day < b->day ? -1 : 1;
    if (a->place != b->place)
        return a->place < b->place ? -1 : 1;
    if (a->unit != b->unit)
        return a->unit < b->unit ? -1 : 1;
    if (a->work != b->work)
        return a->work < b->work ? -1 : 1;
    return (a->cycle > b->cycle) - (a->cycle < b->cycle);
}

static int
is_at(const struct visit *v, const struct plan_booking *b)
{
    return b->day == v->day && b->place == v->place && b->unit == v->unit;
}

/* Each visit is a run of the bookings in their order. */
static void
fill(const struct plan_problem *p, size_t n, struct visits *out)
{
    for (size_t i = 0; i < n; i++) {
        const struct plan_booking *b = out->bookings[i];
        if (i == 0 || !is_at(&out->list[out->n - 1], b))
            out->list[out->n++] = (struct visit){
                .day = b->day,
                .unit = b->unit,
                .place = b->place,
                .stays = 1,
                .bookings = &out->bookings[i],
            };
        struct visit *v = &out->list[out->n - 1];
        v->stays &= p->works[b->work].stays;
        v->minutes += p->works[b->work].minutes;
        v->late |= plan_is_late(b);
        v->fixed |= b->cause == PLAN_FIXED;
        v->n++;
    }
}

int
visits_make(const struct fleet_plan *a, struct visits *out)
{
    size_t n;
    size_t dated = 0;
    const struct plan_booking *b = plan_bookings(fleet_plan_solution(a), &n);

    *out = (struct visits){NULL, 0, NULL};
    out->list = malloc((n + 1) * sizeof *out->list);
    out->bookings = malloc((n + 1) * sizeof *out->bookings);
    if (out->list == NULL || out->bookings == NULL) {
        visits_free(out);
        return -1;
    }
    for (size_t i = 0; i < n; i++)
        if (b[i].day != DAY_NONE)
            out->bookings[dated++] = &b[i];
    qsort(out->bookings, dated, sizeof *out->bookings, by_visit);
    fill(fleet_plan_problem(a), dated, out);
    return 0;
}

void
visits_free(struct visits *v)
{
    free(v->list);
    free(v->bookings);
    *v = (struct visits){NULL, 0, NULL};
}
