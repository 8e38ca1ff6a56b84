#ifndef PLANNING_H
#define PLANNING_H

#include "agenda.h"
#include "run_context.h"

/*
 * The plan of a pass: its facts and fleet, the days that somebody booked, and
 * the plan kept before.
 */

/* How far the plan reaches. */
day_t planning_until(const struct run_context *p);

/*
 * Work the plan out, with @n changes to the fleet.  Where @like is not NULL its
 * days are held to in place of those kept before.  NULL with @f set.  Free with
 * agenda_free(), before the pass.
 */
struct agenda *planning_agenda(const struct run_context *p,
    const struct change *changes, size_t n, const struct agenda *like,
    struct fault *f);

/* A snapshot, as snapshot_new() makes it of the pass, whose plan days are those
 * of the plan: NULL with @f set. */
struct snapshot *planning_snapshot(const struct run_context *p,
    struct snapshot_options options, struct fault *f);

/* Keep the days of a plan for the next one to hold to: 0 or -1. */
int planning_keep(
    const struct run_context *p, const struct agenda *a, struct fault *f);

/* The same of the plan as it is, where the site's dates follow one: what people
 * are told on a day is what the plan of the next holds to.  Whoever runs a
 * fleet day by day does so once a day. */
int planning_keep_present(const struct run_context *p, struct fault *f);

#endif
