#ifndef PUBLISH_H
#define PUBLISH_H

#include "run_context.h"

struct buf;
struct snapshot;

/*
 * The bytes of @feed as subscribers are to see them, appended to @out.  Events
 * that changed since they were last published get a new stamp, which the ledger
 * keeps.  What was built is read back before it is handed out.  Returns 0, or
 * -1 with @f set: then the old bytes are to stay.
 */
int publish_feed(const struct run_context *p, const struct snapshot *s,
    const struct feed *feed, struct buf *out, struct fault *f);

/*
 * Bring the files of all feeds in the site's feed folder up to date; one of
 * which nothing has changed is left alone.  Nothing to do without a folder.  A
 * feed that would lose more than half of its dues is held back: EX_DATAERR.
 * One that has no room for all its dues is a line in @notes.  Every feed is
 * tried; returns 0, or -1 with @f set to what failed, as far as it holds.
 */
int publish_all(
    const struct run_context *p, struct buf *notes, struct fault *f);

/* Do so for @feed alone, even when it loses more than half, while no other run
 * publishes. */
int publish_accept(const struct run_context *p, const struct feed *feed,
    struct buf *notes, struct fault *f);

/* Add a warning for each feed with more dues than it may have events. */
int publish_warn(
    const struct run_context *p, struct problems *ps, struct fault *f);

/* The feed of that id, letters in either case, or NULL. */
const struct feed *publish_find(const struct run_context *p, const char *id);

/*
 * When the bytes of @feed, of which @len are at @bytes, became what they are,
 * in seconds since 1970.  The ledger keeps it: it stays while they stay, and
 * when they change it is later than before, whatever the clock says.  Returns
 * 0, or -1 with @f set.
 */
int publish_modified(const struct run_context *p, const struct feed *feed,
    const char *bytes, size_t len, int64_t *out, struct fault *f);

#endif
