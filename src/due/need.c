#include "need.h"

#include "cover.h"
#include "kind.h"

#include <stdlib.h>

#define RATE_YEARS 3
#define RATE_READINGS 24
#define MARGIN 2

struct need_list {
    const struct fleet *fleet;
    struct cover *cover;
    enum need work[]; /* by the job's index */
};

struct need_list *
need_new(const struct fleet *f)
{
    struct need_list *l = calloc(1, sizeof *l + f->n_jobs * sizeof *l->work);

    if (l == NULL)
        return NULL;
    l->fleet = f;
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

/* Nonzero when work on the job with the index @done counts for @t, as what
 * does it, counts with it, or calls for it. */
static int
bears_on(const struct need_list *l, const struct task *t, size_t done)
{
    const struct job *job = t->job;
    const struct job *also = job->also_counts.job;

    if (cover_by(l->cover, job)[done] ||
        (also != NULL && cover_by(l->cover, also)[done]))
        return 1;
    for (size_t k = 0; k < job->n_follows; k++)
        if (cover_by(l->cover, job->follows[k])[done])
            return 1;
    return 0;
}

/* A follow-on runs from what called for it last, whatever its rule says. */
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
    const struct task *t = &l->fleet->tasks[s->first_task];
    size_t n = l->fleet->n_jobs;

    for (size_t j = 0; j < n; j++)
        l->work[j] = NEED_NONE;
    for (const struct task *end = t + s->n_tasks; t < end; t++) {
        enum need need = of_task(t);
        for (size_t j = 0; j < n; j++)
            if (l->work[j] < need && bears_on(l, t, j))
                l->work[j] = need;
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

int
need_of_meter(
    const struct need_list *l, const struct subject *s, enum meter meter)
{
    const struct task *tasks = &l->fleet->tasks[s->first_task];

    for (size_t i = 0; i < s->n_tasks; i++)
        if (goes_by(&tasks[i], meter))
            return 1;
    return 0;
}

/* The day of the newest work that bears on @t, by a record or by the fleet
 * file, or DAY_NONE. */
static day_t
newest(const struct need_list *l, const struct task *t,
    const struct record *work, size_t n)
{
    const struct subject *s = t->subject;
    const struct task *tasks = &l->fleet->tasks[s->first_task];
    day_t day = DAY_NONE;

    for (size_t i = 0; i < n; i++)
        if (work[i].kind == RECORD_COMPLETED &&
            bears_on(l, t, work[i].job->index))
            day = day_later(day, work[i].day);
    for (size_t i = 0; i < s->n_tasks; i++)
        if (bears_on(l, t, tasks[i].job->index))
            day = day_later(day, tasks[i].baseline.last);
    return day;
}

day_t
need_first_asked(const struct need_list *l, const struct subject *s,
    const struct record *work, size_t n)
{
    const struct task *tasks = &l->fleet->tasks[s->first_task];
    day_t first = DAY_NONE;

    for (size_t i = 0; i < s->n_tasks; i++)
        if (goes_by(&tasks[i], METER_DISTANCE) ||
            goes_by(&tasks[i], METER_HOURS))
            first = day_earlier(first, newest(l, &tasks[i], work, n));
    return first;
}

int
need_goes_back(struct need_back *b, day_t day)
{
    struct span rate = {RATE_YEARS, STEP_YEARS};

    if (b->taken++ == 0)
        b->since =
            day_earlier(b->since, step_span(day, rate, -1, MONTH_END_CLAMP));
    if (b->taken <= RATE_READINGS || day >= b->since)
        return 1;
    return ++b->before <= MARGIN;
}
