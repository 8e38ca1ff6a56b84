#ifndef FILE_MAP_H
#define FILE_MAP_H

#include <stddef.h>
#include <stdint.h>

/* A file as bytes in memory, only to be read. */
struct file_map {
    const char *bytes;
    size_t len;
};

/* Map the file @path: 0, or -1 with errno set. */
int file_map_open(const char *path, struct file_map *m);
void file_map_close(struct file_map *m);

/* The size of the file @path in bytes, and when it was last written, in
 * nanoseconds since 1970: 0, or -1 with errno set. */
int file_map_look(const char *path, int64_t *size, int64_t *written);

#endif
