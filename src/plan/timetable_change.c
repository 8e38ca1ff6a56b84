#include "timetable_inside.h"

#include "grow.h"
#include "step.h"

#include <assert.h>

static long *
newest(const struct timetable *t, const struct plan_work *w)
{
    return &t->newest[w - t->problem->works];
}

static int
note(struct timetable *t, size_t i, int created)
{
    const struct item *item = &t->items[i];

    void *log = grow_list(t->log, t->n_log, &t->log_size, sizeof *t->log);

    if (log == NULL)
        return -1;
    t->log = log;
    t->log[t->n_log++] = (struct was){i, item->day, item->turn, item->wide,
        item->call, *newest(t, item->work), created};
    return 0;
}

long *
timetable_head(const struct timetable *t, const struct plan_work *w, day_t d)
{
    size_t days = (size_t)(t->last - t->problem->today) + 1;

    return &t->at[w->place * days + (size_t)(d - t->problem->today)];
}

/* Item @i waits for a day, as the newest of its work. */
static void
call_for(struct timetable *t, size_t i)
{
    const struct item *item = &t->items[i];

    *newest(t, item->work) = (long)i;
    queue_set(t->waiting, i, ((int64_t)item->turn << 32) + item->call.to);
}

day_t
timetable_held(const struct timetable *t, const struct item *item)
{
    const struct timetable *like = t->like;

    if (like == NULL)
        return item->call.planned;
    long i = like->newest[item->work - t->problem->works];
    while (i >= 0 && like->items[i].cycle > item->cycle)
        i = like->items[i].previous;
    if (i < 0 || like->items[i].cycle != item->cycle)
        return DAY_NONE;
    day_t d = like->items[i].day;
    return d == timetable_nowhere(like) ? DAY_NONE : d;
}

/* The turn of an item whose call is new. */
static enum turn
first_turn(const struct timetable *t, const struct item *item)
{
    if (item->call.fixed != DAY_NONE)
        return TURN_FIXED;
    return timetable_held(t, item) != DAY_NONE ? TURN_KEPT : TURN_OPEN;
}

static void
stand_on(struct timetable *t, size_t i, day_t d)
{
    struct item *item = &t->items[i];

    item->day = d;
    queue_drop(t->waiting, i);
    if (d == timetable_nowhere(t))
        return;
    item->apart = load_put(t->load, item->work, d);
    item->beside = *timetable_head(t, item->work, d);
    *timetable_head(t, item->work, d) = (long)i;
}

static void
leave(struct timetable *t, size_t i)
{
    struct item *item = &t->items[i];

    day_t d = item->day;

    item->day = DAY_NONE;
    if (d == DAY_NONE || d == timetable_nowhere(t))
        return;
    load_take(t->load, item->work, d, item->apart);
    long *from = timetable_head(t, item->work, d);
    while (*from != (long)i)
        from = &t->items[*from].beside;
    *from = item->beside;
}

/* Take @call as it can be planned: 1, or 0 when it is left to a later plan.  A
 * day before today, or beyond the last one, is no booking to keep. */
static int
take_call(const struct timetable *t, struct plan_call *call)
{
    if (call->to > t->problem->until)
        return 0;
    if (call->fixed < t->problem->today || call->fixed > t->last)
        call->fixed = DAY_NONE;
    if (call->planned < t->problem->today || call->planned > t->last)
        call->planned = DAY_NONE;
    return 1;
}

/* The day of the work before has had its turn. */
static void
begin_after(struct plan_call *call, day_t done)
{
    day_t first = day_later(call->from - call->sooner, step_days(done, 1));

    call->from = day_later(call->from, first);
    call->sooner = call->from - first;
}

/* The call that follows the item @i (or the first of @w when @i is -1). */
static int
ask(struct timetable *t, const struct plan_work *w, long i,
    struct plan_call *out)
{
    size_t n = i < 0 ? 0 : t->items[i].cycle + 1;
    void *done = grow_list(t->done, n, &t->done_size, sizeof *t->done);

    if (done == NULL)
        return -1;
    t->done = done;
    for (size_t k = n; k > 0; k--) {
        t->done[k - 1] = t->items[i].day;
        i = t->items[i].previous;
    }
    int rc = t->problem->next(
        t->problem->with, (size_t)(w - t->problem->works), t->done, n, out);
    if (rc > 0 && n > 0)
        begin_after(out, t->done[n - 1]);
    return rc > 0 ? take_call(t, out) : rc;
}

/* A new item that follows @previous. */
static int
add(struct timetable *t, const struct plan_work *w, long previous,
    const struct plan_call *call)
{
    size_t i = t->n;
    void *items = grow_list(t->items, i, &t->size, sizeof *t->items);

    if (items == NULL)
        return -1;
    t->items = items;
    if (queue_reserve(t->waiting, i + 1))
        return -1;
    t->items[i] = (struct item){
        .work = w,
        .cycle = previous < 0 ? 0 : t->items[previous].cycle + 1,
        .call = *call,
        .day = DAY_NONE,
        .previous = previous,
        .next = -1,
        .akin = t->of[w->unit],
    };
    t->items[i].turn = first_turn(t, &t->items[i]);
    if (note(t, i, 1))
        return -1;
    t->n++;
    t->of[w->unit] = (long)i;
    if (previous >= 0)
        t->items[previous].next = (long)i;
    call_for(t, i);
    return 0;
}

static void
take_away_last(struct timetable *t)
{
    const struct item *item = &t->items[--t->n];

    queue_drop(t->waiting, t->n);
    t->of[item->work->unit] = item->akin;
    if (item->previous >= 0)
        t->items[item->previous].next = -1;
}

int
timetable_begin(struct timetable *t)
{
    for (size_t i = 0; i < t->problem->n_works; i++) {
        const struct plan_work *w = &t->problem->works[i];
        struct plan_call call;
        int rc = ask(t, w, -1, &call);
        if (rc < 0 || (rc > 0 && add(t, w, -1, &call)))
            return -1;
    }
    return 0;
}

void
timetable_defer(struct timetable *t, long i, enum turn turn)
{
    t->items[i].turn = turn;
    call_for(t, (size_t)i);
}

day_t
timetable_opens(const struct item *item)
{
    if (!item->wide || item->call.from == DAY_NONE)
        return item->call.from;
    return item->call.from - item->call.sooner;
}

int
timetable_hasten(struct timetable *t, long i, day_t first)
{
    struct plan_call *call = &t->items[i].call;

    if (note(t, (size_t)i, 0))
        return -1;
    t->items[i].wide = 1;
    if (call->from - call->sooner < first)
        call->sooner = first < call->from ? call->from - first : 0;
    return 0;
}

int
timetable_widen(struct timetable *t, long i, day_t from)
{
    if (note(t, (size_t)i, 0))
        return -1;
    t->items[i].wide = 0;
    t->items[i].call.from = from;
    return 0;
}

static int
is_within(day_t d, const struct plan_call *call)
{
    return d >= call->from && d <= call->to;
}

/* Nonzero when what somebody booked has the window @call for it, or had none
 * before either. */
static int
suits_booking(const struct plan_call *call, const struct plan_call *before)
{
    return call->fixed == DAY_NONE || is_within(call->fixed, call) ||
           (before && !is_within(call->fixed, before));
}

/* Nonzero when an item that kept its call @before keeps the call it has now.
 * What was late already may stay so. */
static int
still_keeps(const struct item *item, const struct plan_call *before)
{
    if (item->day == item->call.fixed)
        return suits_booking(&item->call, before);
    return item->day >= timetable_opens(item) &&
           (item->day <= item->call.to || item->day > before->to);
}

/* The call of item @i has changed to @call: 1, 0 when its day no longer
 * serves, or -1. */
static int
change_call(struct timetable *t, size_t i, const struct plan_call *call)
{
    struct item *item = &t->items[i];
    struct plan_call before = item->call;
    int called = timetable_is_called(t, (long)i);

    if (note(t, i, 0))
        return -1;
    item->call = *call;
    if (item->day != DAY_NONE)
        return still_keeps(item, &before);
    item->turn = first_turn(t, item);
    call_for(t, i);
    return suits_booking(call, called ? &before : NULL);
}

/* Item @i is not called any more, if it has no day: 1, 0 or -1. */
static int
call_off(struct timetable *t, size_t i)
{
    const struct item *item = &t->items[i];

    if (item->day != DAY_NONE)
        return 0;
    if (*newest(t, item->work) != (long)i)
        return 1;
    if (note(t, i, 0))
        return -1;
    queue_drop(t->waiting, i);
    *newest(t, item->work) = item->previous;
    return 1;
}

/* Work out anew what comes after item @i: as timetable_put() returns. */
static int
follow(struct timetable *t, long i)
{
    int rc = 1;

    while (rc == 1 && t->items[i].day != DAY_NONE) {
        struct plan_call call;
        const struct plan_work *w = t->items[i].work;
        long next = t->items[i].next;
        rc = t->items[i].day == timetable_nowhere(t) ? 0 : ask(t, w, i, &call);
        if (rc == 0)
            return next < 0 ? 1 : call_off(t, (size_t)next);
        if (rc == 1 && next < 0)
            return add(t, w, i, &call) ? -1 : suits_booking(&call, NULL);
        if (rc == 1)
            rc = change_call(t, (size_t)next, &call);
        i = next;
    }
    return rc;
}

int
timetable_put(struct timetable *t, long i, day_t d)
{
    assert(d >= t->problem->today && d <= timetable_nowhere(t));
    assert(timetable_is_called(t, i));
    if (note(t, (size_t)i, 0))
        return -1;
    leave(t, (size_t)i);
    stand_on(t, (size_t)i, d);
    return follow(t, i);
}

int
timetable_force(struct timetable *t, long i, day_t d)
{
    assert(t->items[i].day == DAY_NONE);
    return timetable_put(t, i, d) < 0 ? -1 : 1;
}

int
timetable_withdraw(struct timetable *t, long i)
{
    size_t cycle = t->items[i].cycle;
    long k = *newest(t, t->items[i].work);

    for (; k >= 0 && t->items[k].cycle >= cycle; k = t->items[k].previous) {
        if (note(t, (size_t)k, 0))
            return -1;
        leave(t, (size_t)k);
        queue_drop(t->waiting, (size_t)k);
    }
    call_for(t, (size_t)i);
    return 0;
}

/* Item @w->item as it was: with its day, waiting for one, or not called. */
static void
restore(struct timetable *t, const struct was *w)
{
    struct item *item = &t->items[w->item];

    leave(t, w->item);
    item->call = w->call;
    item->turn = w->turn;
    item->wide = w->wide;
    if (w->day != DAY_NONE)
        stand_on(t, w->item, w->day);
    else if (*newest(t, item->work) == (long)w->item)
        call_for(t, w->item);
    else
        queue_drop(t->waiting, w->item);
}

void
timetable_back(struct timetable *t, size_t mark)
{
    while (t->n_log > mark) {
        const struct was *w = &t->log[--t->n_log];
        *newest(t, t->items[w->item].work) = w->newest;
        if (w->created)
            take_away_last(t);
        else
            restore(t, w);
    }
}
