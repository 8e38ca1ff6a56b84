#ifndef FOLLOW_H
#define FOLLOW_H

#include "calc_context.h"

/*
 * Inside the due layer only: follow-ons, as the check of the nuts after a wheel
 * was off.  Each piece of work that calls for one is a call of its own, with
 * its own deadline.  The follow-on, done later, answers all calls up to then.
 * On the same day the order of entry decides; where that cannot tell, the call
 * is open: the safer.
 */

/* The first of @r's answers to @call, or NULL while it is open. */
const struct completion *follow_answer(
    const struct calc_context *r, const struct completion *call);

/* @r as if @call, which is one of its own, were the only one.  It says
 * nothing and goes by no plan. */
struct calc_context follow_only(
    const struct calc_context *r, const struct completion *call);

/*
 * Set @r->done to the open call that is due first, of one day the oldest, and
 * @r->unread where nobody can tell when another one is due.  Returns how many
 * are open; with 0 nothing is set.
 */
size_t follow_choose(struct calc_context *r);

/* Say in @r->why, before all else, which calls are open beside @r->done. */
void follow_say_others(const struct calc_context *r);

#endif
