#ifndef COMPUTE_H
#define COMPUTE_H

#include "calc_context.h"
#include "earliest_limit.h"

/*
 * Inside the due layer only: from what is known of one task to its due, all
 * but the state, which alone depends on today.  @all is set to what its
 * intervals come to.  Returns 1, or 0 when the task is never due (work done
 * only when needed).
 */
int compute_due(
    const struct calc_context *r, struct due *out, struct decision *all);

/* A due without any day, of a task that failed while nothing else makes it due:
 * work done only when needed, or a follow-on that nothing calls for. */
void compute_undated(const struct calc_context *r, struct due *out);

/* Fill in the state and the warnings that hold on @today. */
void compute_state(const struct calc_context *r, day_t today, struct due *d);

#endif
