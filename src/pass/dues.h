#ifndef DUES_H
#define DUES_H

#include "run_context.h"
#include "snapshot.h"

/*
 * All dues of a run, made once, when they are first asked for: they reach as
 * far and say as much as the run is to serve, see enum run_serves.  NULL with
 * @f set.  They are the run's.
 */
const struct snapshot *dues_of_run(
    const struct run_context *p, struct fault *f);

/*
 * The dues of @t alone, without the cycles to come: the same as among all dues,
 * but it reads and works out that task and no other.  Only where the site's
 * dates follow the plan and @planned asks for the day of that, all are needed,
 * because the plan is the fleet's.  Of a run that reads RUN_LATER.  NULL with
 * @f set.  Free with snapshot_free(), before the run.
 */
struct snapshot *dues_of_task(struct run_context *p, const struct task *t,
    int planned, struct problems *problems, struct fault *f);

/* Something was recorded: what is asked for next is worked out anew. */
void dues_forget(const struct run_context *p);

#endif
