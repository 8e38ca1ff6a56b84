#ifndef ADMIN_MAIL_H
#define ADMIN_MAIL_H

#include "health_checks.h"

struct buf;

/*
 * Tell whoever keeps the program, the fleet file's "keeper", what is wrong with
 * it: what is new, what says something else than before, what was last told a
 * week ago, and what is over.  Nothing of these, no message; no keeper,
 * neither.  The message goes into the outbox together with the note of what it
 * tells.  Returns 0, or -1 with @f set.
 */
int admin_mail_tell(const struct run_context *p, const struct health_checks *w,
    struct fault *f);

/* Append what admin_mail_tell() would do, writing nothing.  Returns 0 or -1. */
int admin_mail_show(const struct run_context *p, const struct health_checks *w,
    struct buf *out, struct fault *f);

#endif
