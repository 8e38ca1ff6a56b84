#ifndef AGENDA_H
#define AGENDA_H

#include "agenda_types.h"
#include "forward.h"
#include "plan.h"
#include "record.h"

/*
 * The plan of a fleet: from the facts and the limits that the fleet file sets,
 * a day for every call for work up to a horizon.
 */
struct agenda;

/* Work the plan out; NULL when memory is out.  Borrows the facts, the
 * changes, and the texts of the days.  Free with agenda_free(). */
struct agenda *agenda_new(
    const struct facts *facts, const struct agenda_options *options);

/* Free @a; NULL is ignored. */
void agenda_free(struct agenda *a);

const struct fleet *agenda_fleet(const struct agenda *a);
const struct agenda_options *agenda_options(const struct agenda *a);

/* The problem that was posed, for the names and limits in it, and its plan. */
const struct plan_problem *agenda_problem(const struct agenda *a);
const struct plan *agenda_plan(const struct agenda *a);

/* The task behind a work of the problem, and the subject that comes for it. */
const struct task *agenda_task(const struct agenda *a, size_t work);
const struct subject *agenda_subject(const struct agenda *a, size_t work);

/* The subject that a unit of the problem is, and whether one is off the road on
 * @d. */
const struct subject *agenda_unit_subject(const struct agenda *a, size_t unit);
int agenda_is_off_road(
    const struct agenda *a, const struct subject *s, day_t d);

/* The booking of the task @t for the call with that deadline, or NULL. */
const struct plan_booking *agenda_find(
    const struct agenda *a, const struct task *t, day_t deadline);

/* All bookings in the order of their tasks, those of one task by cycle; sets
 * @n. */
const struct plan_booking *const *agenda_by_task(
    const struct agenda *a, size_t *n);

/* Who fixed the day of a booking, or NULL when nobody did. */
const struct booked *agenda_fixed(
    const struct agenda *a, const struct plan_booking *b);

/* What has no day, in the order of their tasks; sets @n. */
const struct agenda_undated *agenda_undated(const struct agenda *a, size_t *n);

/*
 * The day that the present call of @t was booked for, or else, where nobody
 * booked it, on which an earlier plan had it, that has passed without it being
 * done; or DAY_NONE.  The plan has another day for it, the day that was said is
 * that one.
 */
day_t agenda_passed(const struct agenda *a, const struct task *t);

/* The day on which the work of @b last failed without having been done since,
 * or DAY_NONE; later cycles of it have not failed. */
day_t agenda_failed(const struct agenda *a, const struct plan_booking *b);

/* All of them, in the order of their tasks; sets @n. */
const struct agenda_covered *agenda_covered(const struct agenda *a, size_t *n);

/* The booking of the work that does for @c, or NULL when that has none. */
const struct plan_booking *agenda_wider(
    const struct agenda *a, const struct agenda_covered *c);

#endif
