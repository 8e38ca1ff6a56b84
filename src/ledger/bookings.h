#ifndef BOOKINGS_H
#define BOOKINGS_H

#include "day.h"
#include "fault.h"

#include <stddef.h>
#include <stdint.h>

struct arena;
struct ledger;

/*
 * Days that somebody fixed for work, and the days of the plan that was kept
 * last.  A booking is a fact: one that changed is replaced by a later one,
 * and both stay.
 */
struct booking {
    int64_t id;          /* in the order of entry, from 1 */
    const char *subject; /* as the ledger holds them */
    const char *job;
    const char *cycle; /* from due_cycle_text(), when it was entered */
    day_t day;         /* DAY_NONE takes back the one that it replaces */
    int64_t entered;   /* seconds since 1970-01-01T00:00:00Z */
    const char *by;    /* these two may be NULL */
    const char *note;
    int64_t replaces; /* an earlier one, or 0 */
};

/*
 * Add @b: all of it but the id, which is set in @id (may be NULL).  Returns 0
 * or -1; one that replaces another that was replaced before is refused with
 * EX_DATAERR.
 */
int bookings_add(
    struct ledger *l, const struct booking *b, int64_t *id, struct fault *f);

/*
 * Those that stand: not taken back and not replaced, in the order of entry.
 * The list and its texts are in @a.  Returns 0 or -1.
 */
int bookings_read(struct ledger *l, struct arena *a, struct booking **out,
    size_t *n, struct fault *f);

/* One day of a plan. */
struct planned {
    const char *subject;
    const char *job;
    day_t day;
};

/* Keep the @n days of a plan in place of those kept before: 0 or -1. */
int planned_write(
    struct ledger *l, const struct planned *days, size_t n, struct fault *f);

/* The days kept last, by subject, job and day; as bookings_read(). */
int planned_read(struct ledger *l, struct arena *a, struct planned **out,
    size_t *n, struct fault *f);

#endif
