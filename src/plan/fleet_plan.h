#ifndef FLEET_PLAN_H
#define FLEET_PLAN_H

#include "fleet_plan_types.h"
#include "forward.h"
#include "plan.h"
#include "record.h"

/*
 * The plan of a fleet: from the facts and the limits that the fleet file sets,
 * a day for every call for work up to a horizon.
 */
struct fleet_plan;

/* Work the plan out; NULL when memory is out.  Borrows the facts, the
 * changes, and the texts of the days.  Free with fleet_plan_free(). */
struct fleet_plan *fleet_plan_new(
    const struct facts *facts, const struct fleet_plan_options *options);

/* Free @a; NULL is ignored. */
void fleet_plan_free(struct fleet_plan *a);

const struct fleet *fleet_plan_fleet(const struct fleet_plan *a);
const struct fleet_plan_options *fleet_plan_options(const struct fleet_plan *a);

/* The problem that was posed, for the names and limits in it, and its plan. */
const struct plan_problem *fleet_plan_problem(const struct fleet_plan *a);
const struct plan *fleet_plan_solution(const struct fleet_plan *a);

/* The task behind a work of the problem, and the subject that comes for it. */
const struct task *fleet_plan_task(const struct fleet_plan *a, size_t work);
const struct subject *fleet_plan_subject(
    const struct fleet_plan *a, size_t work);

/* The subject that a unit of the problem is, and whether one is off the road on
 * @d. */
const struct subject *fleet_plan_unit_subject(
    const struct fleet_plan *a, size_t unit);
int fleet_plan_is_off_road(
    const struct fleet_plan *a, const struct subject *s, day_t d);

/* The booking of the task @t for the call with that deadline, or NULL. */
const struct plan_booking *fleet_plan_find(
    const struct fleet_plan *a, const struct task *t, day_t deadline);

/* All bookings in the order of their tasks, those of one task by cycle; sets
 * @n. */
const struct plan_booking *const *fleet_plan_by_task(
    const struct fleet_plan *a, size_t *n);

/* Who fixed the day of a booking, or NULL when nobody did. */
const struct booked *fleet_plan_fixed(
    const struct fleet_plan *a, const struct plan_booking *b);

/* What has no day, in the order of their tasks; sets @n. */
const struct fleet_plan_undated *fleet_plan_undated(
    const struct fleet_plan *a, size_t *n);

/*
 * The day that the present call of @t was booked for, or else, where nobody
 * booked it, on which an earlier plan had it, that has passed without it being
 * done; or DAY_NONE.  The plan has another day for it, the day that was said is
 * that one.
 */
day_t fleet_plan_passed(const struct fleet_plan *a, const struct task *t);

/* The day on which the work of @b last failed without having been done since,
 * or DAY_NONE; later cycles of it have not failed. */
day_t fleet_plan_failed(
    const struct fleet_plan *a, const struct plan_booking *b);

/* All of them, in the order of their tasks; sets @n. */
const struct fleet_plan_covered *fleet_plan_covered(
    const struct fleet_plan *a, size_t *n);

/* The booking of the work that does for @c, or NULL when that has none. */
const struct plan_booking *fleet_plan_wider(
    const struct fleet_plan *a, const struct fleet_plan_covered *c);

#endif
