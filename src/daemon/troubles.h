#ifndef TROUBLES_H
#define TROUBLES_H

#include "parts.h"

/* What can be wrong. */
enum trouble_with {
    TROUBLE_ROUND, /* none could be made at all */
    TROUBLE_FLEET,
    TROUBLE_FEEDS,
    TROUBLE_REMINDERS,
    TROUBLE_PLAN,    /* it could not be kept */
    TROUBLE_SENDING, /* mail cannot even be tried */
    TROUBLES_KNOWN
};

/* What is wrong now; all zeros is nothing. */
struct troubles {
    struct fault with[TROUBLES_KNOWN]; /* a code of 0 for nothing */
};

/* Note how @what went: with @failed, as @seen says.  What begins, changes or is
 * over is logged, and is news: returns nonzero then. */
int troubles_note(struct troubles *t, enum trouble_with what, int failed,
    const struct fault *seen);

/* What is wrong with @what, or NULL. */
const struct fault *troubles_with(
    const struct troubles *t, enum trouble_with what);

/* The first thing that is wrong, or NULL. */
const struct fault *troubles_any(const struct troubles *t);

/* Add all that is wrong to @checks. */
void troubles_add(const struct troubles *t, struct health_checks *checks);

#endif
