#ifndef ATOMIC_FILE_H
#define ATOMIC_FILE_H

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
int atomic_file_write(const char *path, const char *bytes, size_t len);

/*
 * The same for a file that is written piece by piece and looked at before it
 * takes the place of the old one.
 */
struct atomic_file;

/* Begin to replace the file @path: NULL with errno set on failure. */
struct atomic_file *atomic_file_start(const char *path);

/* Append @n bytes.  A failure is kept for atomic_file_finish(). */
void atomic_file_add(struct atomic_file *d, const char *bytes, size_t n);

/* All that was appended, of *@len bytes, until the next change; NULL with
 * errno set when it cannot be read. */
const char *atomic_file_bytes(struct atomic_file *d, size_t *len);

/* Put the new file in its place and free @d; returns as atomic_file_write(). */
int atomic_file_finish(struct atomic_file *d);

/* Leave the old file as it is and free @d; NULL is ignored. */
void atomic_file_drop(struct atomic_file *d);

/*
 * Put the file @from on the disk and then in the place of @to, in the same
 * folder, as atomic_file_write() does.  Returns 0 or -1 with errno set.
 */
int atomic_file_rename(const char *from, const char *to);

/* Make the folder @path, and those above it, unless they are there: 0 or -1
 * with errno set. */
int atomic_file_folder(const char *path);

#endif
