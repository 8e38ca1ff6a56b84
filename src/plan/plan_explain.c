#include "plan_explain.h"

#include "choose.h"

/* So many days earlier, at most, is asked what would help. */
#define EARLIER_MOST 92

/* What keeps @item from @d, were it not where it is. */
static struct hindrance
hindrance_on(struct schedule *t, const struct item *item, day_t d)
{
    struct load *l = t->load;

    int stands = item->day != schedule_nowhere(t);

    if (stands)
        load_take(l, item->work, item->day, item->apart);
    struct hindrance h = load_check(l, item->work, d);
    if (stands)
        (void)load_put(l, item->work, item->day);
    return h;
}

/* Note in @b what is in the way on the last day from @first to @last that is
 * neither free nor shut. */
static void
note_hindrance(struct schedule *t, const struct item *item, day_t first,
    day_t last, struct plan_booking *b)
{
    b->limit = first > last ? PLAN_FREE : PLAN_SHUT;
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
leader(const struct schedule *t, long i)
{
    const struct item *item = &t->items[i];
    long best = i;

    for (long k = t->of[item->work->unit]; k >= 0; k = t->items[k].akin) {
        const struct item *other = &t->items[k];
        if (other->day == item->day &&
            other->work->place == item->work->place &&
            other->call.to < t->items[best].call.to)
            best = k;
    }
    return best;
}

static int
has_free_day(
    struct schedule *t, const struct item *item, day_t first, day_t last)
{
    for (day_t d = first; d <= last; d++)
        if (hindrance_on(t, item, d).limit == PLAN_FREE)
            return 1;
    return 0;
}

/* Why a day that is neither booked nor the last one. */
static enum plan_cause
cause_of_earlier(struct schedule *t, long i, struct plan_booking *b)
{
    const struct item *item = &t->items[i];

    b->with = (size_t)leader(t, i);
    if (b->with != (size_t)i)
        return PLAN_TOGETHER;
    if (!has_free_day(t, item, item->day + 1, item->call.to)) {
        note_hindrance(t, item, item->day + 1, item->call.to, b);
        return PLAN_CROWDED;
    }
    return item->day == item->call.planned ? PLAN_KEPT : PLAN_EVEN;
}

static void
cause_of_fixed(
    struct schedule *t, const struct item *item, struct plan_booking *b)
{
    struct hindrance h = hindrance_on(t, item, item->day);

    b->cause = PLAN_FIXED;
    b->limit = h.limit;
    b->group = h.group;
    if (h.limit != PLAN_FREE)
        b->on = item->day;
}

void
plan_explain_booking(struct schedule *t, long i, struct plan_booking *b)
{
    const struct item *item = &t->items[i];

    if (item->day == item->call.fixed)
        cause_of_fixed(t, item, b);
    else if (item->day ==
             work_calendar_preceding(item->work->open, item->call.to))
        b->cause = PLAN_LAST_DAY;
    else if (item->day <= item->call.to)
        b->cause = cause_of_earlier(t, i, b);
    else {
        b->cause = PLAN_LATE;
        day_t from = choose_from(t, item);
        note_hindrance(t, item, from, item->call.to, b);
        b->first = item->day == schedule_nowhere(t) ||
                   !has_free_day(t, item, from, item->day - 1);
    }
}

/* Nonzero when raising the one limit @h gives @item the day @d. */
static int
would_fit(struct schedule *t, const struct item *item, day_t d,
    const struct hindrance *h)
{
    struct load *l = t->load;

    load_allow(l, item->work, d, h, 1);
    struct hindrance left = hindrance_on(t, item, d);
    load_allow(l, item->work, d, h, -1);
    return left.limit == PLAN_FREE;
}

/* The last day that one limit more would have given @item. */
static void
find_more(struct schedule *t, const struct item *item, struct plan_clash *c)
{
    c->more = DAY_NONE;
    for (day_t d = item->call.to; d >= choose_from(t, item); d--) {
        struct hindrance h = hindrance_on(t, item, d);
        if (!would_fit(t, item, d, &h))
            continue;
        c->more = d;
        c->limit = h.limit;
        c->group = h.group;
        return;
    }
}

/* Nonzero when item @i could be done on @d, were it allowed: 1, 0 or -1.  What
 * comes after it is planned anew then, and left out of it. */
static int
could_be(struct schedule *t, struct reassign *r, long i, day_t d)
{
    size_t mark = t->n_log;
    int rc = schedule_widen(t, i, d);

    if (rc == 0)
        rc = schedule_withdraw(t, i);
    if (rc == 0)
        rc = reassign_to(r, i, d);
    schedule_back(t, mark);
    return rc;
}

/* The day before which item @i cannot be, whatever is allowed. */
static day_t
earliest(const struct schedule *t, const struct item *item)
{
    day_t first = day_later(t->problem->today, item_opens(item) - EARLIER_MOST);

    if (item->previous < 0)
        return first;
    return day_later(first, t->items[item->previous].day + 1);
}

int
plan_explain_clash(
    struct schedule *t, struct reassign *r, long i, struct plan_clash *c)
{
    const struct item item = t->items[i];
    int rc = 0;

    find_more(t, &item, c);
    c->earlier = 0;
    day_t opens = item_opens(&item);
    for (day_t d = day_earlier(opens - 1, item.call.to);
         d >= earliest(t, &item) && rc == 0; d--) {
        rc = could_be(t, r, i, d);
        if (rc == 1)
            c->earlier = opens - d;
    }
    return rc < 0 ? -1 : 0;
}
