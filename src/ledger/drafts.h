#ifndef DRAFTS_H
#define DRAFTS_H

#include "fault.h"

#include <stdint.h>

struct arena;
struct ledger;

/*
 * Walk-round checks under way: what was sent of them and is no fact yet.  One
 * for each vehicle, sheet and person, so that whoever loads the page anew, or
 * takes another phone, goes on from there.
 */
struct draft {
    const char *subject;
    const char *sheet;
    const char *who;     /* the id of a driver, or initials */
    int64_t opened;      /* seconds since 1970, as the next */
    int64_t sent;        /* the first part of it; 0 for none yet */
    const char *reading; /* of the odometer; may be NULL */
    const char *answers; /* as pass/walk_round.c writes them */
};

/* Fill in the rest of @d, whose subject, sheet and person are set, in @a: 1
 * when there is one, 0, or -1. */
int drafts_find(
    struct ledger *l, struct arena *a, struct draft *d, struct fault *f);

/* Keep @d in place of an earlier one: 0 or -1. */
int drafts_keep(struct ledger *l, const struct draft *d, struct fault *f);

/* It was entered: 0 or -1. */
int drafts_drop(struct ledger *l, const struct draft *d, struct fault *f);

/* Drop all that were opened before @when: 0 or -1. */
int drafts_drop_old(struct ledger *l, int64_t when, struct fault *f);

#endif
