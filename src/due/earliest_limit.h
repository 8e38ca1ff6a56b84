#ifndef EARLIEST_LIMIT_H
#define EARLIEST_LIMIT_H

#include "calc_context.h"

/* What the intervals of a rule come to after everything that was done. */
struct decision {
    struct limit each[RULE_INTERVALS];
    int n;
    int decides;        /* index of the one that comes first, or -1 */
    day_t start;        /* of the cycle, or DAY_NONE */
    enum meter unknown; /* a meter that cannot tell, though some interval goes
                           by it, or METER_NONE */
};

/*
 * Work through the history of @r's task and leave in @out where each of its
 * intervals stands.  With @r->why set, the reasons are those of the interval
 * that decides.
 */
void earliest_limit_find(const struct calc_context *r, struct decision *out);

/* Say at the day @at of the reasons that it failed, where it did: that is why
 * nothing new has begun. */
void earliest_limit_say_failed(const struct calc_context *r, day_t at);

#endif
