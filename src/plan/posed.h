#ifndef POSED_H
#define POSED_H

#include "agenda.h"

#include "arena.h"

/*
 * Inside the plan layer only: what an agenda is made of, and the two halves of
 * posing its problem.
 */

#define AGENDA_NO_WORK ((size_t)-1)

/* Calendars that were made for a plan: days taken out of another. */
struct cut_calendar {
    const struct work_calendar *of;
    const struct workplace *place;
    const struct subject *root; /* whose days off the road are out, or NULL */
    struct work_calendar *made;
    struct cut_calendar *next;
};

/* The work behind one of the problem's. */
struct posed_work {
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
    day_t passed;             /* as agenda_passed() */
    day_t failed;             /* as in forward_call */
};

struct agenda {
    const struct facts *facts;
    struct agenda_options options;
    struct booked *fixed; /* by task, then day, as the next */
    int *fixed_for;       /* of each, as booked_ahead() */
    struct agenda_day *kept;
    struct arena *arena;
    struct forward *forward;
    struct plan_problem problem; /* borrows the next three */
    struct plan_group *groups;
    struct plan_unit *units;
    struct plan_work *posed;
    struct posed_work *works;
    size_t *place_of; /* of each workplace of the fleet */
    size_t *work_of;  /* of each task of the fleet, or AGENDA_NO_WORK */
    const struct subject **subjects; /* of the units */
    struct cut_calendar *cut;
    struct agenda_undated *undated;
    size_t n_undated;
    struct agenda_covered *covered;
    size_t n_covered;
    day_t *done; /* of one work while its next call is asked for */
    size_t done_size;
    struct plan *plan;
    const struct plan_booking **by_work; /* in order of work and cycle */
};

/* The last day on which anything may still be placed: some months after the
 * horizon. */
day_t posed_last(const struct agenda *a);

/* What comes for the work on @s: the vehicle that carries it, or itself. */
const struct subject *posed_root(const struct subject *s);

/* The @n places, subjects or limits at @list, of @each bytes, by their ids:
 * NULL when memory is out. */
const void **posed_in_order(
    struct agenda *a, const void *list, size_t n, size_t each);

/* posed.c: places, limits, units and works of the problem: 0, or -1 when
 * memory is out. */
int posed_make(struct agenda *a);

/* posed_limit.c: the limits on who may be away, each for the days on which the
 * same vehicles are off the road anyway. */
int posed_limits(struct agenda *a);

/* posed_day.c: the calendar of the task at @at of the fleet without the days
 * that facts and changes take out of it; NULL when memory is out. */
const struct work_calendar *posed_calendar(struct agenda *a, size_t at);

/* Keep @c, which may be NULL, with the agenda. */
struct work_calendar *posed_keep(
    struct agenda *a, struct work_calendar *c, struct cut_calendar key);

/* posed_call.c: whether a wider job completes the present call @c of @w as
 * well: 1, 0 or -1 when memory is out. */
int posed_is_covered(
    struct agenda *a, const struct posed_work *w, const struct forward_call *c);

/* posed_call.c: the problem's next(). */
int posed_next(void *with, size_t work, const day_t *done, size_t n,
    struct plan_call *out);

#endif
