#include "evidence.h"

#include "compute.h"
#include "follow.h"
#include "kind.h"
#include "task_facts.h"

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
    if (p->open)
        return p->called <= s->to;
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

/* What stood before the completion at @i, by the same reckoning as every other
 * due: its deadline, or DAY_NONE. */
static day_t
due_before(const struct calc_context *r, size_t i, struct due *d)
{
    struct calc_context then = *r;
    struct decision all;

    *d = (struct due){.due_reading = -1};
    then.n_done = i;
    if (!compute_due(&then, d, &all) || d->no_return)
        return DAY_NONE;
    return d->deadline;
}

static day_t
deadline_before(const struct calc_context *r, size_t i)
{
    struct due d;

    return due_before(r, i, &d);
}

/* A deadline that was foretold says nothing against what the meter showed. */
static void
compare_reading(
    struct proof *p, const struct due *d, const struct completion *done)
{
    int64_t due = d->due_reading;

    p->meter = d->meter;
    if (due >= 0 && done->reading[d->meter] > due)
        p->over = done->reading[d->meter] - due;
}

/* Nonzero when the completion at @i changed nothing, and so met no deadline. */
static int
is_extra(const struct calc_context *r, size_t i)
{
    struct calc_context then = *r;
    struct decision all;
    struct due d;

    then.n_done = i + 1;
    return compute_due(&then, &d, &all) && all.decides >= 0 &&
           all.each[all.decides].extra;
}

/* Nonzero when @c came before the failure: on one day in the order of entry,
 * where what the fleet file states comes last. */
static int
is_before(const struct completion *c, const struct record *failed)
{
    if (c->day != failed->day)
        return c->day < failed->day;
    return c->by != NULL && c->record < failed->id;
}

/* How many of those @n came before the failure. */
static size_t
count_before(const struct completion *c, size_t n, const struct record *failed)
{
    size_t before = 0;

    while (before < n && is_before(&c[before], failed))
        before++;
    return before;
}

/* The deadline that stood when it failed. */
static day_t
deadline_at(const struct calc_context *r, const struct record *failed)
{
    struct calc_context then = *r;

    if (r->task->job->n_follows == 0)
        return deadline_before(r, count_before(r->done, r->n_done, failed));
    then.n_called = count_before(r->called, r->n_called, failed);
    then.n_answers = count_before(r->answers, r->n_answers, failed);
    return follow_choose(&then) > 0 ? deadline_before(&then, 1) : DAY_NONE;
}

/* Each failure with the deadline that stood then. */
static int
add_failures(struct evidence *e, const struct calc_context *r,
    const struct facts *facts, const struct stretch *s)
{
    const struct task *t = r->task;
    size_t last = facts->first[t->subject->index + 1];

    for (size_t k = facts->first[t->subject->index]; k < last; k++) {
        const struct record *f = &facts->records[k];
        if (f->kind != RECORD_FAILED || f->job != t->job)
            continue;
        struct proof p = {.task = t,
            .deadline = deadline_at(r, f),
            .done = f->day,
            .record = f,
            .called = DAY_NONE,
            .failed = 1};
        if (add(e, s, p))
            return -1;
    }
    return 0;
}

/* The completion at @i with the deadline that stood before it.  What was due
 * before the fleet file's own is not known. */
static struct proof
proof_of(const struct calc_context *r, size_t i)
{
    const struct completion *c = &r->done[i];
    struct proof p = {.task = r->task,
        .deadline = DAY_NONE,
        .done = c->day,
        .record = c->by,
        .called = DAY_NONE,
        .extra = is_extra(r, i),
        .needed = kind_never_due(r->task->rule)};
    struct due d;

    if (c->by == NULL || p.extra)
        return p;
    p.deadline = due_before(r, i, &d);
    compare_reading(&p, &d, c);
    return p;
}

/* Each completion, and what is pending after the last. */
static int
add_cycles(
    struct evidence *e, const struct calc_context *r, const struct stretch *s)
{
    for (size_t i = 0; i < r->n_done; i++)
        if (!r->done[i].also && add(e, s, proof_of(r, i)))
            return -1;
    return add(e, s,
        (struct proof){.task = r->task,
            .deadline = deadline_before(r, r->n_done),
            .done = DAY_NONE,
            .called = DAY_NONE});
}

/* A call with its own deadline, and what answered it. */
static struct proof
proof_of_call(
    const struct calc_context *r, const struct completion *call, day_t today)
{
    const struct completion *answer = follow_answer(r, call);
    struct calc_context only = follow_only(r, call);
    struct due d;
    day_t deadline = due_before(&only, 1, &d);
    struct proof p = {.task = r->task,
        .deadline = deadline,
        .done = answer ? answer->day : DAY_NONE,
        .record = answer ? answer->by : NULL,
        .called = call->day,
        .by_call = call->by,
        .open = answer == NULL && (deadline == DAY_NONE || deadline >= today)};

    if (answer != NULL)
        compare_reading(&p, &d, answer);
    return p;
}

static int
add_calls(
    struct evidence *e, const struct calc_context *r, const struct stretch *s)
{
    for (size_t i = 0; i < r->n_called; i++)
        if (add(e, s, proof_of_call(r, &r->called[i], s->today)))
            return -1;
    return 0;
}

static int
answers_any(const struct calc_context *r, const struct completion *answer)
{
    for (size_t i = 0; i < r->n_called; i++)
        if (follow_answer(r, &r->called[i]) == answer)
            return 1;
    return 0;
}

/* A follow-on by its calls; done without one, or once more, it is an extra. */
static int
add_follow_on(
    struct evidence *e, const struct calc_context *r, const struct stretch *s)
{
    if (add_calls(e, r, s))
        return -1;
    for (size_t i = 0; i < r->n_answers; i++) {
        const struct completion *c = &r->answers[i];
        struct proof p = {.task = r->task,
            .deadline = DAY_NONE,
            .done = c->day,
            .record = c->by,
            .called = DAY_NONE,
            .extra = 1};
        if (!c->also && !answers_any(r, c) && add(e, s, p))
            return -1;
    }
    return 0;
}

static int
add_task(struct evidence *e, struct task_facts *g, const struct facts *facts,
    const struct task *t, const struct stretch *s)
{
    struct calc_context r;

    if (task_facts_task(g, t, &r) < 0)
        return -1;
    int rc =
        t->job->n_follows > 0 ? add_follow_on(e, &r, s) : add_cycles(e, &r, s);
    return rc ? rc : add_failures(e, &r, facts, s);
}

static day_t
day_of_proof(const struct proof *p)
{
    return p->done != DAY_NONE ? p->done : p->deadline;
}

/* In the order of entry; what is not on record comes last. */
static int64_t
entry_of_proof(const struct proof *p)
{
    return p->record != NULL ? p->record->id : INT64_MAX;
}

static int
by_day(const void *left, const void *right)
{
    const struct proof *a = left;
    const struct proof *b = right;
    const int64_t keys[][2] = {{day_of_proof(a), day_of_proof(b)},
        {a->task > b->task, a->task < b->task},
        {entry_of_proof(a), entry_of_proof(b)}, {a->deadline, b->deadline},
        {a->called, b->called}};

    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        if (keys[i][0] != keys[i][1])
            return keys[i][0] < keys[i][1] ? -1 : 1;
    return 0;
}

static int
add_all(struct evidence *e, struct task_facts *g, const struct facts *facts,
    const struct subject *subject, const struct stretch *s)
{
    const struct task *tasks = &facts->fleet->tasks[subject->first_task];

    if (task_facts_subject(g, subject))
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
    struct task_facts *g = task_facts_new(facts);

    if (e == NULL || g == NULL || add_all(e, g, facts, subject, &s)) {
        evidence_free(e);
        e = NULL;
    }
    task_facts_free(g);
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
    return p->over == 0 && (p->deadline == DAY_NONE || p->done <= p->deadline);
}
