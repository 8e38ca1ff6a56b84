#ifndef STANDING_H
#define STANDING_H

#include "booked.h"
#include "run_context.h"

/*
 * The bookings that stand in the ledger for what the fleet file has, in order
 * of task, then of entry: in the arena of the pass.  Some may be for cycles
 * that are over.  NULL with @f set.
 */
struct booked *standing_bookings(
    const struct run_context *p, size_t *n, struct fault *f);

/* The task of those ids, of which letters match in either case; NULL where the
 * fleet file has it no more. */
struct standing_names;
struct standing_names *standing_names(const struct fleet *f);
const struct task *standing_task(
    const struct standing_names *n, const char *subject, const char *job);
void standing_names_free(struct standing_names *n);

#endif
