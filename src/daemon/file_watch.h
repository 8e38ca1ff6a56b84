#ifndef FILE_WATCH_H
#define FILE_WATCH_H

#include "fault.h"

/* What was seen: bits. */
enum file_watch_sight {
    FILE_WATCH_LEDGER = 1 << 0, /* something may have been written to it */
    FILE_WATCH_FLEET = 1 << 1   /* a file of the fleet may be another */
};

/*
 * Watches the folders of the ledger and of the fleet's files, since editors and
 * a restore put new files in the place of old ones.
 */
struct file_watch;

/* Nothing is watched yet; NULL with @f set on failure.  Close with
 * file_watch_close(). */
struct file_watch *file_watch_open(struct fault *f);

/* Stop; NULL is ignored. */
void file_watch_close(struct file_watch *l);

/* A file descriptor that can be read when there is something to see. */
int file_watch_fd(const struct file_watch *l);

/* Watch the ledger at @path: 0 or -1 with @f set. */
int file_watch_ledger(struct file_watch *l, const char *path, struct fault *f);

/* Watch a file of the fleet, and where it leads when it is a link: 1 when a
 * folder of these was not watched before, so that a change may have been
 * missed, else 0, or -1 with @f set. */
int file_watch_file(struct file_watch *l, const char *path, struct fault *f);

/* What was seen since the last time. */
unsigned file_watch_look(struct file_watch *l);

#endif
