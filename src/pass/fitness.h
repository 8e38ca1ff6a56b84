#ifndef FITNESS_H
#define FITNESS_H

#include "condition.h"
#include "run_context.h"

/*
 * The condition of every vehicle on the day of a run, from its dues and the
 * defects in the ledger; made once, when first asked for, and
 * forgotten with the dues, so that all views name
 * the same.  NULL with @f set.  They are the run's.
 */
const struct conditions *fitness_of_run(
    const struct run_context *p, struct fault *f);

/* The same from other dues of the run, or from defects as they are within a
 * transaction.  Free with conditions_free(), before either. */
struct conditions *fitness_make(const struct run_context *p,
    const struct snapshot *s, const struct defects *ds, struct fault *f);

/* The defects that they were made from, of the same moment; asked for after
 * them. */
const struct defects *fitness_defects(const struct run_context *p);

#endif
