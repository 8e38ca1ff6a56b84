#ifndef WHAT_IF_H
#define WHAT_IF_H

#include "compare.h"

struct buf;

/*
 * What a change to the fleet file would do to a plan, appended to @out for a
 * terminal or as JSON; @said is the change as it was given.  Each returns 0, or
 * -1 when memory is out.
 */
int what_if_text(const struct comparison *c, const struct fleet_plan *after,
    const char *said, struct buf *out);
int what_if_json(const struct comparison *c, const struct fleet_plan *after,
    const char *said, struct buf *out);

#endif
