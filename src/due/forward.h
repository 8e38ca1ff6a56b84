#ifndef FORWARD_H
#define FORWARD_H

#include "booked.h"
#include "due.h"

/*
 * What comes after what: the due of a task once it was done on each of so many
 * days to come.  It answers as the snapshot's projection does, and quickly
 * when the days are mostly those of the last question about the task.
 */
struct forward;

/* One call for a task. */
struct forward_call {
    enum due_state state; /* DUE_NO_RECORD, DUE_NEEDS_READING,
                             DUE_BEFORE_RETURN, or else DUE_AHEAD: nothing here
                             knows of today */
    int no_return;        /* off the road, and the return is not known */
    day_t deadline;       /* DAY_NONE when none can be told */
    day_t from;           /* the first day on which doing it counts for this
                             call and wastes none of its interval */
    day_t counts;         /* the first on which it counts at all */
    struct cycle cycle;   /* what it runs from, with ahead 0 */
    day_t failed;         /* it last failed on that day and was not done since;
                             DAY_NONE when it did not, or for a later call */
};

/* A look ahead over @facts, which it borrows; NULL when memory is out.  Free
 * with forward_free(). */
struct forward *forward_new(const struct facts *facts);

/* Free @f; NULL is ignored. */
void forward_free(struct forward *f);

/*
 * The call for the task at @task of the fleet after what is on record and then
 * the @n days @done, in order and later than that.  Returns 1; 0 when there is
 * none: work done only when needed, a follow-on that nothing called for, or
 * one that was done; -1 when memory is out.
 */
int forward_call(struct forward *f, size_t task, const day_t *done, size_t n,
    struct forward_call *out);

/* Which cycle of its task a booking is for, as booked_ahead(). */
int forward_booked(struct forward *f, size_t task, const struct booked *b);

/* Nonzero when the subject of the task, or what carries it, was or will ever be
 * off the road; and when it is so on @d. */
int forward_has_spells(const struct forward *f, size_t task);
int forward_is_off_road(const struct forward *f, size_t task, day_t d);

#endif
