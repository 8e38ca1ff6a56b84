#include "dues.h"

#include "calm.h"
#include "planning.h"
#include "shown_forecast.h"
#include "standing.h"

#include <sysexits.h>

/* Make a snapshot, and keep what it changed of what is held. */
static struct snapshot *
make(const struct run_context *p, struct snapshot_options options,
    struct fault *f)
{
    int planner = run_fleet(p)->site.planner;
    options.booked = standing_bookings(p, &options.n_booked, f);
    if (options.booked == NULL)
        return NULL;
    struct snapshot *s = planner ? planning_snapshot(p, options, f)
                                 : snapshot_new(run_facts(p), &options);

    if (s == NULL && !planner)
        fault_fill(f, EX_OSERR, "out of memory");
    else if (s != NULL &&
             shown_forecast_write(run_ledger(p), options.calm, f)) {
        snapshot_free(s);
        return NULL;
    }
    return s;
}

static struct snapshot *
take(const struct run_context *p, day_t horizon, int reasons, enum calm_use use,
    struct fault *f)
{
    struct snapshot_options options = {.today = run_moment(p).today,
        .horizon = horizon,
        .reasons = reasons,
        .calm = calm_new(run_fleet(p)->site.calm, use)};
    struct snapshot *s = NULL;

    if (options.calm == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    else if (shown_forecast_read(run_ledger(p), options.calm, f) == 0)
        s = make(p, options, f);
    calm_free(options.calm);
    return s;
}

struct snapshot *
dues_now(const struct run_context *p, day_t horizon, struct fault *f)
{
    return take(p, horizon, 1, CALM_LOOK, f);
}

struct snapshot *
dues_outline(const struct run_context *p, day_t horizon, struct fault *f)
{
    return take(p, horizon, 0, CALM_LOOK, f);
}

struct snapshot *
dues_settled(const struct run_context *p, day_t horizon, struct fault *f)
{
    return take(p, horizon, 1, CALM_SETTLE, f);
}

struct snapshot *
dues_settled_outline(
    const struct run_context *p, day_t horizon, struct fault *f)
{
    return take(p, horizon, 0, CALM_SETTLE, f);
}
