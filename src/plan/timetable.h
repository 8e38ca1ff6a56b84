#ifndef TIMETABLE_H
#define TIMETABLE_H

#include "load.h"

/*
 * Inside the plan layer only: every call that is known so far, the day it has,
 * and the way back from whatever was tried.
 */
struct timetable;

/* When a call that waits is given its day: the first it can, then later. */
enum turn {
    TURN_FIXED, /* somebody booked it */
    TURN_KEPT,  /* an earlier plan had it on a day that still is one */
    TURN_OPEN,  /* any day of its window */
    TURN_LATE   /* no day by its deadline was found: whatever is left over */
};

/* One call.  The next call of the same work begins once this one has a day. */
struct item {
    const struct plan_work *work;
    size_t cycle;
    struct plan_call call;
    day_t day; /* DAY_NONE while it has none; one that has none and is
                  not the newest of its work is not called at present */
    enum turn turn;
    int wide;      /* it may be done sooner than it likes */
    int apart;     /* as load_put() says */
    long previous; /* items of the same work, -1 for none */
    long next;
    long beside; /* the next item at the same place on the same day, or -1 */
    long akin;   /* the next item of the same unit, or -1 */
};

/* The first call of every work; NULL when memory is out.  Where @like is not
 * NULL its days are held to, and not those that the problem says an earlier
 * plan had.  Borrows both.  Free with timetable_free(). */
struct timetable *timetable_new(
    const struct plan_problem *p, const struct timetable *like);

/* Free @t; NULL is ignored. */
void timetable_free(struct timetable *t);

/* Its items, which move when the timetable grows; sets @n. */
const struct item *timetable_items(const struct timetable *t, size_t *n);

const struct item *timetable_item(const struct timetable *t, long i);

/* The load of the days so far. */
struct load *timetable_load(const struct timetable *t);

/* The first item at the place of @w on @d, and the first of a unit; or -1.
 * Follow with beside and akin. */
long timetable_at(
    const struct timetable *t, const struct plan_work *w, day_t d);
long timetable_of(const struct timetable *t, size_t unit);

/* The call of a work that is the only one that may be without a day: the last;
 * -1 when it has none. */
long timetable_newest(const struct timetable *t, size_t work);

/* The first and the last day that anything can have, and what stands for the
 * day of that which found none, which is no day of the calendar where the last
 * one is: after it comes no call, and no limit holds. */
day_t timetable_first(const struct timetable *t);
day_t timetable_last(const struct timetable *t);
day_t timetable_nowhere(const struct timetable *t);

/* The item without a day whose turn it is, of one turn the one with the
 * earliest deadline; or -1 when all have one. */
long timetable_waiting(const struct timetable *t);

/* The day that is held to for an item if it can be, or DAY_NONE. */
day_t timetable_held(const struct timetable *t, const struct item *item);

/* Nonzero when item @i has a day or waits for one. */
int timetable_is_called(const struct timetable *t, long i);

/* Have item @i, which waits, wait for a later turn. */
void timetable_defer(struct timetable *t, long i, enum turn turn);

/* The first day of item @i's window, be it before today. */
day_t timetable_opens(const struct item *item);

/* Let item @i be done sooner than it likes, from the day @first on, or as soon
 * as it counts when that is later; and let it be done from any earlier day on,
 * to ask what if.  0, or -1 when memory is out. */
int timetable_hasten(struct timetable *t, long i, day_t first);
int timetable_widen(struct timetable *t, long i, day_t from);

/*
 * Give item @i the day @d, whatever day it had, and work out anew the calls of
 * its work that follow.  Returns 1; 0 when one of those that have a day, or are
 * booked for one, could not keep it, where the caller has to go back; -1 when
 * memory is out.
 */
int timetable_put(struct timetable *t, long i, day_t d);

/* The same for one that waits, though somebody's booking for the next call then
 * lies outside its window. */
int timetable_force(struct timetable *t, long i, day_t d);

/* Take the days of item @i and of what comes after it away: it waits anew.  0,
 * or -1 when memory is out. */
int timetable_withdraw(struct timetable *t, long i);

/* The first call of the work of item @i. */
long timetable_first_of(const struct timetable *t, long i);

/* Where things stand now, and back to there. */
size_t timetable_mark(const struct timetable *t);
void timetable_back(struct timetable *t, size_t mark);

/* Settle for how things stand: there is no way back behind this. */
void timetable_settle(struct timetable *t);

#endif
