#ifndef RUN_LOCK_H
#define RUN_LOCK_H

#include "run_context.h"

/*
 * Wait for nobody: the turn to write feeds and to send, which one process at a
 * time has.  Two at once would tell people everything twice.  Returns a handle
 * for lock_drop(), or -1 with @f set: EX_TEMPFAIL when another has it.
 */
int run_lock_take(const struct run_context *p, struct fault *f);

/* The same for who hands mail to a server, which may take its time: so that
 * nothing else has to wait for it. */
int run_lock_send(const struct run_context *p, struct fault *f);

#endif
