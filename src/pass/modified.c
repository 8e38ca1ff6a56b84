#include "modified.h"

#include "stamp.h"

#include <nettle/sha2.h>

int
modified_since(const struct run_context *p, const struct feed *feed,
    const char *bytes, size_t len, int64_t *out, struct fault *f)
{
    struct sha256_ctx sha;
    unsigned char hash[STAMP_HASH];
    struct stamp stamp;

    sha256_init(&sha);
    sha256_update(&sha, len, (const uint8_t *)bytes);
    sha256_digest(&sha, STAMP_HASH, hash);
    /* The feed as a whole is stamped like its events, none of which has this
     * for its UID. */
    if (stamp_event(run_ledger(p),
            &(struct stamp_of){feed->id, "the feed", hash}, run_moment(p).now,
            &stamp, f))
        return -1;
    *out = stamp.modified;
    return 0;
}
