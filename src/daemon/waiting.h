#ifndef WAITING_H
#define WAITING_H

#include "run_context.h"

/* The mail that is not sent. */
struct waiting {
    int64_t waiting; /* messages, */
    int64_t late;    /* of those, for so long that somebody has to know */
    int64_t given_up;
    int64_t next; /* when the next is to be tried, or TIMING_NEVER */
};

/* Look into the outbox.  Returns 0, or -1 with @f set, and @out as it was. */
int waiting_look(
    const struct run_context *p, struct waiting *out, struct fault *f);

#endif
