#ifndef DISPLAY_H
#define DISPLAY_H

#include "health.h"
#include "pass.h"

struct shelf;

/*
 * What is served: the last good version of everything, and which keys open it.
 * The table in display.c says what there is.
 */
struct display;

/* Nothing yet; NULL when memory is out.  Free with display_free(). */
struct display *display_new(void);

/* Free @d; NULL is ignored. */
void display_free(struct display *d);

/* Take over what the pass has published, and the keys of the ledger.  What
 * cannot be read stays as it was.  Returns 0, or -1 with @f set to the first
 * failure. */
int display_update(struct display *d, const struct pass *p, struct fault *f);

/* A shelf of everything as it is now, or NULL when memory is out. */
struct shelf *display_shelf(const struct display *d, const struct health *h);

#endif
