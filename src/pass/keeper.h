#ifndef KEEPER_H
#define KEEPER_H

#include "watch.h"

struct buf;

/*
 * Tell whoever keeps the program, the fleet file's "keeper", what is wrong with
 * it: what is new, what says something else than before, what was last told a
 * week ago, and what is over.  Nothing of these, no message; no keeper,
 * neither.  The message goes into the outbox together with the note of what it
 * tells.  Returns 0, or -1 with @f set.
 */
int keeper_tell(
    const struct run_context *p, const struct watch *w, struct fault *f);

/* Append what keeper_tell() would do, writing nothing.  Returns 0 or -1. */
int keeper_show(const struct run_context *p, const struct watch *w,
    struct buf *out, struct fault *f);

#endif
