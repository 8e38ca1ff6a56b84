#ifndef MAILING_H
#define MAILING_H

#include "buf.h"
#include "run_context.h"
#include "sent_reminder.h"

/* Whoever keeps the program, as the outbox has them: no person's id. */
#define MAILING_ADMIN "(keeper)"

/* A message of this site to somebody. */
struct mailing {
    const char *person;     /* for the outbox: an id, or MAILING_ADMIN */
    const char *address;    /* of the same */
    const struct buf *seed; /* what its Message-ID is made from, so that a run
                               that is repeated makes no second message */
    const struct buf *subject;
    const struct buf *text;
    const struct buf *html;     /* may be NULL */
    const struct buf *calendar; /* empty or NULL for none */
};

/*
 * Compose the message and put it into the outbox with the @n things that it
 * tells, all or nothing.  Returns 0, or -1 with @f set.
 */
int mailing_put(const struct run_context *p, const struct mailing *m,
    const struct sent_reminder *told, size_t n, struct fault *f);

#endif
