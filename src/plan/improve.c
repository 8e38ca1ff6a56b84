#include "improve.h"

#include "choose.h"
#include "grow.h"

#include <stdlib.h>

/* A unit at a place on a day. */
struct trip {
    size_t place;
    day_t day;
};

struct trips {
    struct trip *list;
    size_t n;
    size_t size;
};

static int
by_place_and_day(const void *left, const void *right)
{
    const struct trip *a = left;
    const struct trip *b = right;

    if (a->place != b->place)
        return a->place < b->place ? -1 : 1;
    return (a->day > b->day) - (a->day < b->day);
}

static int
is_same(const struct trip *a, const struct trip *b)
{
    return by_place_and_day(a, b) == 0;
}

static int
is_of(const struct item *item, const struct trip *v)
{
    return item->day == v->day && item->work->place == v->place;
}

static int
find_visits(const struct schedule *t, size_t unit, struct trips *v)
{
    size_t n = 0;

    v->n = 0;
    for (long k = t->of[unit]; k >= 0; k = t->items[k].akin) {
        const struct item *item = &t->items[k];
        if (item->day == DAY_NONE || item->day == schedule_nowhere(t))
            continue;
        void *list = grow_list(v->list, v->n, &v->size, sizeof *v->list);
        if (list == NULL)
            return -1;
        v->list = list;
        v->list[v->n++] = (struct trip){item->work->place, item->day};
    }
    if (v->n > 1)
        qsort(v->list, v->n, sizeof *v->list, by_place_and_day);
    for (size_t i = 0; i < v->n; i++)
        if (n == 0 || !is_same(&v->list[n - 1], &v->list[i]))
            v->list[n++] = v->list[i];
    v->n = n;
    return 0;
}

/* Nonzero when somebody or an earlier plan put all of a unit's works where
 * they are. */
static int
is_settled(const struct schedule *t, size_t unit)
{
    for (long k = t->of[unit]; k >= 0; k = t->items[k].akin) {
        const struct item *item = &t->items[k];
        if (item->day != schedule_held(t, item) &&
            item->day != item->call.fixed)
            return 0;
    }
    return 1;
}

/* Move item @i to @d if it may be there: 1, 0 or -1. */
static int
move(struct schedule *t, long i, day_t d)
{
    const struct item *item = &t->items[i];

    if (item->day == d)
        return 1;
    if (item->call.fixed != DAY_NONE || d < choose_from(t, item) ||
        d > item->call.to ||
        load_check(t->load, item->work, d).limit != PLAN_FREE)
        return 0;
    return schedule_put(t, i, d);
}

/* Move each work of @v to the last other visit that can have it. */
static int
disperse(struct schedule *t, size_t unit, const struct trip *v)
{
    size_t mark = t->n_log;
    int rc = 1;

    for (long k = t->of[unit]; k >= 0 && rc == 1;) {
        const struct item *item = &t->items[k];
        long next = item->akin;
        if (is_of(item, v)) {
            day_t d = choose_together(t, k, v->day);
            rc = d == DAY_NONE ? 0 : move(t, k, d);
        }
        k = next;
    }
    if (rc != 1)
        schedule_back(t, mark);
    return rc;
}

/* Have all works of @a and @b on @d. */
static int
gather(struct schedule *t, size_t unit, const struct trip *a,
    const struct trip *b, day_t d)
{
    size_t mark = t->n_log;
    int rc = 1;

    for (long k = t->of[unit]; k >= 0 && rc == 1;) {
        const struct item *item = &t->items[k];
        long next = item->akin;
        if (is_of(item, a) || is_of(item, b))
            rc = move(t, k, d);
        k = next;
    }
    if (rc != 1)
        schedule_back(t, mark);
    return rc;
}

/* The days that all works of @a and of @b allow. */
static void
common_window(const struct schedule *t, size_t unit, const struct trip *a,
    const struct trip *b, day_t *from, day_t *to)
{
    *from = t->problem->today;
    *to = t->last;
    for (long k = t->of[unit]; k >= 0; k = t->items[k].akin) {
        const struct item *item = &t->items[k];
        if (!is_of(item, a) && !is_of(item, b))
            continue;
        *from = day_later(*from, item_opens(item));
        *to = day_earlier(*to, item->call.to);
    }
}

/* One visit instead of @a and the later @b: 1, 0 or -1. */
static int
unite(
    struct schedule *t, size_t unit, const struct trip *a, const struct trip *b)
{
    day_t from;
    day_t to;
    int rc = 0;

    common_window(t, unit, a, b, &from, &to);
    for (day_t d = to; d >= from && rc == 0; d--)
        rc = gather(t, unit, a, b, d);
    return rc;
}

/* One visit less, if that can be: 1, 0 or -1. */
static int
drop_one(struct schedule *t, size_t unit, struct trips *v)
{
    int rc = find_visits(t, unit, v);

    for (size_t i = 0; i < v->n && rc == 0; i++) {
        rc = disperse(t, unit, &v->list[i]);
        if (rc == 0 && i + 1 < v->n && v->list[i].place == v->list[i + 1].place)
            rc = unite(t, unit, &v->list[i], &v->list[i + 1]);
    }
    return rc;
}

int
improve_visits(const struct plan_problem *p, struct schedule *t)
{
    struct trips v = {0};
    int rc = 0;

    for (size_t u = 0; u < p->n_units && rc == 0; u++) {
        if (is_settled(t, u))
            continue;
        do
            rc = drop_one(t, u, &v);
        while (rc == 1);
        t->n_log = 0;
    }
    free(v.list);
    return rc;
}
