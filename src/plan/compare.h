#ifndef COMPARE_H
#define COMPARE_H

#include "fleet_plan.h"

/* What becomes of one call between two plans. */
struct difference {
    const struct task *task;
    const struct plan_booking *before; /* NULL when it is new */
    const struct plan_booking *after;  /* NULL when it is no more */
};

struct comparison {
    struct difference *list; /* of those on another day, new, or no more, in
                                the order of task and cycle */
    size_t n;
    size_t moved;
    size_t added;
    size_t gone;
    size_t late_before; /* calls that come too late */
    size_t late_after;
    size_t newly_late; /* of those, the ones that did not before */
};

/* Compare two plans of one fleet: 0, or -1 when memory is out.  Give the list
 * to free(). */
int compare_plans(const struct fleet_plan *before,
    const struct fleet_plan *after, struct comparison *out);

/* Nonzero when the booking comes after its deadline; 0 for NULL. */
int compare_is_late(const struct plan_booking *b);

#endif
