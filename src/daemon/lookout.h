#ifndef LOOKOUT_H
#define LOOKOUT_H

#include "fault.h"

/* What was seen: bits. */
enum lookout_sight {
    LOOKOUT_LEDGER = 1 << 0, /* something may have been written to it */
    LOOKOUT_FLEET = 1 << 1   /* a file of the fleet may be another */
};

/*
 * Watches the folders of the ledger and of the fleet's files, since editors and
 * a restore put new files in the place of old ones.
 */
struct lookout;

/* Nothing is watched yet; NULL with @f set on failure.  Close with
 * lookout_close(). */
struct lookout *lookout_open(struct fault *f);

/* Stop; NULL is ignored. */
void lookout_close(struct lookout *l);

/* A file descriptor that can be read when there is something to see. */
int lookout_fd(const struct lookout *l);

/* Watch the ledger at @path: 0 or -1 with @f set. */
int lookout_ledger(struct lookout *l, const char *path, struct fault *f);

/* Watch a file of the fleet, and where it leads when it is a link: 1 when a
 * folder of these was not watched before, so that a change may have been
 * missed, else 0, or -1 with @f set. */
int lookout_file(struct lookout *l, const char *path, struct fault *f);

/* What was seen since the last time. */
unsigned lookout_look(struct lookout *l);

#endif
