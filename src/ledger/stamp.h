#ifndef STAMP_H
#define STAMP_H

#include "fault.h"

#include <stdint.h>

struct ledger;

#define STAMP_HASH 32

/* What a calendar event says of its own history (RFC 5545, 3.8.7). */
struct stamp {
    int64_t sequence; /* SEQUENCE, from 0 */
    int64_t modified; /* DTSTAMP and LAST-MODIFIED, seconds since 1970 */
};

/*
 * The stamp of the event @uid whose content has @hash, at @now in seconds
 * since 1970.  While the content stays, so does the stamp.  When it changes,
 * sequence goes up by one and modified to @now, or to one second after what
 * it was when the clock has gone back.  An event that returns after a while
 * goes on from where it was.  Thousands of these belong in one group, see
 * ledger_begin().  Returns 0 or -1.
 */
int stamp_event(struct ledger *l, const char *uid,
    const unsigned char hash[STAMP_HASH], int64_t now, struct stamp *out,
    struct fault *f);

#endif
