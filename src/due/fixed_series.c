#include "fixed_series.h"

#include "window.h"

static int
satisfied(const struct calc_context *r, day_t deadline, day_t day)
{
    const struct rule *rule = r->task->rule;

    return deadline != DAY_NONE &&
           (deadline <= day ||
               (rule->window.n > 0 && window_opening(rule, deadline) <= day));
}

/* Half way, so that a second record of the same work does not pass for the
 * next. */
day_t
fixed_series_counts_from(const struct calc_context *r, const struct limit *l)
{
    day_t day = DAY_NONE;

    if (r->task->rule->window.n > 0)
        day = window_opening(r->task->rule, l->deadline);
    else if (l->previous != DAY_NONE)
        day = l->previous + (l->deadline - l->previous + 1) / 2;
    return day_later(day, l->counts_from);
}

/* On to the next deadline; returns where the series stood. */
static struct limit
go_on(const struct calc_context *r, const struct interval *every,
    fixed_series_step *step, struct limit *l)
{
    l->previous = l->deadline;
    struct limit before = *l;
    step(r, every, l);
    return before;
}

/* One late completion may answer several deadlines that have passed; too early
 * it answers none. */
struct limit
fixed_series_complete(const struct calc_context *r,
    const struct interval *every, day_t day, fixed_series_step *step,
    struct limit *l)
{
    struct limit before = *l;

    l->extra = day < fixed_series_counts_from(r, l);
    if (l->extra)
        return before;
    do
        before = go_on(r, every, step, l);
    while (satisfied(r, l->deadline, day));
    return before;
}

void
fixed_series_begin(const struct calc_context *r, const struct interval *every,
    day_t day, day_t first, fixed_series_step *step, struct limit *l)
{
    l->deadline = first;
    l->previous = day;
    while (satisfied(r, l->deadline, day))
        (void)go_on(r, every, step, l);
}
