#ifndef DECIDE_H
#define DECIDE_H

#include "reckon.h"

/* What the intervals of a rule come to after everything that was done. */
struct decision {
    struct limit each[RULE_INTERVALS];
    int n;
    int decides;       /* index of the one that comes first, or -1 */
    day_t start;       /* of the cycle, or DAY_NONE */
    int by_meter;      /* some interval counts by a meter */
    int meter_unknown; /* and one of those cannot tell a day */
};

/*
 * Work through the history of @r's task and leave in @out where each of its
 * intervals stands.  With @r->why set, the reasons are those of the interval
 * that decides.
 */
void decide_limits(const struct reckoning *r, struct decision *out);

#endif
