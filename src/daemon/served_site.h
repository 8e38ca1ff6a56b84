#ifndef SERVED_SITE_H
#define SERVED_SITE_H

#include "health.h"
#include "record_form.h"
#include "run_context.h"
#include "walk_round.h"

struct routes;

/*
 * What is served: the last good version of everything, and which keys open it.
 * The table in site.c says what there is.
 */
struct served_site;

/* Nothing yet; NULL when memory is out.  Free with served_site_free(). */
struct served_site *served_site_new(void);

/* Free @d; NULL is ignored. */
void served_site_free(struct served_site *d);

/* Take over the feeds that the run has published, and the keys of the ledger.
 * What cannot be read stays as it was, and the pages do.  Returns 0, or -1 with
 * @f set to the first failure. */
int served_site_feeds(
    struct served_site *d, const struct run_context *p, struct fault *f);

/* Make the pages anew to which there are keys, with @notice at their top unless
 * it is NULL.  Returns 0, or -1 with @f set: then those from before stay, as
 * old ones. */
int served_site_pages(struct served_site *d, const struct run_context *p,
    const char *notice, struct fault *f);

/* Where the person records to whose page, at @path, that key opens: 0, or -1
 * for nobody.  Borrows @fleet. */
int served_site_recorder(const struct served_site *d, const struct fleet *fleet,
    const char *path, const uint8_t key[KEY_HASH], struct recorder *out);

/* For what the driver's page at @path checks vehicles, which that key opens: 0,
 * or -1 for nothing.  Borrows @fleet. */
int served_site_checker(const struct served_site *d, const struct fleet *fleet,
    const char *path, const uint8_t key[KEY_HASH], struct walk_round_key *out);

/* The routes of everything as it is now, or NULL when memory is out. */
struct routes *served_site_routes(
    const struct served_site *d, const struct health *h);

#endif
