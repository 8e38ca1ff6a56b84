#ifndef ROUTES_H
#define ROUTES_H

#include "key.h"

struct resource;
struct target;

/*
 * All that is served at one time: a table from paths to resources and forms,
 * and which keys open which of them.  It is filled, then handed to the server
 * and not changed any more; what has not changed is put among the next routes
 * again.
 *
 * A path is "/robots.txt", open to all, or "/calendar/" "*" "/harbour.ics",
 * where "*" is
 * the place of a key.
 */
struct routes;

/* No routes yet, or NULL when memory is out.  Free with routes_free(). */
struct routes *routes_new(void);

/* Free @s and give back what it holds; NULL is ignored. */
void routes_free(struct routes *s);

/* Answer GET and HEAD of @path with @r, of which a reference is taken; each
 * path once.  Returns 0 or -1 when memory is out. */
int routes_add(struct routes *s, const char *path, struct resource *r);

/* Accept forms that are posted to @path, beside what routes_add() put there.
 * Returns 0 or -1 when memory is out. */
int routes_accept(struct routes *s, const char *path);

/* Let whoever has the key of that @hash have @path, which has a "*".  Returns
 * 0 or -1 when memory is out. */
int routes_grant(
    struct routes *s, const uint8_t hash[KEY_HASH], const char *path);

/* What was found under a target. */
struct route_spot {
    const char *path;       /* as it was added */
    struct resource *get;   /* NULL when it cannot be read */
    int accepts;            /* nonzero when forms may be posted */
    uint8_t hash[KEY_HASH]; /* of the key in the target, when there is one */
};

/*
 * Look up what @t asks for: 0 with @spot set, or -1, the same whether there is
 * no such path or the key is not for it, after the same work.  The hash is set
 * whenever the target has the place of a key.
 */
int routes_find(
    const struct routes *s, const struct target *t, struct route_spot *spot);

#endif
