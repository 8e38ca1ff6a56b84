#ifndef EVIDENCE_H
#define EVIDENCE_H

#include "due.h"

/*
 * What was due of one subject in a stretch of time, and when it was done: for
 * somebody who asks years later.
 */
struct evidence;

/* One cycle of one job, or one call for a follow-on; or a failure on the way.
 */
struct proof {
    const struct task *task;
    day_t deadline; /* that stood when it was done; DAY_NONE when none did */
    day_t done;     /* DAY_NONE while it is not */
    int64_t over;   /* how much more than was due the meter showed then; 0 when
                       it did not, or nobody can tell */
    enum meter meter;             /* that this is of */
    const struct record *record;  /* NULL when only the fleet file says so */
    day_t called;                 /* of a follow-on: the day of the work that
                                     called for it; else DAY_NONE */
    const struct record *by_call; /* its record; NULL when there is none */
    int extra;  /* too early to count for the deadline, which stood on */
    int needed; /* work that is done when needed, and has no deadline */
    int open;   /* not done, and not past its deadline */
    int failed; /* tried on the day @done, and the deadline stood on */
};

/*
 * Every cycle of @subject that was done or failed from @from to @to, or whose
 * deadline lies there and had passed by @today without being done; and every
 * call for a follow-on that is open and was made by @to.  By day, then in the
 * order of the fleet file, then of entry.  NULL when memory is out; free with
 * evidence_free().
 */
struct evidence *evidence_new(const struct facts *facts,
    const struct subject *subject, day_t from, day_t to, day_t today);

/* Free @e; NULL is ignored. */
void evidence_free(struct evidence *e);

/* Its cycles; sets @n. */
const struct proof *evidence_proofs(const struct evidence *e, size_t *n);

/* Nonzero when it was done, not failed, by its deadline and before the meter
 * showed more than was due; or had none to meet. */
int evidence_in_time(const struct proof *p);

#endif
