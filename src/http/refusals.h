#ifndef REFUSALS_H
#define REFUSALS_H

struct resource;

/* The answers to what is not served, made once. */
struct refusals;

/* All of them, or NULL when memory is out.  Free with refusals_free(). */
struct refusals *refusals_new(void);

/* Free @r; NULL is ignored. */
void refusals_free(struct refusals *r);

/* The answer with that status, one of those in the table in refusals.c.  A 405
 * names the methods that are allowed: GET and HEAD, unless @accepts, and then
 * POST, alone or with them when it @gets. */
struct resource *refusals_get(const struct refusals *r, unsigned status);
struct resource *refusals_method(
    const struct refusals *r, int gets, int accepts);

#endif
