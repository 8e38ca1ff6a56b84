#ifndef EVENT_VERSION_H
#define EVENT_VERSION_H

#include "fault.h"

#include <stdint.h>

struct ledger;

#define EVENT_VERSION_HASH 32

/* What a calendar event says of its own history (RFC 5545, 3.8.7). */
struct event_version {
    int64_t sequence; /* SEQUENCE, from 0 */
    int64_t modified; /* DTSTAMP and LAST-MODIFIED, seconds since 1970 */
};

/* An event, and a digest of what it says. */
struct event_version_of {
    const char *feed;
    const char *uid;
    const unsigned char *hash; /* of EVENT_VERSION_HASH bytes */
};

/*
 * The stamp of the event @e at @now in seconds since 1970.  While the content
 * stays, so does the stamp.  When it changes, sequence goes up by one and
 * modified to @now, or to one second after what it was when the clock has gone
 * back.  An event that returns after a while goes on from where it was.
 * Thousands of these belong in one group, see ledger_begin().  Returns 0 or -1.
 */
int event_version_next(struct ledger *l, const struct event_version_of *e,
    int64_t now, struct event_version *out, struct fault *f);

/*
 * Subscribers have seen the event @e with the stamp @seen, perhaps from another
 * ledger than this one.  Where both parts of that are later than what is known,
 * it is what the event said last; where both are earlier, it is old.  Otherwise
 * neither is: each part goes on from the higher, and unless the content is the
 * same, whatever the event says next is news.  Returns 0 or -1.
 */
int event_version_learn(struct ledger *l, const struct event_version_of *e,
    const struct event_version *seen, struct fault *f);

#endif
