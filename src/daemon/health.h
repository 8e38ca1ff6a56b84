#ifndef HEALTH_H
#define HEALTH_H

#include "run_context.h"

#include <stdint.h>

struct resource;
struct troubles;

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

/* How things stand, for a monitor: no names, since anybody may ask. */
struct health {
    int64_t passed; /* when the last round was made, 0 for never */
    int pass;       /* nonzero when that went well, and so on */
    int fleet;
    int feeds;
    int reminders;
    int sending;
    int64_t waiting; /* messages in the outbox */
    int64_t given_up;
    int is_old; /* nothing newer could be shown for a while; not on the page */
};

/* How things stand by what is wrong and what mail waits, with the rest left
 * zero. */
struct health health_by(const struct troubles *t, const struct waiting *mail);

/* The page for /health, in JSON: 200 when all is well, else 503.  NULL when
 * memory is out. */
struct resource *health_page(const struct health *h);

#endif
