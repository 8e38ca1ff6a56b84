#ifndef INTERVALS_H
#define INTERVALS_H

#include "rule.h"

/*
 * Which sorts of interval a rule has, for the checks and for what is shown.
 */

/* The first of the intervals that names its own days, or NULL. */
const struct interval *intervals_calendar_rule(const struct rule *rule);

/* The shortest plain length of time, which age shortens, or NULL. */
const struct interval *intervals_length(const struct rule *rule);

/* The first interval that @meter counts, or NULL. */
const struct interval *intervals_metered(
    const struct rule *rule, enum meter meter);

/* Whether a first deadline can be kept, unless the rule says: a certificate to
 * the end of a month begins with the month of the first pass. */
int intervals_keeps_first(const struct rule *rule);

#endif
