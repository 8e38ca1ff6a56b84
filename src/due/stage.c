#include "stage.h"

#include "isoweek.h"

#include <stdio.h>

/* The working day on or before @d; the day itself when there is none. */
static day_t
working_day(const struct due *d, day_t day)
{
    day_t before = work_calendar_preceding(d->task->calendar, day);

    return before == DAY_NONE ? day : before;
}

static int
before_return(const struct due *d, day_t today, struct stage *out)
{
    if (working_day(d, d->deadline) > today)
        return 0;
    snprintf(out->name, sizeof out->name, "before-return");
    out->day = today;
    out->dated = 0;
    return 1;
}

/* The last of the repeated reminders after the deadline, counted from 1; a job
 * that repeats none still says once that it is overdue, to whom it climbs as
 * well. */
static int
overdue(const struct due *d, day_t today, struct stage *out)
{
    const struct reminders *remind = &d->task->rule->remind;
    struct span every = remind->overdue_every;
    int n = 0;
    day_t day = d->deadline;

    if ((every.n == 0 && remind->n_before == 0) || today <= d->deadline)
        return 0;
    while (every.n > 0) {
        day_t next = step_span(d->deadline, every, n + 1, MONTH_END_CLAMP);
        if (next == DAY_NONE || working_day(d, next) > today)
            break;
        day = next;
        n++;
    }
    /* The first day after the deadline is worth a word of its own. */
    snprintf(out->name, sizeof out->name, "overdue-%d", n);
    out->day = n == 0 ? step_days(d->deadline, 1) : day;
    out->dated = 1;
    return 1;
}

static int
before_deadline(const struct due *d, day_t today, struct stage *out)
{
    static const char *const units[] = {"days", "weeks", "months", "years"};
    const struct reminders *remind = &d->task->rule->remind;

    /* The longest is first, so the last one reached is the latest. */
    for (int i = remind->n_before; i-- > 0;) {
        struct span before = remind->before[i];
        day_t day = step_span(d->deadline, before, -1, MONTH_END_CLAMP);
        if (day == DAY_NONE || working_day(d, day) > today)
            continue;
        snprintf(out->name, sizeof out->name, "%d-%s-before", before.n,
            units[before.unit]);
        out->day = day;
        out->dated = 1;
        return 1;
    }
    return 0;
}

int
stage_reached(const struct due *d, day_t today, struct stage *out)
{
    if (d->deadline == DAY_NONE)
        return 0;
    if (d->no_return)
        return before_return(d, today, out);
    return overdue(d, today, out) || before_deadline(d, today, out);
}

int
stage_missing(const struct due *d, day_t today, struct stage *out)
{
    const char *what =
        d->besides == DUE_NO_RECORD ? "no-record" : "needs-reading";
    struct isoweek w = isoweek_of(today);

    if (d->besides != DUE_NO_RECORD && d->besides != DUE_NEEDS_READING)
        return 0;
    snprintf(out->name, sizeof out->name, "%s-%d-W%02d", what, w.year, w.week);
    out->day = isoweek_first(today);
    out->dated = 0;
    return 1;
}

int
stage_failed(const struct due *d, struct stage *out)
{
    if (d->state != DUE_FAILED)
        return 0;
    snprintf(
        out->name, sizeof out->name, "failed-%lld", (long long)d->failed->id);
    out->day = d->failed->day;
    out->dated = 0;
    return 1;
}

int
stage_concerns(const struct stage *s, const struct due *d, day_t today,
    const struct person *p)
{
    day_t from = step_span(
        d->deadline, p->from, p->from_overdue ? 1 : -1, MONTH_END_CLAMP);

    /* No record at all is louder than late; the rest waits its turn. */
    if (!s->dated)
        return !p->from_overdue || d->besides == DUE_NO_RECORD;
    if (p->from_overdue)
        return s->day > d->deadline && today >= from;
    return s->day >= from;
}
