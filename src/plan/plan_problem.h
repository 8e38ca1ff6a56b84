#ifndef PLAN_PROBLEM_H
#define PLAN_PROBLEM_H

#include "fleet_plan_types.h"
#include "forward.h"
#include "plan_types.h"

#include "arena.h"

/*
 * Inside the plan layer only: what the plan of a fleet is made of, and the two
 * halves of stating its problem.
 */

#define FLEET_PLAN_NO_WORK ((size_t)-1)

/* Calendars that were made for a plan: days taken out of another. */
struct cut_calendar {
    const struct work_calendar *of;
    const struct workplace *place;
    const struct subject *root; /* whose days off the road are out, or NULL */
    struct work_calendar *made;
    struct cut_calendar *next;
};

/* The work behind one of the problem's. */
struct plan_task {
    const struct task *task;
    size_t at;          /* the task's place in the fleet */
    size_t first_fixed; /* of the fixed days that are the task's */
    size_t n_fixed;
    size_t first_kept;
    size_t n_kept;
    struct cycle now; /* its present cycle */
    day_t wide_from;  /* a wider job's call, which this one is covered by; */
    day_t wide_to;    /* DAY_NONE for none */
    const struct task *wider; /* that one */
    day_t passed;             /* as fleet_plan_passed() */
    day_t failed;             /* as in forward_call */
};

struct fleet_plan {
    const struct facts *facts;
    struct fleet_plan_options options;
    struct booked *fixed; /* by task, then day, as the next */
    int *fixed_for;       /* of each, as booked_ahead() */
    struct fleet_plan_day *kept;
    struct arena *arena;
    struct forward *forward;
    struct plan_problem problem; /* borrows the next three */
    struct plan_group *groups;
    struct plan_unit *units;
    struct plan_work *posed;
    struct plan_task *works;
    size_t *place_of; /* of each workplace of the fleet */
    size_t *work_of;  /* of each task of the fleet, or FLEET_PLAN_NO_WORK */
    const struct subject **subjects; /* of the units */
    struct cut_calendar *cut;
    struct fleet_plan_undated *undated;
    size_t n_undated;
    struct fleet_plan_covered *covered;
    size_t n_covered;
    day_t *done; /* of one work while its next call is asked for */
    size_t done_size;
    struct plan *plan;
    const struct plan_booking **by_work; /* in order of work and cycle */
};

/* The order of tasks in a plan, which does not go by that of the fleet file: by
 * subject, then by job.  Below 0 when @a comes first, above when @b does. */
int plan_problem_order(const struct task *a, const struct task *b);

/* What comes for the work on @s: the vehicle that carries it, or itself. */
const struct subject *plan_problem_root(const struct subject *s);

/* Places, limits, units and works of the problem of @a: 0, or -1 when memory is
 * out. */
int plan_problem_make(struct fleet_plan *a);

/* next_call.c: whether a wider job completes the present call @c of @w as
 * well: 1, 0 or -1 when memory is out. */
int plan_problem_is_covered(struct fleet_plan *a, const struct plan_task *w,
    const struct forward_call *c);

/* next_call.c: the problem's next(). */
int plan_problem_next(void *with, size_t work, const day_t *done, size_t n,
    struct plan_call *out);

#endif
