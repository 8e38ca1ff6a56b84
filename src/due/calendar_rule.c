#include "calendar_rule.h"

#include "calendar_interval.h"
#include "fixed_series.h"
#include "reasons.h"

static void
step(
    const struct calc_context *r, const struct interval *every, struct limit *l)
{
    (void)r;
    l->deadline = every->kind->date_from(every, step_days(l->deadline, 1));
}

static void
say(const struct calc_context *r, const struct interval *every, day_t from,
    const struct limit *l)
{
    reasons_add(r->why, REASON_INTERVAL, from, l->deadline, "%s (%s)",
        every->text, fleet_class_word(r->task->job->class));
}

void
calendar_rule_first(
    const struct calc_context *r, const struct interval *every, struct limit *l)
{
    day_t from = calendar_interval_first(r);

    if (from == DAY_NONE)
        return;
    l->previous = calendar_interval_first_from(r->task);
    l->deadline = every->kind->date_from(every, from);
    say(r, every, from, l);
}

/* The last one before @d, or DAY_NONE.  They are asked for forward only: so go
 * back until there is one, twice as far each time. */
static day_t
last_before(const struct interval *every, day_t d)
{
    day_t found = DAY_NONE;
    day_t from = d;

    for (int64_t days = 1; found == DAY_NONE && from > DAY_FIRST; days *= 2) {
        from = day_later(step_days(d, -days), DAY_FIRST);
        day_t first = every->kind->date_from(every, from);
        found = first < d ? first : DAY_NONE;
    }
    for (day_t next = found; next != DAY_NONE && next < d;
         next = every->kind->date_from(every, step_days(next, 1)))
        found = next;
    return found;
}

/* A stated deadline need not be a day of the rule; then the rule has no day
 * before it, and the distance between two of its days stands in. */
day_t
calendar_rule_before(
    const struct calc_context *r, const struct interval *every, day_t deadline)
{
    day_t last = last_before(every, deadline);
    day_t next = every->kind->date_from(every, deadline);

    (void)r;
    if (last != DAY_NONE && (next == deadline || next == DAY_NONE))
        return last;
    if (last == DAY_NONE) {
        last = next;
        next = every->kind->date_from(every, step_days(next, 1));
    }
    return next == DAY_NONE ? DAY_NONE
                            : step_days(deadline, (int64_t)last - next);
}

/* With no deadline before it the series begins with the first day after the
 * work. */
void
calendar_rule_next(const struct calc_context *r, const struct interval *every,
    size_t i, struct limit *l)
{
    day_t day = r->done[i].day;
    day_t after = step_days(day, 1);

    if (l->deadline == DAY_NONE)
        fixed_series_begin(
            r, every, day, every->kind->date_from(every, after), step, l);
    else
        fixed_series_complete(r, every, day, step, l);
    say(r, every, day, l);
}
