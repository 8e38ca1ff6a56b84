#ifndef DURABLE_H
#define DURABLE_H

#include <stddef.h>

/*
 * Replace the file @path by @len bytes so that a reader sees the old file or
 * the new one, whole, whatever happens: a temporary file in the same folder,
 * fsync, rename, fsync of the folder.  A file that already holds these bytes
 * is left alone.  One process at a time may write a path: the temporary file
 * is PATH.new, so that a killed one leaves nothing the next does not clear
 * away.  Returns 1 when written, 0 when it was the same, -1 with errno set
 * when it failed: then the old file is as it was, unless only the last step
 * failed and the new one may not outlive a power cut.
 */
int durable_write(const char *path, const char *bytes, size_t len);

/*
 * Put the file @from on the disk and then in the place of @to, in the same
 * folder, as durable_write() does.  Returns 0 or -1 with errno set.
 */
int durable_rename(const char *from, const char *to);

/* Make the folder @path, and those above it, unless they are there: 0 or -1
 * with errno set. */
int durable_folder(const char *path);

#endif
