#ifndef STOP_MAIL_H
#define STOP_MAIL_H

#include "defects.h"
#include "record.h"
#include "run_context.h"
#include "snapshot.h"

/*
 * Mail at once to everybody who is told of a vehicle, by all, a depot or a
 * subject, whatever their stages and days: that it is not to be driven, or may
 * be again.  It goes into the outbox; within a transaction of the caller it is
 * there when the event is, or neither.  Nobody is told the same twice.  Each
 * returns 0, or -1 with the fault set.
 */

/* Which defects stop something before an event is entered, for
 * stop_mail_after(); in the arena of the run.  NULL when memory is out. */
struct stop_mail_before;
struct stop_mail_before *stop_mail_look(
    const struct run_context *p, const struct defects *ds);

/* Tell what has changed by the event @id, with which the odometer showed
 * @reading, or -1. */
int stop_mail_after(const struct run_context *p,
    const struct stop_mail_before *before, const struct defects *ds, int64_t id,
    int64_t reading, struct fault *f);

/* Tell of the failed job @r, just entered as @id, if it stops its vehicle: of a
 * run that has read what that task needs. */
int stop_mail_failed(const struct run_context *p, const struct task *t,
    const struct record *r, int64_t id, struct fault *f);

/*
 * Tell what no event did: that a deferral lapsed, and that what was told to be
 * stopped may be driven again, because a job was done or a void entered.  With
 * @show, say to it who would be told, and write nothing.
 */
int stop_mail_round(
    const struct run_context *p, struct buf *show, struct fault *f);

#endif
