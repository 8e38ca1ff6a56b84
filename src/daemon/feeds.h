#ifndef FEEDS_H
#define FEEDS_H

#include "run_context.h"

struct routes;

/* The feeds as their files have them. */
struct feeds;

/* None yet, with room for those of @fleet; NULL with @f set when memory is out.
 * Free with feeds_free(). */
struct feeds *feeds_new(const struct fleet *fleet, struct fault *f);

/* Free @s; NULL, of no feeds, is ignored, and by the next three as well. */
void feeds_free(struct feeds *s);

/* Take over what the run has published into @next, which is new; what has not
 * changed, or cannot be read, stays as in @now.  Returns 0, or -1 with @f set
 * to the first failure. */
int feeds_take(struct feeds *next, const struct feeds *now,
    const struct run_context *p, struct fault *f);

/* The path of that feed among the routes, valid as long as @s, or NULL. */
const char *feeds_path(const struct feeds *s, const char *id);

/* Put them among the routes: 0 or -1. */
int feeds_put(const struct feeds *feeds, struct routes *s);

#endif
