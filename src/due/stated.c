#include "stated.h"

#include "calc_context.h"
#include "earliest_limit.h"
#include "kind.h"
#include "task_facts.h"

/* The first deadline that is stated for @t, or DAY_NONE.  One beside a 'last'
 * is known to be good for one time only. */
static day_t
stated_for(const struct task *t)
{
    if (t->baseline.last != DAY_NONE)
        return DAY_NONE;
    if (t->baseline.deadline != DAY_NONE)
        return t->baseline.deadline;
    return t->rule->first.origin == ORIGIN_ON ? t->rule->first.on : DAY_NONE;
}

/* The first interval that the calendar decides, or -1. */
static int
by_calendar(const struct rule *rule)
{
    for (int i = 0; i < rule->n_every; i++)
        if (rule->every[i].kind->before != NULL)
            return i;
    return -1;
}

/*
 * Set what there is to say; 0 for nothing.  What was done by the deadline
 * before is what led to this one, as everybody expects.  A first deadline that
 * is no certificate's is not used up but met, so nothing overtakes it; older
 * work that leaves it is doubtful.
 */
static int
is_doubtful(const struct calc_context *r, const struct decision *all, int at,
    struct stated *s)
{
    const struct interval *every = &r->task->rule->every[at];
    const struct limit *l = &all->each[at];
    int certified = r->task->baseline.deadline != DAY_NONE;
    day_t before = every->kind->before(r, every, s->deadline);

    s->overtaken = l->from > 0;
    s->next = l->deadline;
    s->begins = kind_runs_on(every, r->task->rule->runs_from);
    if (r->n_done == 0 || (s->overtaken && !certified))
        return 0;
    const struct completion *c =
        &r->done[s->overtaken ? l->from - 1 : r->n_done - 1];
    s->done = c->day;
    s->record = c->by;
    s->late =
        s->next != DAY_NONE && c->day > every->kind->before(r, every, s->next);
    return c->day > before || !certified;
}

int
stated_look(const struct facts *facts, stated_seen *seen, void *with)
{
    const struct fleet *f = facts->fleet;
    struct task_facts *g = task_facts_new(facts);
    const struct subject *taken = NULL;
    int rc = g ? 0 : -1;

    for (size_t k = 0; k < f->n_tasks && rc >= 0; k++) {
        const struct task *t = &f->tasks[k];
        struct stated s = {.task = t, .deadline = stated_for(t)};
        int at = by_calendar(t->rule);
        struct calc_context r;
        struct decision all;
        if (s.deadline == DAY_NONE || at < 0 || t->job->n_follows > 0)
            continue;
        if (taken != t->subject)
            rc = task_facts_subject(g, taken = t->subject);
        if (rc < 0 || (rc = task_facts_task(g, t, &r)) < 0)
            break;
        earliest_limit_find(&r, &all);
        if (is_doubtful(&r, &all, at, &s))
            seen(with, &s);
    }
    task_facts_free(g);
    return rc < 0 ? -1 : 0;
}
