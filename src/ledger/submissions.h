#ifndef SUBMISSIONS_H
#define SUBMISSIONS_H

#include "fault.h"

#include <stdint.h>

struct ledger;

/*
 * Which form of the page made which record, so that one that is sent twice
 * makes it once.
 */

/* 1 and sets @record when the form with that token made one, 0 when it did not,
 * or -1. */
int submissions_find(
    struct ledger *l, const char *token, int64_t *record, struct fault *f);

/* Keep that it made @record: 0 or -1. */
int submissions_keep(
    struct ledger *l, const char *token, int64_t record, struct fault *f);

#endif
