#include "early.h"

#include "fixed_series.h"
#include "window.h"

#define SHARE 6
#define LEAST 3
#define MOST 28

static int
is_rhythm(const struct rule *rule, const struct interval *every)
{
    return every->kind->date_from != NULL ||
           (every->kind->needs_history && rule->runs_from == FROM_DEADLINE);
}

/* The last day of work, or the start of a first interval. */
static day_t
start_of(const struct calc_context *r, const struct limit *l)
{
    return l->from > 0 ? r->done[r->n_done - 1].day : l->previous;
}

static day_t
share_before(day_t start, day_t deadline)
{
    day_t days = start == DAY_NONE ? MOST : (deadline - start) / SHARE;

    if (days < LEAST)
        days = LEAST;
    return step_days(deadline, -(days > MOST ? MOST : days));
}

static day_t
stated_or_usual(const struct calc_context *r, const struct limit *l, int rhythm)
{
    const struct rule *rule = r->task->rule;

    if (rule->early.n > 0)
        return step_span(l->deadline, rule->early, -1, MONTH_END_CLAMP);
    if (rhythm)
        return DAY_NONE;
    if (rule->runs_from == KEEPS_DATE && rule->window.n > 0)
        return window_opening(rule, l->deadline);
    return share_before(start_of(r, l), l->deadline);
}

/* That of the interval that decides, which is a rhythm or not. */
static day_t
counts_from(const struct calc_context *r, const struct limit *l, int rhythm)
{
    day_t from = DAY_NONE;

    if (rhythm)
        from = fixed_series_counts_from(r, l);
    else if (l->from == 0)
        from = l->counts_from;
    day_t done = r->n_done ? r->done[r->n_done - 1].day : DAY_NONE;

    /* The day of the last completion has had its turn. */
    if (done != DAY_NONE)
        from = day_later(from, step_days(done, r->task->job->n_follows == 0));
    return from == DAY_NONE ? DAY_FIRST : from;
}

day_t
early_from(const struct calc_context *r, const struct decision *all,
    const struct due *d)
{
    if (d->deadline == DAY_NONE || all->decides < 0)
        return DAY_NONE;
    const struct limit *l = &all->each[all->decides];
    int rhythm = is_rhythm(r->task->rule, &r->task->rule->every[all->decides]);

    return day_later(stated_or_usual(r, l, rhythm), counts_from(r, l, rhythm));
}

day_t
early_counts(const struct calc_context *r, const struct decision *all,
    const struct due *d)
{
    if (d->deadline == DAY_NONE || all->decides < 0)
        return DAY_NONE;
    return counts_from(r, &all->each[all->decides],
        is_rhythm(r->task->rule, &r->task->rule->every[all->decides]));
}
