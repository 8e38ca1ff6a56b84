#ifndef STAGE_H
#define STAGE_H

#include "due.h"

#define STAGE_TEXT 48

/* A moment at which somebody is to hear of a due. */
struct stage {
    char name[STAGE_TEXT]; /* "4-weeks-before", "overdue-4", "no-record-..." */
    day_t day;             /* on which it is reached */
    int dated;             /* it is counted from the deadline */
};

/*
 * The latest stage of @d that has been reached on @today, by the reminders of
 * its rule; a stage on a day that is not a working day is reached on the one
 * before.  One that waits for the return to the road has that of its deadline
 * alone.  Returns 1, or 0 when it is too early for any.
 */
int stage_reached(const struct due *d, day_t today, struct stage *out);

/* What @d lacks, a record or a reading, is a stage beside those of its
 * deadline, anew each ISO week.  Returns 1, or 0 when it lacks nothing. */
int stage_missing(const struct due *d, day_t today, struct stage *out);

/* That @d failed is a stage beside these, once a failure.  Returns 1, or 0 when
 * it has not.  It concerns everybody. */
int stage_failed(const struct due *d, struct stage *out);

/* Nonzero when @p wants to hear of @s, the stage of @d reached on @today.  Who
 * hears only so long after the deadline does so on that very day, whenever the
 * next stage is: what stays overdue climbs to them. */
int stage_concerns(const struct stage *s, const struct due *d, day_t today,
    const struct person *p);

#endif
