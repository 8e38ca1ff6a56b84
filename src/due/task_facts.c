#include "task_facts.h"

#include "follow.h"
#include "meters.h"
#include "off_road.h"

#include <stdlib.h>

/* Work done, or failed, by a record or by the fleet file. */
struct work {
    struct completion done;
    size_t job; /* its index */
    int failed;
};

struct task_facts {
    const struct facts *facts;
    struct cover *cover;
    LIST(struct work) work;
    day_t last_done;
    const struct record *failed;
    LIST(struct completion) done;
    LIST(struct completion) called;
    struct spells spells;
    struct meters meters;
    struct usage distance;
    struct usage hours;
};

struct task_facts *
task_facts_new(const struct facts *facts)
{
    struct task_facts *g = calloc(1, sizeof *g);

    if (g == NULL)
        return NULL;
    g->facts = facts;
    g->cover = cover_new(facts->fleet);
    if (g->cover == NULL) {
        free(g);
        return NULL;
    }
    return g;
}

void
task_facts_free(struct task_facts *g)
{
    if (g == NULL)
        return;
    cover_free(g->cover);
    free(g->work.at);
    free(g->done.at);
    free(g->called.at);
    free(g->spells.at);
    meters_free(&g->meters);
    free(g);
}

/* The records of a subject; sets one past the last. */
static const struct record *
records_of(
    const struct facts *f, const struct subject *s, const struct record **end)
{
    *end = f->records + f->first[s->index + 1];
    return f->records + f->first[s->index];
}

/* What the ledger or the fleet file has of a meter at a completion, -1 for
 * nothing. */
static void
read_then(const struct task_facts *g, struct completion *c, enum meter meter,
    int64_t reading)
{
    c->reading[meter] = meters_at(&g->meters, meter, c, reading);
}

static const struct completion unread = {
    .reading = {USAGE_UNKNOWN, USAGE_UNKNOWN, USAGE_UNKNOWN}};

static int
add_records(struct task_facts *g, const struct subject *s)
{
    const struct record *end;

    for (const struct record *k = records_of(g->facts, s, &end); k < end; k++) {
        if (k->job == NULL)
            continue;
        struct work work = {
            .done = unread,
            .job = k->job->index,
            .failed = k->kind == RECORD_FAILED,
        };
        work.done.day = k->day;
        work.done.record = k->id;
        work.done.by = k;
        work.done.job = k->job;
        read_then(g, &work.done, k->meter, record_reading(k));
        if (LIST_ADD(g->work, work))
            return -1;
    }
    return 0;
}

/* Nonzero when the same was done on the same day. */
static int
is_on_record(const struct work *w, const struct work *stated)
{
    return w->done.day == stated->done.day && w->job == stated->job &&
           !w->failed;
}

/* Put what the fleet file says was done in its place, after the records of
 * that day, unless one of them says the same. */
static int
add_stated(struct task_facts *g, const struct task *t)
{
    struct work stated = {.done = unread, .job = t->job->index};
    size_t at = g->work.n;

    stated.done.day = t->baseline.last;
    stated.done.job = t->job;
    for (enum meter m = METER_DISTANCE; m <= METER_HOURS; m++)
        read_then(g, &stated.done, m, t->baseline.last_reading[m]);
    for (size_t i = 0; i < g->work.n; i++)
        if (is_on_record(&g->work.at[i], &stated))
            return 0;
    if (LIST_ADD(g->work, stated))
        return -1;
    for (; at > 0 && g->work.at[at - 1].done.day > stated.done.day; at--)
        g->work.at[at] = g->work.at[at - 1];
    g->work.at[at] = stated;
    return 0;
}

static int
add_work(struct task_facts *g, const struct subject *s)
{
    const struct task *tasks = &g->facts->fleet->tasks[s->first_task];

    g->work.n = 0;
    if (add_records(g, s))
        return -1;
    for (size_t i = 0; i < s->n_tasks; i++)
        if (tasks[i].baseline.last != DAY_NONE && add_stated(g, &tasks[i]))
            return -1;
    return 0;
}

static int
add_spells_of(
    struct task_facts *g, const struct subject *s, day_t from, day_t to)
{
    const struct record *end;
    const struct record *k = s ? records_of(g->facts, s, &end) : NULL;

    return k ? off_road_add(&g->spells, k, end, from, to) : 0;
}

/* Off the road with what carries it, each for as long as it does. */
static int
add_carried_spells(struct task_facts *g, const struct subject *s)
{
    const struct subject *carrier = s->first_carrier;
    day_t from = DAY_FIRST;
    const struct record *end;

    for (const struct record *k = records_of(g->facts, s, &end); k < end; k++) {
        if (k->kind != RECORD_MOVED || k->other == NULL)
            continue;
        if (add_spells_of(g, carrier, from, k->day - 1))
            return -1;
        carrier = k->other;
        from = k->day;
    }
    return add_spells_of(g, carrier, from, DAY_NONE);
}

static int
add_spells(struct task_facts *g, const struct subject *s)
{
    g->spells.n = 0;
    if (add_spells_of(g, s, DAY_FIRST, DAY_NONE) || add_carried_spells(g, s))
        return -1;
    off_road_join(&g->spells);
    return 0;
}

/* Use goes by the readings and by the days on the road. */
static void
sum_up(struct task_facts *g, const struct subject *s)
{
    g->distance = meters_usage(&g->meters, s, METER_DISTANCE);
    g->hours = meters_usage(&g->meters, s, METER_HOURS);
    g->distance.spells = g->hours.spells = g->spells.at;
    g->distance.n_spells = g->hours.n_spells = g->spells.n;
}

int
task_facts_subject(struct task_facts *g, const struct subject *s)
{
    const struct record *end;
    const struct record *k = records_of(g->facts, s, &end);

    /* What work says of a meter is brought to the scale of the readings. */
    if (meters_take(
            &g->meters, s, &g->facts->fleet->tasks[s->first_task], k, end) ||
        add_spells(g, s) || add_work(g, s))
        return -1;
    sum_up(g, s);
    return 0;
}

struct usage
task_facts_usage(const struct task_facts *g, enum meter meter)
{
    return meter == METER_HOURS ? g->hours : g->distance;
}

static int
add_completion(struct task_facts *g, const struct work *w, int also)
{
    struct completion c = w->done;

    c.also = also;
    return LIST_ADD(g->done, c);
}

/*
 * Nonzero when work that was done leaves no failure open: work on record is
 * in the order of entry within a day.  What the fleet file says was done has
 * no such order, and of the day of a failure does not undo it.
 */
static int
settles(const struct task_facts *g, const struct work *w)
{
    return g->failed == NULL || w->done.by != NULL ||
           w->done.day > g->failed->day;
}

/* One piece of work that bears on the task. */
static int
take_work(
    struct task_facts *g, const struct task *t, const struct work *w, int own)
{
    if (w->failed) {
        if (w->done.job == t->job)
            g->failed = w->done.by;
        return 0;
    }
    if (own) {
        g->last_done = w->done.day;
        if (settles(g, w))
            g->failed = NULL;
    }
    return add_completion(g, w, !own);
}

static int
add_completions(struct task_facts *g, const struct task *t)
{
    const struct job *other = t->job->also_counts.job;
    const unsigned char *own = cover_by(g->cover, t->job);
    const unsigned char *also = other ? cover_by(g->cover, other) : own;

    g->done.n = 0;
    g->last_done = DAY_NONE;
    g->failed = NULL;
    for (size_t i = 0; i < g->work.n; i++) {
        const struct work *w = &g->work.at[i];
        if ((own[w->job] || also[w->job]) && take_work(g, t, w, own[w->job]))
            return -1;
    }
    return 0;
}

/* Nonzero when @w is work that @t follows. */
static int
calls_for(
    const struct task_facts *g, const struct work *w, const struct task *t)
{
    for (size_t k = 0; k < t->job->n_follows; k++)
        if (!w->failed && cover_by(g->cover, t->job->follows[k])[w->job])
            return 1;
    return 0;
}

static int
add_calls(struct task_facts *g, const struct task *t)
{
    g->called.n = 0;
    for (size_t i = 0; i < g->work.n; i++)
        if (calls_for(g, &g->work.at[i], t) &&
            LIST_ADD(g->called, g->work.at[i].done))
            return -1;
    return 0;
}

/* A follow-on runs from what called for it, until it has been done. */
static int
follow(struct task_facts *g, const struct task *t, struct calc_context *r)
{
    if (add_calls(g, t))
        return -1;
    r->called = g->called.at;
    r->n_called = g->called.n;
    r->answers = g->done.at;
    r->n_answers = g->done.n;
    r->done = NULL;
    r->n_done = 0;
    return follow_choose(r) > 0;
}

int
task_facts_task(
    struct task_facts *g, const struct task *t, struct calc_context *r)
{
    if (add_completions(g, t))
        return -1;
    *r = (struct calc_context){
        .task = t,
        .done = g->done.at,
        .n_done = g->done.n,
        .failed = g->failed,
        .spells = g->spells.at,
        .n_spells = g->spells.n,
        .distance = g->distance,
        .hours = g->hours,
    };
    return t->job->n_follows > 0 ? follow(g, t, r) : 1;
}

int
task_facts_assume(
    struct task_facts *g, struct completion c, struct calc_context *r)
{
    if (LIST_ADD(g->done, c))
        return -1;
    r->done = g->done.at;
    r->n_done = g->done.n;
    return 0;
}

day_t
task_facts_last_done(const struct task_facts *g)
{
    return g->last_done;
}
