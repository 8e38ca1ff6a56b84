#include "visit.h"

#include <stdlib.h>

/* A booking with what puts it in order. */
struct entry {
    const struct plan_booking *booking;
    size_t place;
    size_t unit;
};

static int
by_visit(const void *left, const void *right)
{
    const struct entry *a = left;
    const struct entry *b = right;

    if (a->booking->day != b->booking->day)
        return a->booking->day < b->booking->day ? -1 : 1;
    if (a->place != b->place)
        return a->place < b->place ? -1 : 1;
    if (a->unit != b->unit)
        return a->unit < b->unit ? -1 : 1;
    if (a->booking->work != b->booking->work)
        return a->booking->work < b->booking->work ? -1 : 1;
    return (a->booking->cycle > b->booking->cycle) -
           (a->booking->cycle < b->booking->cycle);
}

static int
is_same(const struct entry *a, const struct entry *b)
{
    return a->booking->day == b->booking->day && a->place == b->place &&
           a->unit == b->unit;
}

static void
add(struct visit *v, const struct plan_problem *p, const struct entry *e)
{
    const struct plan_work *w = &p->works[e->booking->work];

    v->stays &= w->stays;
    v->minutes += w->minutes;
    v->late |= plan_is_late(e->booking);
    v->fixed |= e->booking->cause == PLAN_FIXED;
    v->n++;
}

static void
fill(const struct plan_problem *p, const struct entry *entries, size_t n,
    struct visits *out)
{
    for (size_t i = 0; i < n; i++) {
        out->bookings[i] = entries[i].booking;
        if (i == 0 || !is_same(&entries[i - 1], &entries[i]))
            out->list[out->n++] = (struct visit){
                .day = entries[i].booking->day,
                .unit = entries[i].unit,
                .place = entries[i].place,
                .stays = 1,
                .bookings = &out->bookings[i],
            };
        add(&out->list[out->n - 1], p, &entries[i]);
    }
}

int
visits_make(const struct agenda *a, struct visits *out)
{
    const struct plan_problem *p = agenda_problem(a);
    size_t n;
    const struct plan_booking *b = plan_bookings(agenda_plan(a), &n);
    struct entry *entries = malloc((n + 1) * sizeof *entries);
    int rc = -1;

    *out = (struct visits){NULL, 0, NULL};
    out->list = malloc((n + 1) * sizeof *out->list);
    out->bookings = malloc((n + 1) * sizeof *out->bookings);
    if (entries == NULL || out->list == NULL || out->bookings == NULL)
        goto out;
    size_t dated = 0;
    for (size_t i = 0; i < n; i++) {
        const struct plan_work *w = &p->works[b[i].work];
        if (b[i].day != DAY_NONE)
            entries[dated++] = (struct entry){&b[i], w->place, w->unit};
    }
    qsort(entries, dated, sizeof *entries, by_visit);
    fill(p, entries, dated, out);
    rc = 0;
out:
    free(entries);
    if (rc != 0)
        visits_free(out);
    return rc;
}

void
visits_free(struct visits *v)
{
    free(v->list);
    free(v->bookings);
    *v = (struct visits){NULL, 0, NULL};
}
