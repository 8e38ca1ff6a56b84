#include "plan_problem.h"

#include <stdlib.h>
#include <string.h>

static int
make_room(struct fleet_plan *a, size_t n)
{
    size_t size = a->done_size ? a->done_size : 64;

    if (n <= a->done_size)
        return 0;
    while (size < n)
        size *= 2;
    void *grown = realloc(a->done, size * sizeof *a->done);
    if (grown == NULL)
        return -1;
    a->done = grown;
    a->done_size = size;
    return 0;
}

/* The day on which the wider job is taken as done, which is the earliest that
 * it can be: it may be done together with the call before, on the day @last,
 * and then the next counts from that.  DAY_NONE when the call @c comes before.
 */
static day_t
wider_day(const struct plan_task *w, const struct forward_call *c, day_t last)
{
    if (w->wide_to == DAY_NONE || w->wide_to > c->deadline)
        return DAY_NONE;
    return last == DAY_NONE ? w->wide_from : day_later(w->wide_from, last);
}

/*
 * Whether the wider job completes the call @c, which comes after the @n days
 * @done: 1 with its day in @wide; 0; or -1 when memory is out.  Before the
 * window of a fixed rhythm it counts for nothing, and the call stands.
 */
static int
is_served(struct fleet_plan *a, const struct plan_task *w, const day_t *done,
    size_t n, const struct forward_call *c, day_t *wide)
{
    struct forward_call next;

    if (make_room(a, n + 1))
        return -1;
    if (n > 0)
        memcpy(a->done, done, n * sizeof *done);
    a->done[n] = *wide;
    int rc = forward_call(a->forward, w->at, a->done, n + 1, &next);
    if (rc == 1 && next.deadline != DAY_NONE && next.deadline <= c->deadline)
        *wide = DAY_NONE;
    return rc < 0 ? -1 : *wide != DAY_NONE;
}

int
plan_problem_is_covered(struct fleet_plan *a, const struct plan_task *w,
    const struct forward_call *c)
{
    day_t wide = wider_day(w, c, DAY_NONE);

    return wide == DAY_NONE ? 0 : is_served(a, w, NULL, 0, c, &wide);
}

/*
 * A wider job that has to be done by the deadline of a narrow one completes
 * that as well: its day in @wide, or DAY_NONE when it serves none of the calls
 * up to the one after the @n days @done.  Returns as forward_call() does for
 * the last of those calls, which is in @out.
 */
static int
find_served(struct fleet_plan *a, const struct plan_task *w, const day_t *done,
    size_t n, struct forward_call *out, day_t *wide)
{
    *wide = DAY_NONE;
    for (size_t k = 0; k <= n; k++) {
        int rc = forward_call(a->forward, w->at, done, k, out);
        if (rc != 1)
            return rc;
        *wide = wider_day(w, out, k ? done[k - 1] : DAY_NONE);
        if (*wide == DAY_NONE)
            continue;
        rc = is_served(a, w, done, k, out, wide);
        if (rc != 0)
            return rc;
        break;
    }
    return forward_call(a->forward, w->at, done, n, out);
}

/* The call after the @n days @done, with the wider job's put among them: of
 * those there are @n_done, in a->done. */
static int
call_after(struct fleet_plan *a, const struct plan_task *w, const day_t *done,
    size_t n, struct forward_call *out, size_t *n_done)
{
    day_t wide;
    int rc = find_served(a, w, done, n, out, &wide);
    size_t m = 0;

    if (rc != 1 || make_room(a, n + 1))
        return rc == 1 ? -1 : rc;
    for (size_t k = 0; k < n; k++) {
        if (wide != DAY_NONE && wide < done[k] &&
            (m == 0 || a->done[m - 1] < wide))
            a->done[m++] = wide;
        a->done[m++] = done[k];
    }
    if (wide != DAY_NONE && (m == 0 || a->done[m - 1] < wide))
        a->done[m++] = wide;
    *n_done = m;
    return wide == DAY_NONE ? 1
                            : forward_call(a->forward, w->at, a->done, m, out);
}

/* The day booked for the call that comes after the first @n of the days done:
 * the last one of those that are to come. */
static day_t
fixed_day(const struct fleet_plan *a, const struct plan_task *w,
    const struct forward_call *c, size_t n)
{
    day_t last = n ? a->done[n - 1] : DAY_NONE;
    day_t today = a->options.today;

    for (size_t i = w->first_fixed + w->n_fixed; i > w->first_fixed; i--) {
        day_t d = a->fixed[i - 1].day;
        int ahead = a->fixed_for[i - 1];
        if (ahead == BOOKED_UNTOLD &&
            booked_takes(d, c->deadline, last, n == 0, today))
            ahead = (int)n;
        if (d >= today && (last == DAY_NONE || d > last) && ahead == (int)n)
            return d;
    }
    return DAY_NONE;
}

/* The day that an earlier plan had for the call @c after work on @last: the
 * first that is left.  It may be late; whether it stays so is the planner's. */
static day_t
kept_day(const struct fleet_plan *a, const struct plan_task *w,
    const struct forward_call *c, day_t last)
{
    for (size_t i = w->first_kept; i < w->first_kept + w->n_kept; i++) {
        day_t d = a->kept[i].day;
        if (d >= c->from && d >= a->options.today && d > last)
            return d;
    }
    return DAY_NONE;
}

/* The first day for which the work can still be arranged in time. */
static day_t
arranged_by(const struct task *t, day_t today)
{
    const struct lead *lead = &t->rule->lead;

    return lead->working ? work_calendar_add(t->calendar, today, lead->span.n)
                         : step_span(today, lead->span, 1, MONTH_END_CLAMP);
}

/* Not before it can be arranged, unless the deadline leaves no such day; what
 * an earlier plan had is arranged already. */
static day_t
first_day(const struct fleet_plan *a, const struct plan_task *w,
    const struct forward_call *c, day_t kept)
{
    day_t arranged = arranged_by(w->task, a->options.today);
    day_t last = work_calendar_preceding(w->task->calendar, c->deadline);

    if (arranged == DAY_NONE || last == DAY_NONE || arranged > last)
        return c->from;
    return day_later(
        c->from, kept == DAY_NONE ? arranged : day_earlier(kept, arranged));
}

int
plan_problem_next(
    void *with, size_t work, const day_t *done, size_t n, struct plan_call *out)
{
    struct fleet_plan *a = with;
    const struct plan_task *w = &a->works[work];
    struct forward_call c;
    size_t n_done = 0;
    int rc = call_after(a, w, done, n, &c, &n_done);

    if (rc <= 0 || c.no_return || c.deadline == DAY_NONE ||
        c.deadline > a->options.until)
        return rc < 0 ? -1 : 0;
    day_t kept = kept_day(a, w, &c, n ? done[n - 1] : DAY_NONE);
    *out = (struct plan_call){
        .from = first_day(a, w, &c, kept),
        .to = c.deadline,
        .fixed = fixed_day(a, w, &c, n_done),
        .planned = kept,
    };
    if (c.counts < out->from)
        out->sooner = out->from - day_later(c.counts, a->options.today);
    if (out->sooner < 0)
        out->sooner = 0;
    return 1;
}
