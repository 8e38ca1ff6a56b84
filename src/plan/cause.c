#include "cause.h"

#include "choose.h"

/* What keeps @item from @d, were it not where it is. */
static struct hindrance
hindrance_on(struct timetable *t, const struct item *item, day_t d)
{
    struct load *l = timetable_load(t);

    int stands = item->day != timetable_nowhere(t);

    if (stands)
        load_take(l, item->work, item->day);
    struct hindrance h = load_check(l, item->work, d);
    if (stands)
        load_put(l, item->work, item->day);
    return h;
}

/* Note in @b what is in the way on the last day from @first to @last that is
 * neither free nor shut. */
static void
note_hindrance(struct timetable *t, const struct item *item, day_t first,
    day_t last, struct plan_booking *b)
{
    b->limit = PLAN_SHUT;
    for (day_t d = last; d >= first; d--) {
        struct hindrance h = hindrance_on(t, item, d);
        if (h.limit == PLAN_FREE || h.limit == PLAN_SHUT)
            continue;
        b->limit = h.limit;
        b->group = h.group;
        b->on = d;
        return;
    }
}

/* The item of the visit that could least wait: the earliest deadline. */
static long
leader(const struct timetable *t, long i)
{
    const struct item *item = timetable_item(t, i);
    long best = i;

    for (long k = timetable_of(t, item->work->unit); k >= 0;
         k = timetable_item(t, k)->akin) {
        const struct item *other = timetable_item(t, k);
        if (other->day == item->day &&
            other->work->place == item->work->place &&
            other->call.to < timetable_item(t, best)->call.to)
            best = k;
    }
    return best;
}

static int
has_free_day(
    struct timetable *t, const struct item *item, day_t first, day_t last)
{
    for (day_t d = first; d <= last; d++)
        if (hindrance_on(t, item, d).limit == PLAN_FREE)
            return 1;
    return 0;
}

/* Why a day that is neither booked nor the last one. */
static enum plan_cause
cause_of_earlier(struct timetable *t, long i, struct plan_booking *b)
{
    const struct item *item = timetable_item(t, i);

    b->with = (size_t)leader(t, i);
    if (b->with != (size_t)i)
        return PLAN_TOGETHER;
    if (!has_free_day(t, item, item->day + 1, item->call.to)) {
        note_hindrance(t, item, item->day + 1, item->call.to, b);
        return PLAN_CROWDED;
    }
    return item->day == item->call.planned ? PLAN_KEPT : PLAN_EVEN;
}

void
cause_of(struct timetable *t, long i, struct plan_booking *b)
{
    const struct item *item = timetable_item(t, i);

    if (item->day == item->call.fixed)
        b->cause = PLAN_FIXED;
    else if (item->day == workcal_preceding(item->work->open, item->call.to))
        b->cause = PLAN_LAST_DAY;
    else if (item->day <= item->call.to)
        b->cause = cause_of_earlier(t, i, b);
    else {
        b->cause = PLAN_LATE;
        note_hindrance(t, item, choose_from(t, item), item->call.to, b);
    }
}

/* Nonzero when one more of whatever is short on @d gives @item that day. */
static int
would_fit(struct timetable *t, const struct item *item, day_t d)
{
    struct load *l = timetable_load(t);

    load_allow(l, item->work, d, 1);
    struct hindrance h = hindrance_on(t, item, d);
    load_allow(l, item->work, d, -1);
    return h.limit == PLAN_FREE;
}

void
cause_cure(struct timetable *t, long i, struct plan_clash *c)
{
    const struct item *item = timetable_item(t, i);
    day_t first = choose_from(t, item);

    c->more = DAY_NONE;
    c->earlier = 0;
    for (day_t d = item->call.to; d >= first && c->more == DAY_NONE; d--)
        if (would_fit(t, item, d))
            c->more = d;
    for (day_t d = first - 1; d >= timetable_first(t) && !c->earlier; d--)
        if (hindrance_on(t, item, d).limit == PLAN_FREE)
            c->earlier = first - d;
}
