#ifndef REOPEN_H
#define REOPEN_H

#include "run_context.h"

/*
 * Read the clock and so much of the ledger once more, for a run that rests;
 * another process may keep the ledger for half a second.  A ledger that
 * @must_exist is not made anew when it is gone.  0, or -1 with @f set, and the
 * run rests.
 */
int reopen(struct run_context *p, int must_exist, enum run_reads reads,
    struct fault *f);

#endif
