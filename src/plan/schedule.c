#include "schedule.h"

#include "grow.h"
#include "step.h"

#include <assert.h>
#include <stdlib.h>

/* How long after the last deadline what is late may still find a day. */
#define LATE_DAYS 180

static long *
newest(const struct schedule *t, const struct plan_work *w)
{
    return &t->newest[w - t->problem->works];
}

static int
note(struct schedule *t, size_t i, int created)
{
    const struct item *item = &t->items[i];

    void *log = grow_list(t->log, t->n_log, &t->log_size, sizeof *t->log);

    if (log == NULL)
        return -1;
    t->log = log;
    t->log[t->n_log++] = (struct was){i, item->day, item->phase, item->wide,
        item->call, *newest(t, item->work), created};
    return 0;
}

long *
schedule_head(const struct schedule *t, const struct plan_work *w, day_t d)
{
    size_t days = (size_t)(t->last - t->problem->today) + 1;

    return &t->at[w->place * days + (size_t)(d - t->problem->today)];
}

/* Item @i waits for a day, as the newest of its work. */
static void
call_for(struct schedule *t, size_t i)
{
    const struct item *item = &t->items[i];

    *newest(t, item->work) = (long)i;
    queue_set(t->waiting, i, ((int64_t)item->phase << 32) + item->call.to);
}

day_t
schedule_held(const struct schedule *t, const struct item *item)
{
    const struct schedule *like = t->like;

    if (like == NULL)
        return item->call.planned;
    long i = like->newest[item->work - t->problem->works];
    while (i >= 0 && like->items[i].cycle > item->cycle)
        i = like->items[i].previous;
    if (i < 0 || like->items[i].cycle != item->cycle)
        return DAY_NONE;
    day_t d = like->items[i].day;
    return d == schedule_nowhere(like) ? DAY_NONE : d;
}

/* The phase of an item whose call is new. */
static enum phase
first_phase(const struct schedule *t, const struct item *item)
{
    if (item->call.fixed != DAY_NONE)
        return PHASE_FIXED;
    return schedule_held(t, item) != DAY_NONE ? PHASE_KEPT : PHASE_OPEN;
}

static void
stand_on(struct schedule *t, size_t i, day_t d)
{
    struct item *item = &t->items[i];

    item->day = d;
    queue_drop(t->waiting, i);
    if (d == schedule_nowhere(t))
        return;
    item->apart = load_put(t->load, item->work, d);
    item->beside = *schedule_head(t, item->work, d);
    *schedule_head(t, item->work, d) = (long)i;
}

static void
leave(struct schedule *t, size_t i)
{
    struct item *item = &t->items[i];

    day_t d = item->day;

    item->day = DAY_NONE;
    if (d == DAY_NONE || d == schedule_nowhere(t))
        return;
    load_take(t->load, item->work, d, item->apart);
    long *from = schedule_head(t, item->work, d);
    while (*from != (long)i)
        from = &t->items[*from].beside;
    *from = item->beside;
}

/* Take @call as it can be planned: 1, or 0 when it is left to a later plan.  A
 * day before today, or beyond the last one, is no booking to keep. */
static int
take_call(const struct schedule *t, struct plan_call *call)
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
ask(struct schedule *t, const struct plan_work *w, long i,
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
add(struct schedule *t, const struct plan_work *w, long previous,
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
    t->items[i].phase = first_phase(t, &t->items[i]);
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
take_away_last(struct schedule *t)
{
    const struct item *item = &t->items[--t->n];

    queue_drop(t->waiting, t->n);
    t->of[item->work->unit] = item->akin;
    if (item->previous >= 0)
        t->items[item->previous].next = -1;
}

/* The first call of each work: 0, or -1 when memory is out. */
static int
begin(struct schedule *t)
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
schedule_defer(struct schedule *t, long i, enum phase phase)
{
    t->items[i].phase = phase;
    call_for(t, (size_t)i);
}

int
schedule_hasten(struct schedule *t, long i, day_t first)
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
schedule_widen(struct schedule *t, long i, day_t from)
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
    return item->day >= item_opens(item) &&
           (item->day <= item->call.to || item->day > before->to);
}

/* The call of item @i has changed to @call: 1, 0 when its day no longer
 * serves, or -1. */
static int
change_call(struct schedule *t, size_t i, const struct plan_call *call)
{
    struct item *item = &t->items[i];
    struct plan_call before = item->call;
    int called = schedule_is_called(t, (long)i);

    if (note(t, i, 0))
        return -1;
    item->call = *call;
    if (item->day != DAY_NONE)
        return still_keeps(item, &before);
    item->phase = first_phase(t, item);
    call_for(t, i);
    return suits_booking(call, called ? &before : NULL);
}

/* Item @i is not called any more, if it has no day: 1, 0 or -1. */
static int
call_off(struct schedule *t, size_t i)
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

/* Work out anew what comes after item @i: as schedule_put() returns. */
static int
follow(struct schedule *t, long i)
{
    int rc = 1;

    while (rc == 1 && t->items[i].day != DAY_NONE) {
        struct plan_call call;
        const struct plan_work *w = t->items[i].work;
        long next = t->items[i].next;
        rc = t->items[i].day == schedule_nowhere(t) ? 0 : ask(t, w, i, &call);
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
schedule_put(struct schedule *t, long i, day_t d)
{
    assert(d >= t->problem->today && d <= schedule_nowhere(t));
    assert(schedule_is_called(t, i));
    if (note(t, (size_t)i, 0))
        return -1;
    leave(t, (size_t)i);
    stand_on(t, (size_t)i, d);
    return follow(t, i);
}

int
schedule_withdraw(struct schedule *t, long i)
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
restore(struct schedule *t, const struct was *w)
{
    struct item *item = &t->items[w->item];

    leave(t, w->item);
    item->call = w->call;
    item->phase = w->phase;
    item->wide = w->wide;
    if (w->day != DAY_NONE)
        stand_on(t, w->item, w->day);
    else if (*newest(t, item->work) == (long)w->item)
        call_for(t, w->item);
    else
        queue_drop(t->waiting, w->item);
}

void
schedule_back(struct schedule *t, size_t mark)
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

struct schedule *
schedule_new(const struct plan_problem *p, const struct schedule *like)
{
    struct schedule *t = calloc(1, sizeof *t);

    if (t == NULL)
        return NULL;
    t->problem = p;
    t->like = like;
    t->last = day_earlier(step_days(p->until, LATE_DAYS), DAY_LAST);
    size_t heads = p->n_places * ((size_t)(t->last - p->today) + 1);
    t->load = load_new(p, p->today, t->last);
    t->waiting = queue_new();
    t->at = malloc((heads + 1) * sizeof *t->at);
    t->of = malloc((p->n_units + 1) * sizeof *t->of);
    t->newest = malloc((p->n_works + 1) * sizeof *t->newest);
    if (!t->load || !t->waiting || !t->at || !t->of || !t->newest)
        goto err;
    for (size_t i = 0; i < heads; i++)
        t->at[i] = -1;
    for (size_t i = 0; i < p->n_units; i++)
        t->of[i] = -1;
    for (size_t i = 0; i < p->n_works; i++)
        t->newest[i] = -1;
    if (begin(t))
        goto err;
    return t;
err:
    schedule_free(t);
    return NULL;
}

void
schedule_free(struct schedule *t)
{
    if (t == NULL)
        return;
    load_free(t->load);
    queue_free(t->waiting);
    free(t->items);
    free(t->at);
    free(t->of);
    free(t->newest);
    free(t->log);
    free(t->done);
    free(t);
}

int
schedule_is_called(const struct schedule *t, long i)
{
    const struct item *item = &t->items[i];

    size_t work = (size_t)(item->work - t->problem->works);

    return item->day != DAY_NONE || t->newest[work] == i;
}
