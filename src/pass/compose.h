#ifndef COMPOSE_H
#define COMPOSE_H

#include "contents.h"

struct buf;
struct atomic_file;

/* What came of a feed. */
struct composed {
    size_t items;    /* events or to-dos, all of them */
    size_t dues;     /* of them, what is due */
    size_t left_out; /* dues that had no room */
};

/*
 * Write the feed @c: each event is stamped, and the ledger keeps the stamps of
 * those that changed, all of them or none.  The bytes are appended to @out, and
 * from there now and then to @file, which may be NULL.  Returns 0, or -1 with
 * @f set.
 */
int compose_feed(const struct run_context *p, const struct contents *c,
    struct buf *out, struct atomic_file *file, struct composed *done,
    struct fault *f);

/*
 * Subscribers have seen the feed of @len bytes at @bytes, and the ledger may
 * not know of it: learn the stamps in it.  Sets @dues to how many dues it
 * shows.  Returns 0 or -1.
 */
int compose_learn(const struct run_context *p, const struct feed *feed,
    const char *bytes, size_t len, size_t *dues, struct fault *f);

#endif
