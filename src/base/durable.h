#ifndef DURABLE_H
#define DURABLE_H

#include <stddef.h>

/*
 * Replace the file @path by @len bytes so that a reader sees the old file or
 * the new one, whole, whatever happens: a temporary file in the same folder,
 * fsync, rename, fsync of the folder.  A file that already holds these bytes
 * is left alone.  Returns 1 when written, 0 when it was the same, -1 with
 * errno set when it failed, and then the old file is as it was.
 */
int durable_write(const char *path, const char *bytes, size_t len);

/* Make the folder @path, and those above it, unless they are there: 0 or -1
 * with errno set. */
int durable_folder(const char *path);

#endif
