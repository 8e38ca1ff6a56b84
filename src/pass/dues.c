#include "dues.h"

#include "calm.h"
#include "condition.h"
#include "fleet_plan.h"
#include "page.h"
#include "planning.h"
#include "shown_forecast.h"

#include <sysexits.h>

/* The last day that any feed of the fleet shows. */
static day_t
feeds_until(const struct fleet *f, day_t today)
{
    day_t last = DAY_NONE;

    for (size_t i = 0; i < f->n_feeds; i++)
        last = day_later(
            last, step_span(today, f->feeds[i].horizon, 1, MONTH_END_CLAMP));
    return last;
}

/* One snapshot serves all: it reaches as far as whoever asks for most, and the
 * others leave out what lies beyond. */
static day_t
horizon(const struct run_context *p)
{
    day_t today = run_moment(p).today;
    unsigned serves = run_made(p)->serves;
    day_t until = DAY_NONE;

    if (serves & RUN_PLAN)
        until = planning_until(p);
    if (serves & RUN_PAGES)
        until = day_later(until, page_until(today));
    if (serves & RUN_FEEDS)
        until = day_later(until, feeds_until(run_fleet(p), today));
    return until;
}

/* Make a snapshot of what @options says, and keep what it moved of the
 * forecasts that are held. */
static struct snapshot *
make(const struct run_context *p, struct snapshot_options options, int planned,
    struct fault *f)
{
    unsigned serves = run_made(p)->serves;
    struct snapshot *s = NULL;

    options.today = run_moment(p).today;
    options.reasons = (serves & RUN_REASONS) != 0;
    options.calm = calm_new(run_fleet(p)->site.calm,
        serves & RUN_SETTLED ? CALM_SETTLE : CALM_LOOK);
    if (options.calm == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    else if (shown_forecast_read(run_ledger(p), options.calm, f) == 0)
        s = planning_snapshot(p, options, planned, f);
    if (s != NULL && shown_forecast_write(run_ledger(p), options.calm, f)) {
        snapshot_free(s);
        s = NULL;
    }
    calm_free(options.calm);
    return s;
}

const struct snapshot *
dues_of_run(const struct run_context *p, struct fault *f)
{
    struct run_made *m = run_made(p);

    if (m->dues == NULL)
        m->dues =
            make(p, (struct snapshot_options){.horizon = horizon(p)}, 1, f);
    return m->dues;
}

struct snapshot *
dues_of_task(struct run_context *p, const struct task *t, int planned,
    struct problems *problems, struct fault *f)
{
    int all = planned && run_fleet(p)->site.planner;

    if (run_read(p, all ? NULL : t, problems, f))
        return NULL;
    return make(p, (struct snapshot_options){.horizon = DAY_NONE, .only = t},
        planned, f);
}

void
dues_forget(const struct run_context *p)
{
    struct run_made *m = run_made(p);

    conditions_free(m->conditions);
    defects_free(m->defects);
    snapshot_free(m->dues);
    fleet_plan_free(m->plan);
    m->conditions = NULL;
    m->defects = NULL;
    m->dues = NULL;
    m->plan = NULL;
    m->booked = NULL;
}
