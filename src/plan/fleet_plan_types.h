#ifndef FLEET_PLAN_TYPES_H
#define FLEET_PLAN_TYPES_H

#include "booked.h"
#include "change.h"

/* What the plan of a fleet is asked for, and what it says beside its bookings.
 */

/* Where an earlier plan had a task. */
struct fleet_plan_day {
    const struct task *task;
    day_t day;
};

struct fleet_plan_options {
    day_t today;
    day_t until;                /* calls with a later deadline are left out */
    const struct booked *fixed; /* by somebody; in any order, as the next */
    size_t n_fixed;
    const struct fleet_plan_day *kept;
    size_t n_kept;
    const struct change *changes; /* what if */
    size_t n_changes;
};

/* Work that cannot be planned, because no day can be told for it. */
struct fleet_plan_undated {
    const struct task *task;
    enum due_state state;
    int no_return;
    day_t failed; /* as fleet_plan_failed() */
};

/* A present call that needs no day of its own: a wider job of the subject,
 * which has to be done by its deadline, completes it as well. */
struct fleet_plan_covered {
    const struct task *task;
    const struct task *with; /* the wider one */
    day_t deadline;          /* of @task */
    day_t failed;            /* as fleet_plan_failed() */
};

#endif
