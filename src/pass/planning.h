#ifndef PLANNING_H
#define PLANNING_H

#include "fleet_plan.h"
#include "run_context.h"
#include "snapshot.h"

/*
 * The plan of a run: its facts and fleet, the days that somebody booked, and
 * the plan kept before.
 */

/* How far the plan reaches. */
day_t planning_until(const struct run_context *p);

/* The plan, made once, when it is first asked for: the run's.  NULL with @f
 * set. */
const struct fleet_plan *planning_of_run(
    const struct run_context *p, struct fault *f);

/*
 * The plan with @n changes to the fleet, which holds to the days of @like in
 * place of those kept before.  NULL with @f set.  Free with fleet_plan_free(),
 * before the run.
 */
struct fleet_plan *planning_what_if(const struct run_context *p,
    const struct change *changes, size_t n, const struct fleet_plan *like,
    struct fault *f);

/* A snapshot, as snapshot_new() makes it of the run, with the days that were
 * booked, and, where the site's dates follow the plan and @planned is nonzero,
 * its plan days.  NULL with @f set. */
struct snapshot *planning_snapshot(const struct run_context *p,
    struct snapshot_options options, int planned, struct fault *f);

/* Keep the days of the plan for the next one to hold to: 0 or -1. */
int planning_keep(const struct run_context *p, struct fault *f);

#endif
