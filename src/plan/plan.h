#ifndef PLAN_H
#define PLAN_H

#include "plan_types.h"

/* A plan that was worked out, opaque. */
struct plan;

/* Work the plan out; NULL when memory is out.  Borrows the problem.  Free
 * with plan_free(). */
struct plan *plan_new(const struct plan_problem *problem);

/* Free @p; NULL is ignored. */
void plan_free(struct plan *p);

/* Nonzero when @b comes after its deadline, or has no day at all. */
int plan_is_late(const struct plan_booking *b);

/* The bookings in order of day, unit and work; sets @n. */
const struct plan_booking *plan_bookings(const struct plan *p, size_t *n);

/* The calls that come too late, in the order of their bookings; sets @n. */
const struct plan_clash *plan_clashes(const struct plan *p, size_t *n);

/* How many visits the bookings make: a unit at a place on a day is one. */
size_t plan_visits(const struct plan *p);

#endif
