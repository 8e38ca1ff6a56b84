#ifndef TROUBLE_H
#define TROUBLE_H

#include "day.h"
#include "fault.h"

#include <stddef.h>

struct arena;
struct ledger;

/* Something wrong with the pass itself, of which whoever keeps it was told. */
struct trouble {
    const char *about; /* what it is about: there is one of each */
    const char *says;  /* a sentence without a full stop */
    day_t told;        /* when last */
};

/* All of them, in the order of what they are about, in @a.  Returns 0 or -1. */
int trouble_list(struct ledger *l, struct arena *a, struct trouble **out,
    size_t *n, struct fault *f);

/* Keep that @t was told, in the place of what was told before.  Returns 0 or
 * -1. */
int trouble_keep(struct ledger *l, const struct trouble *t, struct fault *f);

/* Forget the trouble about that: it is over.  Returns 0 or -1. */
int trouble_drop(struct ledger *l, const char *about, struct fault *f);

#endif
