#ifndef PLAN_TYPES_H
#define PLAN_TYPES_H

#include "work_calendar.h"

#include <stddef.h>

/*
 * A year of work laid out on days: every call of every work gets a day within
 * its window, so that no limit is passed and the vehicles come in for few
 * visits, each as late as sensible.
 *
 * Pure numbers and names: what a call is, and when the next one falls, is
 * asked of the caller.  The same problem gives the same plan.
 */

/* Where work is done.  A place takes so many vehicles a day, and so much
 * work; 0 is for no limit. */
struct plan_place {
    const char *name;
    int vehicles;
    int minutes;
};

/* Of these units no more than so many may be away on one day. */
struct plan_group {
    const char *name;
    const struct work_calendar *on; /* the days it holds on; NULL for all */
    int away;
};

/* What comes to a place for work: a vehicle with all that it carries. */
struct plan_unit {
    const char *name;
    const size_t *groups; /* those it is in */
    size_t n_groups;
};

/* One kind of work on one unit, time after time. */
struct plan_work {
    size_t unit;
    size_t place;
    int minutes;
    int stays; /* the unit stays in use: it is not away, takes no room at the
                  place, and such work can be done wherever it is */
    const struct work_calendar *open; /* the days on which it can be done */
};

/* One time that work is to be done: a cycle. */
struct plan_call {
    day_t from;    /* the first day on which it counts for this cycle */
    day_t to;      /* its deadline */
    day_t fixed;   /* booked by somebody for that day, or DAY_NONE; a day before
                      today books nothing */
    day_t planned; /* where an earlier plan had it, or DAY_NONE */
    int sooner;    /* rather than be late it may be done so many days before
                      `from' too, which wastes some of its interval */
};

struct plan_problem {
    day_t today; /* nothing is planned before */
    day_t until; /* calls with a later deadline are left to a later plan */
    const struct plan_place *places;
    size_t n_places;
    const struct plan_group *groups;
    size_t n_groups;
    const struct plan_unit *units;
    size_t n_units;
    const struct plan_work *works;
    size_t n_works;
    /*
     * The next call of @work once it was done on each of the @n days @done.
     * Doing it earlier never makes the next deadline later.  Returns 1, or 0
     * when there is none, or -1 when memory is out.
     */
    int (*next)(void *with, size_t work, const day_t *done, size_t n,
        struct plan_call *out);
    void *with;
};

/* What can keep work from a day. */
enum plan_limit {
    PLAN_FREE,      /* nothing does */
    PLAN_SHUT,      /* not a working day for it */
    PLAN_ELSEWHERE, /* the unit is at another place */
    PLAN_VEHICLES,  /* the place takes no more vehicles */
    PLAN_MINUTES,   /* the place has no more hours */
    PLAN_AWAY       /* no more of a group may be away */
};

/* Why a booking is on its day. */
enum plan_cause {
    PLAN_FIXED,    /* somebody booked it */
    PLAN_LAST_DAY, /* the last working day by the deadline */
    PLAN_TOGETHER, /* with other work on the same visit */
    PLAN_CROWDED,  /* a limit is reached on every later day */
    PLAN_KEPT,     /* an earlier plan had it there */
    PLAN_EVEN,     /* less is done on that day than on those after it */
    PLAN_LATE      /* after the deadline: no day by then was free */
};

/* One call and its day. */
struct plan_booking {
    size_t work;
    size_t unit; /* that of the work, as the next */
    size_t place;
    size_t cycle; /* 0 for the one that is due now */
    struct plan_call call;
    day_t day; /* DAY_NONE with PLAN_LATE: none for months after the deadline */
    enum plan_cause cause;
    size_t with;           /* PLAN_TOGETHER: the booking that set the day */
    enum plan_limit limit; /* PLAN_CROWDED, PLAN_LATE: the limit in the way, or
                              PLAN_FREE when the deadline is past; PLAN_FIXED:
                              the limit that it passes, or PLAN_FREE */
    size_t group;          /* of PLAN_AWAY */
    day_t on;              /* the last day on which it was in the way */
    int first;             /* PLAN_LATE: on no day before it could it be */
    size_t item;           /* a number that is the planner's own */
};

/*
 * A call for which no day is left by its deadline, and the smallest change
 * that would give it one.
 */
struct plan_clash {
    size_t booking;
    day_t more; /* one limit more on this day would do, with all else
                   as it is; DAY_NONE when none would */
    enum plan_limit
        limit;    /* that limit: PLAN_VEHICLES or PLAN_AWAY for one
                     more, PLAN_MINUTES for as many as the work takes */
    size_t group; /* of PLAN_AWAY */
    int earlier;  /* or being allowed so many days before `from', where others
                     may have to move; 0 when nothing up to a quarter helps */
};

#endif
