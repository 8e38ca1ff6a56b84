#ifndef MAILER_H
#define MAILER_H

#include "pass.h"

#include <sys/types.h>

/*
 * Begin to send the mail that is to be tried by now, in a child process of its
 * own, so that a slow server holds up nothing.  @p rests.  Returns the child,
 * or -1 with @f set.
 */
pid_t mailer_start(struct pass *p, struct fault *f);

/* Nonzero once the child has ended: it is gone then. */
int mailer_has_ended(pid_t child);

/* Cut the child off and wait for its end; 0 is ignored.  What it was sending is
 * noted in the ledger as cut off. */
void mailer_stop(pid_t child);

#endif
