#ifndef MAPPED_H
#define MAPPED_H

#include <stddef.h>
#include <stdint.h>

/* A file as bytes in memory, only to be read. */
struct mapped {
    const char *bytes;
    size_t len;
};

/* Map the file @path: 0, or -1 with errno set. */
int mapped_open(const char *path, struct mapped *m);
void mapped_close(struct mapped *m);

/* The size of the file @path in bytes, and when it was last written, in
 * nanoseconds since 1970: 0, or -1 with errno set. */
int mapped_look(const char *path, int64_t *size, int64_t *written);

#endif
