#ifndef NEED_H
#define NEED_H

#include "record.h"

/*
 * Which records the dues of a fleet follow from, so that whoever has all of
 * them at hand can leave the others where they are.  The dues are the same:
 *
 *  - of the work on a job, all where a task runs from its deadlines, by a
 *    calendar rule or by a count; else what was done on the newest day it was
 *    completed and on the newest day it failed;
 *  - of the work that a follow-on follows, all: each calls for it until it is
 *    answered;
 *  - of the readings of a meter, those that need_goes_back() asks for;
 *  - every spell off the road and every move.
 *
 * What was voided is no record here.
 */
enum need { NEED_NONE, NEED_NEWEST, NEED_ALL };

struct need_list;

/* For the dues of the fleet @f, or, unless @only is NULL, for those of that
 * task; it borrows both.  NULL when memory is out. */
struct need_list *need_new(const struct fleet *f, const struct task *only);

/* Free @l; NULL is ignored. */
void need_free(struct need_list *l);

/* What the dues of @s need of its work on each job of the fleet, by the job's
 * index.  Overwritten by the next call. */
const enum need *need_of_work(struct need_list *l, const struct subject *s);

/* Nonzero when the readings of that meter of @s are needed. */
int need_of_meter(
    const struct need_list *l, const struct subject *s, enum meter meter);

/*
 * The first day on which the dues of @s ask what its meters showed, given the
 * @n records of its work that are needed: the day on which what goes by a
 * meter was last done, or is taken as done to look ahead.  DAY_NONE when they
 * ask for none.
 */
day_t need_first_asked(const struct need_list *l, const struct subject *s,
    const struct record *work, size_t n);

/* Going back through the readings of a meter.  Begin with @since set to the
 * first day that is asked for, @last to DAY_NONE and the rest 0. */
struct need_back {
    day_t since;
    day_t last; /* that was taken */
    int before; /* days taken before @since */
};

/*
 * Nonzero when the reading on @day is needed, to be asked from the newest on
 * back until it says no; @fitted says that it is the first of a new meter.
 * Needed are those that usage_since() says count, whichever day is asked for.
 * Where one of these is of a new meter, all are: how far the old one went
 * unread is taken from its own past.  A meter that was replaced earlier changes
 * none of them.
 */
int need_goes_back(struct need_back *b, day_t day, int fitted);

#endif
