#include "season.h"

#include "length.h"
#include "reasons.h"
#include "rhythm.h"

static void
step(const struct reckoning *r, const struct interval *every, struct limit *l)
{
    (void)r;
    l->deadline = every->kind->date_from(every, step_days(l->deadline, 1));
}

static void
say(const struct reckoning *r, const struct interval *every, day_t from,
    const struct limit *l)
{
    reasons_add(r->why, REASON_INTERVAL, from, l->deadline, "%s (%s)",
        every->text, fleet_class_word(r->task->job->class));
}

void
season_first(
    const struct reckoning *r, const struct interval *every, struct limit *l)
{
    day_t from = length_first(r);

    if (from == DAY_NONE)
        return;
    l->previous = length_first_from(r->task);
    l->deadline = every->kind->date_from(every, from);
    say(r, every, from, l);
}

void
season_next(const struct reckoning *r, const struct interval *every, size_t i,
    struct limit *l)
{
    day_t day = r->done[i].day;
    day_t after = step_days(day, 1);

    if (l->deadline == DAY_NONE)
        rhythm_begin(
            r, every, day, every->kind->date_from(every, after), step, l);
    else
        rhythm_complete(r, every, day, step, l);
    say(r, every, day, l);
}
