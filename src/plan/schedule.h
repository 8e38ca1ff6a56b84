#ifndef SCHEDULE_H
#define SCHEDULE_H

#include "load.h"
#include "queue.h"

/*
 * Inside the plan layer only: every call that is known so far, the day it has,
 * and the way back from whatever was tried.  All may read it; it is changed by
 * the functions below alone, for the next call of a work depends on the day of
 * the one before.
 */

/* When a call that waits is given its day: the first it can, then later. */
enum phase {
    PHASE_FIXED, /* somebody booked it */
    PHASE_KEPT,  /* an earlier plan had it on a day that still is one */
    PHASE_OPEN,  /* any day of its window */
    PHASE_LATE   /* no day by its deadline was found: whatever is left over */
};

/* One call.  The next call of the same work begins once this one has a day. */
struct item {
    const struct plan_work *work;
    size_t cycle;
    struct plan_call call;
    day_t day; /* DAY_NONE while it has none; one that has none and is
                  not the newest of its work is not called at present */
    enum phase phase;
    int wide;      /* it may be done sooner than it likes */
    int apart;     /* as load_put() says */
    long previous; /* items of the same work, -1 for none */
    long next;
    long beside; /* the next item at the same place on the same day, or -1 */
    long akin;   /* the next item of the same unit, or -1 */
};

/* How an item was before it was changed. */
struct was {
    size_t item;
    day_t day;
    enum phase phase;
    int wide;
    struct plan_call call;
    long newest; /* of its work */
    int created; /* it was not there */
};

struct schedule {
    const struct plan_problem *problem;
    const struct schedule *like; /* whose days are held to, or NULL */
    day_t last;
    struct load *load;
    struct queue *waiting; /* items without a day, by deadline */
    struct item *items;
    size_t n;
    size_t size;
    long *at;     /* the first item of each place and day */
    long *of;     /* of each unit */
    long *newest; /* of each work */
    struct was *log;
    size_t n_log;
    size_t log_size;
    day_t *done; /* of one work, while its next call is asked for */
    size_t done_size;
};

/* The first call of every work; NULL when memory is out.  Where @like is not
 * NULL its days are held to, and not those that the problem says an earlier
 * plan had.  Borrows both.  Free with schedule_free(). */
struct schedule *schedule_new(
    const struct plan_problem *p, const struct schedule *like);

/* Free @t; NULL is ignored. */
void schedule_free(struct schedule *t);

/* What stands for the day of that which found none, which is no day of the
 * calendar where the last one is: after it comes no call, and no limit holds.
 */
static inline day_t
schedule_nowhere(const struct schedule *t)
{
    return t->last + 1;
}

/* The first day of an item's window, be it before today. */
static inline day_t
item_opens(const struct item *item)
{
    if (!item->wide || item->call.from == DAY_NONE)
        return item->call.from;
    return item->call.from - item->call.sooner;
}

/* Where the list of the items at the place of @w on @d begins: of the first of
 * them, or -1.  Follow with beside. */
long *schedule_head(
    const struct schedule *t, const struct plan_work *w, day_t d);

/* The day that is held to for an item if it can be, or DAY_NONE. */
day_t schedule_held(const struct schedule *t, const struct item *item);

/* Nonzero when item @i has a day or waits for one. */
int schedule_is_called(const struct schedule *t, long i);

/* Have item @i, which waits, wait for a later phase. */
void schedule_defer(struct schedule *t, long i, enum phase phase);

/* Let item @i be done sooner than it likes, from the day @first on, or as soon
 * as it counts when that is later; and let it be done from any earlier day on,
 * to ask what if.  0, or -1 when memory is out. */
int schedule_hasten(struct schedule *t, long i, day_t first);
int schedule_widen(struct schedule *t, long i, day_t from);

/*
 * Give item @i the day @d, whatever day it had, and work out anew the calls of
 * its work that follow.  Returns 1; 0 when one of those that have a day, or are
 * booked for one, could not keep it: the caller goes back, unless @i waited and
 * has to have a day; -1 when memory is out.
 */
int schedule_put(struct schedule *t, long i, day_t d);

/* Take the days of item @i and of what comes after it away: it waits anew.  0,
 * or -1 when memory is out. */
int schedule_withdraw(struct schedule *t, long i);

/* Back to where things stood when the log was @mark long.  A log that is set to
 * no length settles for how things stand. */
void schedule_back(struct schedule *t, size_t mark);

#endif
