#ifndef MODIFIED_H
#define MODIFIED_H

#include "run_context.h"

/*
 * When the bytes of @feed, of which @len are at @bytes, became what they are,
 * in seconds since 1970.  The ledger keeps it: it stays while they stay, and
 * when they change it is later than before, whatever the clock says.  Returns
 * 0, or -1 with @f set.
 */
int modified_since(const struct run_context *p, const struct feed *feed,
    const char *bytes, size_t len, int64_t *out, struct fault *f);

#endif
