#ifndef DUES_H
#define DUES_H

#include "run_context.h"

/*
 * The snapshot of all dues, with their reasons, and with the cycles to come
 * up to @horizon unless that is DAY_NONE.  NULL with @f set when memory is
 * out.  Free with snapshot_free(), before the pass.
 */
struct snapshot *dues_now(
    const struct run_context *p, day_t horizon, struct fault *f);

/* The same without the reasons, for who shows none. */
struct snapshot *dues_outline(
    const struct run_context *p, day_t horizon, struct fault *f);

/*
 * The same as calendars and mail are to show it: a forecast that was shown
 * before stands until it has moved by the site's calm, see calm.h.  What is
 * shown from now on is kept in the ledger, so the pass must be able to write.
 */
struct snapshot *dues_settled(
    const struct run_context *p, day_t horizon, struct fault *f);

/* The same without the reasons. */
struct snapshot *dues_settled_outline(
    const struct run_context *p, day_t horizon, struct fault *f);

#endif
