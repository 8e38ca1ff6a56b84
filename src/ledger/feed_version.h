#ifndef FEED_VERSION_H
#define FEED_VERSION_H

#include "fault.h"

#include <stdint.h>

struct ledger;

#define FEED_VERSION_HASH 32

/* What was last published of a feed. */
struct feed_version {
    const unsigned char *hash; /* FEED_VERSION_HASH bytes: of all that it is
                                  made from */
    int same;                  /* found: that hash is the one asked with */
    int64_t dues;              /* that it shows, */
    int64_t left_out;          /* and that it had no room for */
    int64_t size;              /* of its file, in bytes */
    int64_t written;           /* that file, in nanoseconds since 1970 */
};

/* The last edition of @feed, compared with @e->hash: 1 and fills in @e, 0 when
 * there is none, or -1. */
int feed_version_find(struct ledger *l, const char *feed,
    struct feed_version *e, struct fault *f);

/* Keep @e as the last edition of @feed: 0 or -1. */
int feed_version_keep(struct ledger *l, const char *feed,
    const struct feed_version *e, struct fault *f);

#endif
