#ifndef RESOURCE_H
#define RESOURCE_H

#include <stddef.h>
#include <stdint.h>

/*
 * One version of what a path answers: its bytes and all fields that go with
 * them, made once and shared by every request.  It never changes; references
 * are counted, and may be taken and dropped in any thread.
 */
struct resource;

struct resource_facts {
    unsigned status;    /* 0 stands for 200 */
    const char *type;   /* Content-Type, or NULL for plain text in UTF-8 */
    const char *cache;  /* Cache-Control, or NULL: private, for five minutes */
    const char *policy; /* Content-Security-Policy, or NULL for none of all */
    const char *referrer; /* Referrer-Policy, or NULL for no-referrer; a page
                             with a form needs same-origin, or the browser
                             will not say that the form came from here */
    const char *allow;    /* Allow, or NULL for none */
    const char *location; /* Location, or NULL for none */
    int64_t modified;     /* Last-Modified, seconds after 1970, or 0 for none;
                             a new version's must be later, whatever the clock
                             says, or a client that goes by dates keeps the
                             old one */
};

/* A resource of a copy of the @len bytes at @bytes, with one reference for the
 * caller; NULL when memory is out or a fact holds what no field may. */
struct resource *resource_new(
    const struct resource_facts *facts, const void *bytes, size_t len);

/* Another reference to @r, for resource_drop(). */
struct resource *resource_ref(struct resource *r);

/* Give a reference back; the last one frees it.  NULL is ignored. */
void resource_drop(struct resource *r);

/* The strong entity tag of its bytes, quotes included. */
const char *resource_etag(const struct resource *r);

/* What it was made with. */
unsigned resource_status(const struct resource *r);
int64_t resource_modified(const struct resource *r);

/* Its bytes, @len of them, which live as long as @r. */
const char *resource_bytes(const struct resource *r, size_t *len);

/* What libmicrohttpd sends of it; lives as long as @r. */
struct MHD_Response *resource_response(const struct resource *r);

#endif
