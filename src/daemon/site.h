#ifndef SITE_H
#define SITE_H

#include "desk.h"
#include "health.h"
#include "pass.h"

struct routes;

/*
 * What is served: the last good version of everything, and which keys open it.
 * The table in site.c says what there is.
 */
struct site;

/* Nothing yet; NULL when memory is out.  Free with site_free(). */
struct site *site_new(void);

/* Free @d; NULL is ignored. */
void site_free(struct site *d);

/* Take over the feeds that the pass has published, and the keys of the ledger.
 * What cannot be read stays as it was, and the pages do.  Returns 0, or -1 with
 * @f set to the first failure. */
int site_feeds(struct site *d, const struct pass *p, struct fault *f);

/* Make the pages anew to which there are keys, with @notice at their top unless
 * it is NULL.  Returns 0, or -1 with @f set: then those from before stay, as
 * old ones. */
int site_pages(
    struct site *d, const struct pass *p, const char *notice, struct fault *f);

/* Where the person records to whose page, at @path, that key opens: 0, or -1
 * for nobody.  Borrows @fleet. */
int site_desk(const struct site *d, const struct fleet *fleet, const char *path,
    const uint8_t key[KEY_HASH], struct desk *out);

/* A shelf of everything as it is now, or NULL when memory is out. */
struct routes *site_routes(const struct site *d, const struct health *h);

#endif
