#ifndef REMIND_H
#define REMIND_H

#include "run_context.h"
#include "snapshot.h"

struct buf;

/*
 * Decide who is to hear of what today and put one message a person into the
 * ledger's outbox.  A stage is told once of a deadline; of several that have
 * passed since the last run, only the latest.  A deadline that has moved since
 * it was told is told again, and its stages count afresh.  Whoever was never
 * told anything hears in full of what is overdue, due this week or to be
 * booked, and only the names of the rest that is under way.  Every person is
 * tried; returns 0, or -1 with @f set to the first failure.
 */
int remind_all(
    const struct run_context *p, const struct snapshot *s, struct fault *f);

/* The same of what has failed since the last run, and nothing else: it does not
 * wait for the hour of the reminders. */
int remind_failed(
    const struct run_context *p, const struct snapshot *s, struct fault *f);

/* Append what remind_all() would do, writing nothing.  Returns 0 or -1. */
int remind_show(const struct run_context *p, const struct snapshot *s,
    struct buf *out, struct fault *f);

#endif
