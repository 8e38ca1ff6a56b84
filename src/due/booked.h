#ifndef BOOKED_H
#define BOOKED_H

#include "due.h"

/*
 * Days that somebody booked for work: facts of the world.  One belongs to a
 * cycle and ends with it: when the work is done, or was tried and failed on or
 * after that day.
 */
struct booked {
    const struct task *task;
    day_t day;
    int64_t id;
    int64_t entered;   /* seconds since 1970-01-01T00:00:00Z */
    const char *cycle; /* as due_cycle_text(), when it was entered */
    const char *by;    /* these two may be NULL */
    const char *note;
};

/* What a booking is that is for no cycle to come, and one of which the records
 * at hand do not tell, where its day has to. */
#define BOOKED_OVER (-1)
#define BOOKED_UNTOLD (-2)

struct calc_context;

/*
 * Which cycle @b is for: 0 for the present one, which is @now, N for the Nth
 * after it, or one of the above.  Of what was done the first @n_done of @r are
 * facts, and not assumed.
 */
int booked_ahead(const struct booked *b, const struct calc_context *r,
    size_t n_done, const struct cycle *now);

/*
 * Nonzero when a call due on @deadline (DAY_NONE for none), after work on @last
 * (the same), takes the day @d for its own, where nothing else tells: the first
 * call also one that is a little late, and any that is late already.
 */
int booked_takes(day_t d, day_t deadline, day_t last, int first, day_t today);

/* The booking of those of @r for its cycle, which is @r->ahead after @now; of
 * several the newest; NULL for none. */
const struct booked *booked_for(
    const struct calc_context *r, const struct cycle *now, day_t deadline);

#endif
