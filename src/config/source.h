#ifndef SOURCE_H
#define SOURCE_H

#include "fault.h"

#include <stddef.h>

/*
 * Read the regular file at @path whole: its bytes with a NUL after them, to be
 * given to free(), and their number in @len.  A folder, a pipe, a file of more
 * than @most bytes or one that cannot be read is refused: NULL, and @f says
 * why in words that follow the file's name.
 */
char *source_read(const char *path, size_t most, size_t *len, struct fault *f);

#define SECRET_MOST 200

/*
 * Read a secret from the file at @path: one line of 1 to SECRET_MOST printable
 * ASCII characters.  Others must not be able to read or write the file.
 * Returns 0, or -1 and @f says why, in words that follow the file's name and
 * never hold the secret.  The code is EX_NOINPUT when there is no file,
 * EX_NOPERM when it is not ours to read, else EX_CONFIG.
 */
int source_secret(const char *path, char out[SECRET_MOST + 1], struct fault *f);

#endif
