#ifndef REOPEN_H
#define REOPEN_H

#include "run_context.h"

/*
 * Read the clock and the ledger once more, for a pass that rests; another
 * process may keep the ledger for half a second.  A ledger that @must_exist is
 * not made anew when it is gone.  0, or -1 with @f set, and the pass rests.
 */
int reopen(struct run_context *p, int must_exist, struct fault *f);

#endif
