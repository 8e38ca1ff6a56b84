#ifndef LOAD_H
#define LOAD_H

#include "plan_types.h"

/*
 * Inside the plan layer only: how much stands on each day at each place, how
 * many of each group are away, and where each unit is.
 */
struct load;

/* What keeps work from a day: the limit, and the group of PLAN_AWAY. */
struct hindrance {
    enum plan_limit limit;
    size_t group;
};

/* An empty load for the days @first to @last; NULL when memory is out.  Free
 * with load_free(). */
struct load *load_new(const struct plan_problem *p, day_t first, day_t last);

/* Free @l; NULL is ignored. */
void load_free(struct load *l);

/* What would keep @w from @d, which must be one of the days. */
struct hindrance load_check(
    const struct load *l, const struct plan_work *w, day_t d);

/* The same, were it a working day. */
struct hindrance load_check_open(
    const struct load *l, const struct plan_work *w, day_t d);

/*
 * Put @w on @d, whatever the limits, and take it off again.  Putting returns
 * nonzero, which taking has to be told, when the unit is at another place that
 * day: it counts there, and here no more than work that stays.
 */
int load_put(struct load *l, const struct plan_work *w, day_t d);
void load_take(struct load *l, const struct plan_work *w, day_t d, int apart);

/* How busy the place of @w is on @d: to compare days, least first. */
long load_weight(const struct load *l, const struct plan_work *w, day_t d);

/* Raise the limit @h on @d by as much as @w needs, and lower it again with
 * @sign -1: to ask what if. */
void load_allow(struct load *l, const struct plan_work *w, day_t d,
    const struct hindrance *h, int sign);

#endif
