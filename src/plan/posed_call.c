#include "posed.h"

#include <stdlib.h>
#include <string.h>

static int
make_room(struct agenda *a, size_t n)
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
 * it can be; DAY_NONE when the call @c comes before. */
static day_t
covered_on(const struct posed_work *w, const struct forward_call *c, day_t last)
{
    if (w->wide_to == DAY_NONE || w->wide_to > c->deadline)
        return DAY_NONE;
    return last == DAY_NONE ? w->wide_from : day_later(w->wide_from, last + 1);
}

/*
 * A wider job that has to be done by the deadline of a narrow one completes
 * that as well: it is put among the days on which it was done.
 */
static int
call_after(struct agenda *a, const struct posed_work *w, const day_t *done,
    size_t n, struct forward_call *out, size_t *n_done)
{
    day_t last = DAY_NONE;
    day_t wide = DAY_NONE;
    int rc = 1;

    if (make_room(a, n + 1))
        return -1;
    for (size_t k = 0; k < n && w->wide_to != DAY_NONE && wide == DAY_NONE;
         k++) {
        rc = forward_call(a->forward, w->at, done, k, out);
        if (rc != 1)
            return rc;
        wide = covered_on(w, out, k ? done[k - 1] : DAY_NONE);
    }
    size_t m = 0;
    for (size_t k = 0; k < n; k++) {
        if (wide != DAY_NONE && wide < done[k] &&
            (m == 0 || a->done[m - 1] < wide))
            a->done[m++] = wide;
        a->done[m++] = done[k];
    }
    *n_done = m;
    last = m ? a->done[m - 1] : DAY_NONE;
    rc = forward_call(a->forward, w->at, a->done, m, out);
    if (rc != 1 || wide != DAY_NONE)
        return rc;
    wide = covered_on(w, out, last);
    if (wide == DAY_NONE)
        return 1;
    a->done[m++] = wide;
    *n_done = m;
    return forward_call(a->forward, w->at, a->done, m, out);
}

/* The day booked for the call that comes after the first @n of the days done:
 * the last one of those that are to come. */
static day_t
fixed_day(const struct agenda *a, const struct posed_work *w,
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

/* The last of the days of an earlier plan on which the call can be. */
static day_t
kept_day(const struct agenda *a, const struct posed_work *w,
    const struct forward_call *c)
{
    day_t kept = DAY_NONE;

    for (size_t i = w->first_kept; i < w->first_kept + w->n_kept; i++) {
        day_t d = a->kept[i].day;
        if (d >= c->from && d <= c->deadline)
            kept = d;
    }
    return kept;
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
first_day(const struct agenda *a, const struct posed_work *w,
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
posed_next(
    void *with, size_t work, const day_t *done, size_t n, struct plan_call *out)
{
    struct agenda *a = with;
    const struct posed_work *w = &a->works[work];
    struct forward_call c;
    size_t n_done = 0;
    int rc = call_after(a, w, done, n, &c, &n_done);

    if (rc <= 0 || c.no_return || c.deadline == DAY_NONE ||
        c.deadline > a->options.until)
        return rc < 0 ? -1 : 0;
    day_t kept = kept_day(a, w, &c);
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
