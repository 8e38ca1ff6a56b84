#include "evidence.h"

#include "compute.h"
#include "gather.h"

#include <stdlib.h>

struct evidence {
    struct proof *list;
    size_t n;
    size_t size;
};

/* The stretch of time that is asked for. */
struct stretch {
    day_t from;
    day_t to;
    day_t today;
};

static int
lies_in(const struct stretch *s, day_t d)
{
    return d != DAY_NONE && d >= s->from && d <= s->to;
}

static int
is_wanted(const struct stretch *s, const struct proof *p)
{
    if (p->done != DAY_NONE)
        return lies_in(s, p->done);
    return lies_in(s, p->deadline) && p->deadline < s->today;
}

static int
add(struct evidence *e, const struct stretch *s, struct proof p)
{
    if (!is_wanted(s, &p))
        return 0;
    if (e->n == e->size) {
        size_t size = e->size ? e->size * 2 : 32;
        void *list = realloc(e->list, size * sizeof *e->list);
        if (list == NULL)
            return -1;
        e->list = list;
        e->size = size;
    }
    e->list[e->n++] = p;
    return 0;
}

/* The deadline that stood before the completion at @i, by the same reckoning
 * as every other, or DAY_NONE. */
static day_t
deadline_before(const struct reckoning *r, size_t i)
{
    struct reckoning then = *r;
    struct decision all;
    struct due d;

    then.n_done = i;
    if (!compute_due(&then, &d, &all) || d.no_return)
        return DAY_NONE;
    return d.deadline;
}

/* Nonzero when the completion at @i changed nothing, and so met no deadline. */
static int
is_extra(const struct reckoning *r, size_t i)
{
    struct reckoning then = *r;
    struct decision all;
    struct due d;

    then.n_done = i + 1;
    return compute_due(&then, &d, &all) && all.decides >= 0 &&
           all.each[all.decides].extra;
}

/* Each failure with the deadline that stood then. */
static int
add_failures(struct evidence *e, const struct reckoning *r,
    const struct facts *facts, const struct stretch *s)
{
    const struct task *t = r->task;
    size_t last = facts->first[t->subject->index + 1];

    for (size_t k = facts->first[t->subject->index]; k < last; k++) {
        const struct record *f = &facts->records[k];
        size_t before = 0;
        if (f->kind != RECORD_FAILED || f->job != t->job)
            continue;
        while (before < r->n_done && r->done[before].day <= f->day)
            before++;
        struct proof p = {.task = t,
            .deadline = deadline_before(r, before),
            .done = f->day,
            .record = f,
            .failed = 1};
        if (add(e, s, p))
            return -1;
    }
    return 0;
}

/*
 * Each completion with the deadline that stood before it, and what is pending
 * after the last.  A follow-on has only its pending one: what called for it
 * earlier is settled.
 */
static int
add_task(struct evidence *e, struct gather *g, const struct facts *facts,
    const struct task *t, const struct stretch *s)
{
    struct reckoning r;
    int due = gather_task(g, t, &r);
    int follows = t->job->n_follows > 0;

    if (due < 0)
        return -1;
    for (size_t i = 0; i < r.n_done && !follows; i++) {
        const struct completion *c = &r.done[i];
        /* What was due before the fleet file's own is not known. */
        int extra = is_extra(&r, i);
        day_t deadline =
            c->by != NULL && !extra ? deadline_before(&r, i) : DAY_NONE;
        struct proof p = {t, deadline, c->day, c->by, extra, 0};
        if (!r.done[i].also && add(e, s, p))
            return -1;
    }
    if (add_failures(e, &r, facts, s))
        return -1;
    if (due == 0)
        return 0;
    return add(e, s,
        (struct proof){.task = t,
            .deadline = deadline_before(&r, r.n_done),
            .done = DAY_NONE});
}

static day_t
day_of_proof(const struct proof *p)
{
    return p->done != DAY_NONE ? p->done : p->deadline;
}

static int
by_day(const void *left, const void *right)
{
    const struct proof *a = left;
    const struct proof *b = right;
    day_t day_a = day_of_proof(a);
    day_t day_b = day_of_proof(b);

    if (day_a != day_b)
        return day_a < day_b ? -1 : 1;
    return (a->task > b->task) - (a->task < b->task);
}

static int
add_all(struct evidence *e, struct gather *g, const struct facts *facts,
    const struct subject *subject, const struct stretch *s)
{
    const struct task *tasks = &facts->fleet->tasks[subject->first_task];

    if (gather_subject(g, subject))
        return -1;
    for (size_t k = 0; k < subject->n_tasks; k++)
        if (add_task(e, g, facts, &tasks[k], s))
            return -1;
    if (e->n > 1)
        qsort(e->list, e->n, sizeof *e->list, by_day);
    return 0;
}

struct evidence *
evidence_new(const struct facts *facts, const struct subject *subject,
    day_t from, day_t to, day_t today)
{
    struct stretch s = {from, to, today};
    struct evidence *e = calloc(1, sizeof *e);
    struct gather *g = gather_new(facts);

    if (e == NULL || g == NULL || add_all(e, g, facts, subject, &s)) {
        evidence_free(e);
        e = NULL;
    }
    gather_free(g);
    return e;
}

void
evidence_free(struct evidence *e)
{
    if (e == NULL)
        return;
    free(e->list);
    free(e);
}

const struct proof *
evidence_proofs(const struct evidence *e, size_t *n)
{
    *n = e->n;
    return e->list;
}

int
evidence_in_time(const struct proof *p)
{
    if (p->done == DAY_NONE || p->failed)
        return 0;
    return p->deadline == DAY_NONE || p->done <= p->deadline;
}
