#ifndef WINDOW_H
#define WINDOW_H

#include "rule.h"

/* The day on which the renewal window before @deadline opens, by the rule's
 * window and its reading of the window's first day. */
day_t window_opening(const struct rule *rule, day_t deadline);

#endif
