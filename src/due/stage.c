#include "stage.h"

#include "isoweek.h"

#include <stdio.h>

/* The working day on or before @d; the day itself when there is none. */
static day_t
working_day(const struct due *d, day_t day)
{
    day_t before = workcal_preceding(d->task->calendar, day);

    return before == DAY_NONE ? day : before;
}

static int
weekly(const char *what, day_t today, struct stage *out)
{
    struct isoweek w = isoweek_of(today);

    snprintf(out->name, sizeof out->name, "%s-%d-W%02d", what, w.year, w.week);
    out->day = isoweek_first(today);
    out->dated = 0;
    return 1;
}

static int
before_return(day_t today, struct stage *out)
{
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

static int
dated(const struct due *d, day_t today, struct stage *out)
{
    if (d->deadline == DAY_NONE)
        return 0;
    return overdue(d, today, out) || before_deadline(d, today, out);
}

/* The first day on which the newest reading was too old, or DAY_NONE. */
static day_t
old_since(const struct due *d)
{
    if (!(d->warnings & WARN_OLD_READING) || d->newest_reading == DAY_NONE)
        return DAY_NONE;
    return step_days(step_span(d->newest_reading, d->task->rule->reading_within,
                         1, MONTH_END_CLAMP),
        1);
}

/* It is told anew each week, and at the stages before its deadline as well,
 * when it has one: whichever came last. */
static int
needs_reading(const struct due *d, day_t today, struct stage *out)
{
    struct stage reading = {.dated = 0};

    weekly("needs-reading", today, &reading);
    reading.day = day_later(reading.day, old_since(d));
    if (!dated(d, today, out) || out->day < reading.day)
        *out = reading;
    return 1;
}

int
stage_reached(const struct due *d, day_t today, struct stage *out)
{
    if (d->state == DUE_NO_RECORD)
        return weekly("no-record", today, out);
    if (d->state == DUE_NEEDS_READING)
        return needs_reading(d, today, out);
    if (d->no_return)
        return d->deadline <= today && before_return(today, out);
    return dated(d, today, out);
}

int
stage_concerns(const struct stage *s, const struct due *d, day_t today,
    const struct person *p)
{
    day_t from = step_span(
        d->deadline, p->from, p->from_overdue ? 1 : -1, MONTH_END_CLAMP);

    /* No record at all is louder than late; the rest waits its turn. */
    if (!s->dated)
        return !p->from_overdue || d->state == DUE_NO_RECORD;
    if (p->from_overdue)
        return s->day > d->deadline && today >= from;
    return s->day >= from;
}
