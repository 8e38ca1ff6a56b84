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

#endif
