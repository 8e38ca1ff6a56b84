#ifndef PLANNED_H
#define PLANNED_H

#include "day.h"
#include "fault.h"

#include <stddef.h>

struct arena;
struct ledger;

/* The days of the plan that was kept last. */

/* One day of a plan. */
struct planned {
    const char *subject;
    const char *job;
    day_t day;
};

/* Keep the @n days of a plan in place of those kept before: 0 or -1. */
int planned_write(
    struct ledger *l, const struct planned *days, size_t n, struct fault *f);

/* The days kept last, by subject, job and day.  The list and its texts are in
 * @a.  0 or -1. */
int planned_read(struct ledger *l, struct arena *a, struct planned **out,
    size_t *n, struct fault *f);

#endif
