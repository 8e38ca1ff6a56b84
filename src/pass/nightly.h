#ifndef NIGHTLY_H
#define NIGHTLY_H

#include "run_context.h"

/*
 * The whole pass once: feeds written, reminders decided and sent.  One part
 * that fails does not keep the others from running.  What somebody should know
 * although all went well is a line in @notes.  Returns 0, or -1 with @f set to
 * the first failure.
 */
int nightly_run(
    const struct run_context *p, struct buf *notes, struct fault *f);

/* Publish @feed alone, whatever it loses, while no pass runs: as above. */
int nightly_accept(const struct run_context *p, const struct feed *feed,
    struct buf *notes, struct fault *f);

/*
 * Append what nightly_run() would send to whom, and why, for people to read,
 * and write nothing: the ledger of @p may be open for reading only.  Returns 0,
 * or -1 with @f set.
 */
int nightly_show(const struct run_context *p, struct buf *out, struct fault *f);

#endif
