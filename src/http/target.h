#ifndef TARGET_H
#define TARGET_H

#include <stddef.h>

enum {
    TARGET_MOST = 255 /* bytes of a path */
};

/*
 * What a request asks for, read from the raw target on its first line, before
 * anything is unescaped: segments of letters, digits, ".", "_" and "-", none
 * of them empty or beginning with a dot.  What else the raw target holds is
 * refused, not repaired.  A query is allowed, since clients add one to get
 * round caches, and ignored.
 *
 * In "/calendar/KEY/harbour.ics" the second segment may be a key: @pattern is
 * the path with "*" in its place.
 */
struct target {
    char path[TARGET_MOST + 1];
    char pattern[TARGET_MOST + 1];
    const char *key; /* in path, or NULL when it has no such segment */
    size_t key_len;
};

/* Read the raw target @raw.  Returns 0, or the HTTP status to refuse it with:
 * 400 or 414; then @out is an empty path. */
unsigned target_read(const char *raw, struct target *out);

#endif
