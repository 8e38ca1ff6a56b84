#include "need.h"

#include "cover.h"
#include "kind.h"
#include "usage.h"

#include <stdlib.h>

#define ROLLED 31 /* days: further than any roll goes */

struct need_list {
    const struct fleet *fleet;
    const struct task *only; /* NULL for all */
    struct cover *cover;
    enum need work[]; /* by the job's index */
};

struct need_list *
need_new(const struct fleet *f, const struct task *only)
{
    struct need_list *l = calloc(1, sizeof *l + f->n_jobs * sizeof *l->work);

    if (l == NULL)
        return NULL;
    l->fleet = f;
    l->only = only;
    l->cover = cover_new(f);
    if (l->cover == NULL) {
        free(l);
        return NULL;
    }
    return l;
}

void
need_free(struct need_list *l)
{
    if (l == NULL)
        return;
    cover_free(l->cover);
    free(l);
}

/* The tasks of @s whose dues are asked for, up to @end. */
static const struct task *
asked(
    const struct need_list *l, const struct subject *s, const struct task **end)
{
    const struct task *tasks = &l->fleet->tasks[s->first_task];

    if (l->only == NULL) {
        *end = tasks + s->n_tasks;
        return tasks;
    }
    *end = l->only->subject == s ? l->only + 1 : l->only;
    return l->only;
}

/* Work on the job with the index @done does the task, or counts with it. */
static int
counts_for(const struct need_list *l, const struct task *t, size_t done)
{
    const struct job *also = t->job->also_counts.job;

    return cover_by(l->cover, t->job)[done] ||
           (also != NULL && cover_by(l->cover, also)[done]);
}

/* It makes the task due. */
static int
calls_for(const struct need_list *l, const struct task *t, size_t done)
{
    for (size_t k = 0; k < t->job->n_follows; k++)
        if (cover_by(l->cover, t->job->follows[k])[done])
            return 1;
    return 0;
}

/* What a task needs of its own work.  A follow-on runs from what called for it,
 * whatever its rule says, and its newest work answers all that comes before. */
static enum need
of_task(const struct task *t)
{
    const struct rule *rule = t->rule;

    if (t->job->n_follows > 0)
        return NEED_NEWEST;
    for (int i = 0; i < rule->n_every; i++)
        if (kind_runs_on(&rule->every[i], rule->runs_from) ||
            kind_looks_back(&rule->every[i]))
            return NEED_ALL;
    return NEED_NEWEST;
}

const enum need *
need_of_work(struct need_list *l, const struct subject *s)
{
    const struct task *end;
    const struct task *t = asked(l, s, &end);
    size_t n = l->fleet->n_jobs;

    for (size_t j = 0; j < n; j++)
        l->work[j] = NEED_NONE;
    for (; t < end; t++) {
        enum need need = of_task(t);
        for (size_t j = 0; j < n; j++) {
            if (l->work[j] < need && counts_for(l, t, j))
                l->work[j] = need;
            if (calls_for(l, t, j))
                l->work[j] = NEED_ALL;
        }
    }
    return l->work;
}

static int
goes_by(const struct task *t, enum meter meter)
{
    for (int i = 0; i < t->rule->n_every; i++)
        if (kind_meter(&t->rule->every[i]) == meter)
            return 1;
    return 0;
}

/* What the fleet file says that a meter showed counts as a distance where the
 * job itself goes by no meter. */
int
need_of_meter(
    const struct need_list *l, const struct subject *s, enum meter meter)
{
    const struct task *end;

    for (const struct task *t = asked(l, s, &end); t < end; t++)
        if (goes_by(t, METER_HOURS) ||
            (meter == METER_DISTANCE && goes_by(t, METER_DISTANCE)))
            return 1;
    return 0;
}

/* The day on which @t was last done, by a record or by the fleet file, or
 * DAY_NONE. */
static day_t
newest(const struct need_list *l, const struct task *t,
    const struct record *work, size_t n)
{
    const struct subject *s = t->subject;
    const struct task *tasks = &l->fleet->tasks[s->first_task];
    day_t day = DAY_NONE;

    for (size_t i = 0; i < n; i++)
        if (work[i].kind == RECORD_COMPLETED &&
            counts_for(l, t, work[i].job->index))
            day = day_later(day, work[i].day);
    for (size_t i = 0; i < s->n_tasks; i++)
        if (counts_for(l, t, tasks[i].job->index))
            day = day_later(day, tasks[i].baseline.last);
    return day;
}

/* The day of the oldest work that calls for @t from @since on, or DAY_NONE. */
static day_t
oldest_call(const struct need_list *l, const struct task *t, day_t since,
    const struct record *work, size_t n)
{
    const struct subject *s = t->subject;
    const struct task *tasks = &l->fleet->tasks[s->first_task];
    day_t day = DAY_NONE;

    for (size_t i = 0; i < n; i++)
        if (work[i].kind == RECORD_COMPLETED && work[i].day >= since &&
            calls_for(l, t, work[i].job->index))
            day = day_earlier(day, work[i].day);
    for (size_t i = 0; i < s->n_tasks; i++)
        if (tasks[i].baseline.last >= since &&
            calls_for(l, t, tasks[i].job->index))
            day = day_earlier(day, tasks[i].baseline.last);
    return day;
}

/*
 * The first day on which @t is taken as done.  Looking ahead begins on the day
 * it was due: after it was last done, rolled back a little perhaps, or as a
 * certificate states, or on any day where nothing is known or a count looks
 * back.  A follow-on is not looked ahead for, and was last done before what may
 * still be open.
 */
static day_t
first_done(const struct need_list *l, const struct task *t,
    const struct record *work, size_t n)
{
    day_t last = newest(l, t, work, n);

    if (t->job->n_follows > 0)
        return oldest_call(l, t, last, work, n);
    for (int i = 0; i < t->rule->n_every; i++)
        if (kind_looks_back(&t->rule->every[i]))
            return DAY_FIRST;
    last = step_days(last, -ROLLED);
    if (last == DAY_NONE)
        return DAY_FIRST;
    return day_earlier(last, t->baseline.deadline);
}

day_t
need_first_asked(const struct need_list *l, const struct subject *s,
    const struct record *work, size_t n)
{
    const struct task *end;
    day_t first = DAY_NONE;

    for (const struct task *t = asked(l, s, &end); t < end; t++)
        if (goes_by(t, METER_DISTANCE) || goes_by(t, METER_HOURS))
            first = day_earlier(first, first_done(l, t, work, n));
    return first;
}

int
need_goes_back(struct need_back *b, day_t day, int fitted)
{
    if (b->last == DAY_NONE)
        b->since = usage_since(day, b->since);
    if (day != b->last && day < b->since && ++b->before > USAGE_BEFORE)
        return 0;
    b->last = day;
    if (fitted)
        b->since = DAY_FIRST;
    return 1;
}
