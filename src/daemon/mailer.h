#ifndef MAILER_H
#define MAILER_H

#include "run_context.h"

#include <sys/types.h>

/*
 * A child process that sends the mail that is to be tried by now, so that a
 * slow server holds up nothing.  All zeros is none.
 */
struct mailer {
    pid_t child;
    int report; /* a file descriptor: why it failed */
};

/* Begin; @m is none, and @p rests.  Returns 0, or -1 with @f set. */
int mailer_start(struct mailer *m, struct run_context *p, struct fault *f);

/* Nonzero once the child has ended: @m is none then, and @f what became of it,
 * as of send_mail(), with a code of 0 when all went well. */
int mailer_has_ended(struct mailer *m, struct fault *f);

/* Cut the child off and wait for its end; none is ignored.  What it was sending
 * is noted in the ledger as cut off. */
void mailer_stop(struct mailer *m);

#endif
