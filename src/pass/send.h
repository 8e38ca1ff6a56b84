#ifndef SEND_H
#define SEND_H

#include "run_context.h"

/* How long a message is tried, and the waits between: from the first to the
 * last, each twice the one before. */
#define SEND_DAYS 5
#define SEND_FIRST_WAIT 300  /* seconds: five minutes */
#define SEND_LAST_WAIT 21600 /* six hours */

/* Which messages of the outbox; all zeros is every one that waits. */
struct send_request {
    int timely;   /* only those whose next try has come */
    int64_t only; /* this one alone, even when it was given up; 0 for none */
};

/* What became of them. */
struct send_tally {
    size_t sent;
    size_t waiting; /* after a failure */
    size_t gave_up;
};

/*
 * Hand messages of the outbox to the site's transport, the least tried first,
 * and of these the oldest, while no other process does.  Of one that was
 * refused for good, or for SEND_DAYS put off, nobody tries any more.  Every
 * message is tried, unless the server would take none, or the ledger fails: a
 * message that it has not noted as sent would go out again, so then no other
 * goes out.  Sets @tally and returns 0, or -1 with @f set to what is worst: the
 * ledger's fault, else EX_UNAVAILABLE for what was given up, else EX_TEMPFAIL
 * for what waits.
 */
int send_mail(const struct run_context *p, const struct send_request *request,
    struct send_tally *tally, struct fault *f);

#endif
