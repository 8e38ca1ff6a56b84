#ifndef NIGHTLY_H
#define NIGHTLY_H

#include "pass.h"

/*
 * The whole pass once: feeds written, reminders decided and sent.  One part
 * that fails does not keep the others from running.  Returns 0, or -1 with
 * @f set to the first failure.
 */
int nightly_run(const struct pass *p, struct fault *f);

/*
 * Append what nightly_run() would send to whom, and why, for people to read,
 * and write nothing: the ledger of @p may be open for reading only.  Returns 0,
 * or -1 with @f set.
 */
int nightly_show(const struct pass *p, struct buf *out, struct fault *f);

#endif
