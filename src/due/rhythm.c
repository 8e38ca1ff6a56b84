#include "rhythm.h"

#include "window.h"

static int
satisfied(const struct reckoning *r, day_t deadline, day_t day)
{
    const struct rule *rule = r->task->rule;

    return deadline != DAY_NONE &&
           (deadline <= day ||
               (rule->window.n > 0 && window_opening(rule, deadline) <= day));
}

static void
go_on(const struct reckoning *r, const struct interval *every,
    rhythm_step *step, struct limit *l)
{
    l->previous = l->deadline;
    step(r, every, l);
}

void
rhythm_complete(const struct reckoning *r, const struct interval *every,
    day_t day, rhythm_step *step, struct limit *l)
{
    l->extra = l->previous != DAY_NONE && day <= l->previous;
    if (l->extra)
        return;
    do
        go_on(r, every, step, l);
    while (satisfied(r, l->deadline, day));
}

void
rhythm_begin(const struct reckoning *r, const struct interval *every, day_t day,
    day_t first, rhythm_step *step, struct limit *l)
{
    l->deadline = first;
    while (satisfied(r, l->deadline, day))
        go_on(r, every, step, l);
}
