#include "modified.h"

#include "event_version.h"

#include <nettle/sha2.h>

int
modified_since(const struct run_context *p, const struct feed *feed,
    const char *bytes, size_t len, int64_t *out, struct fault *f)
{
    struct sha256_ctx sha;
    unsigned char hash[EVENT_VERSION_HASH];
    struct event_version stamp;

    sha256_init(&sha);
    sha256_update(&sha, len, (const uint8_t *)bytes);
    sha256_digest(&sha, EVENT_VERSION_HASH, hash);
    /* The feed as a whole is stamped like its events, none of which has this
     * for its UID. */
    if (event_version_next(run_ledger(p),
            &(struct event_version_of){feed->id, "the feed", hash},
            run_moment(p).now, &stamp, f))
        return -1;
    *out = stamp.modified;
    return 0;
}
