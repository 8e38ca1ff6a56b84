#include "gather.h"

#include <stdlib.h>
#include <string.h>

/* A growing list of one type, reused by setting n to 0. */
#define LIST(type)                                                             \
    struct {                                                                   \
        type *at;                                                              \
        size_t n;                                                              \
        size_t size;                                                           \
    }

/* A record of work, with what it is looked through for close at hand. */
struct work {
    const struct record *record;
    size_t job; /* its index */
};

struct gather {
    const struct facts *facts;
    struct cover *cover;
    LIST(struct work) work;
    int past_baseline; /* or there is none */
    day_t last_done;
    const struct record *failed;
    LIST(struct completion) done;
    LIST(struct spell) spells;
    LIST(struct reading) distance;
    LIST(struct reading) hours;
    struct usage distance_usage;
    struct usage hours_usage;
};

/* Room for one more item of @item bytes, or NULL. */
static void *
room(void **at, size_t n, size_t *size, size_t item)
{
    if (n == *size) {
        size_t more = *size ? *size * 2 : 16;
        void *grown = realloc(*at, more * item);
        if (grown == NULL)
            return NULL;
        *at = grown;
        *size = more;
    }
    return (char *)*at + n * item;
}

/* Append @value: 0, or -1 when memory is out. */
#define APPEND(list, value)                                                    \
    (room((void **)&(list).at, (list).n, &(list).size, sizeof *(list).at)      \
            ? ((list).at[(list).n++] = (value), 0)                             \
            : -1)

struct gather *
gather_new(const struct facts *facts)
{
    struct gather *g = calloc(1, sizeof *g);

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
gather_free(struct gather *g)
{
    if (g == NULL)
        return;
    cover_free(g->cover);
    free(g->work.at);
    free(g->done.at);
    free(g->spells.at);
    free(g->distance.at);
    free(g->hours.at);
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

static int
add_spells(struct gather *g, const struct subject *s)
{
    const struct record *end;

    for (const struct record *k = records_of(g->facts, s, &end); k < end; k++) {
        struct spell spell = {k->day, k->until};
        if (k->kind == RECORD_OFF_ROAD && APPEND(g->spells, spell))
            return -1;
    }
    return 0;
}

static int
by_from(const void *left, const void *right)
{
    const struct spell *a = left;
    const struct spell *b = right;

    return (a->from > b->from) - (a->from < b->from);
}

/* Join spells that overlap or touch, so that no day counts twice. */
static void
join_spells(struct gather *g)
{
    struct spell *s = g->spells.at;
    size_t kept = 0;

    if (g->spells.n > 1)
        qsort(s, g->spells.n, sizeof *s, by_from);
    for (size_t i = 0; i < g->spells.n; i++) {
        struct spell *last = kept ? &s[kept - 1] : NULL;
        if (last == NULL ||
            (last->until != DAY_NONE && s[i].from > last->until + 1))
            s[kept++] = s[i];
        else if (last->until != DAY_NONE)
            last->until = s[i].until == DAY_NONE
                              ? DAY_NONE
                              : day_later(last->until, s[i].until);
    }
    g->spells.n = kept;
}

static int
add_readings(struct gather *g, const struct subject *s)
{
    const struct record *end;

    for (const struct record *k = records_of(g->facts, s, &end); k < end; k++) {
        struct reading reading = {k->day, k->reading};
        if (k->reading < 0)
            continue;
        if (k->meter == METER_HOURS ? APPEND(g->hours, reading)
                                    : APPEND(g->distance, reading))
            return -1;
    }
    return 0;
}

static int
add_work(struct gather *g, const struct subject *s)
{
    const struct record *end;

    for (const struct record *k = records_of(g->facts, s, &end); k < end; k++) {
        if (k->job == NULL)
            continue;
        struct work work = {k, k->job->index};
        if (APPEND(g->work, work))
            return -1;
    }
    return 0;
}

int
gather_subject(struct gather *g, const struct subject *s)
{
    g->work.n = g->spells.n = g->distance.n = g->hours.n = 0;
    if (add_work(g, s))
        return -1;
    const struct subject *c = s;
    do
        if (add_spells(g, c))
            return -1;
    while ((c = c->carrier) != NULL);
    join_spells(g);
    if (add_readings(g, s))
        return -1;
    g->distance_usage =
        (struct usage){g->distance.at, g->distance.n, s->yearly_distance};
    g->hours_usage = (struct usage){g->hours.at, g->hours.n, s->yearly_hours};
    return 0;
}

static int
add_completion(struct gather *g, const struct record *k, int also)
{
    struct completion c = {k->day, k->id, k->reading, k, also};

    return APPEND(g->done, c);
}

/* The fleet file's own completion, in its place, unless a record of the job
 * on that day says more. */
static int
add_baseline(struct gather *g, const struct task *t, day_t before)
{
    const struct baseline *b = &t->baseline;
    struct completion c = {b->last, 0, b->last_reading, NULL, 0};

    if (g->past_baseline || (before != DAY_NONE && b->last >= before))
        return 0;
    g->past_baseline = 1;
    return APPEND(g->done, c);
}

/* One record that bears on the task: done, failed, or counting as well. */
static int
take_work(
    struct gather *g, const struct task *t, const struct record *k, int own)
{
    if (k->kind == RECORD_FAILED && k->job == t->job)
        g->failed = k;
    if (k->kind != RECORD_COMPLETED)
        return 0;
    if (own && k->day == t->baseline.last)
        g->past_baseline = 1;
    if (own) {
        g->last_done = day_later(g->last_done, k->day);
        g->failed = NULL;
    }
    return add_baseline(g, t, k->day) || add_completion(g, k, !own) ? -1 : 0;
}

static int
add_completions(struct gather *g, const struct task *t)
{
    const struct job *other = t->job->also_counts.job;
    const unsigned char *own = cover_by(g->cover, t->job);
    const unsigned char *also = other ? cover_by(g->cover, other) : own;

    g->done.n = 0;
    g->past_baseline = t->baseline.last == DAY_NONE;
    g->last_done = t->baseline.last;
    g->failed = NULL;
    for (size_t i = 0; i < g->work.n; i++) {
        size_t job = g->work.at[i].job;
        if ((own[job] || also[job]) &&
            take_work(g, t, g->work.at[i].record, own[job]))
            return -1;
    }
    return add_baseline(g, t, DAY_NONE);
}

/* The newest record of a job that @t follows, or NULL. */
static const struct record *
trigger_of(const struct gather *g, const struct task *t)
{
    const struct record *newest = NULL;

    for (size_t i = 0; i < g->work.n; i++)
        for (size_t k = 0; k < t->job->n_follows; k++)
            if (g->work.at[i].record->kind == RECORD_COMPLETED &&
                cover_by(g->cover, t->job->follows[k])[g->work.at[i].job])
                newest = g->work.at[i].record;
    return newest;
}

/* A follow-on runs from what called for it, until it has been done. */
static int
follow(struct gather *g, const struct task *t)
{
    const struct record *trigger = trigger_of(g, t);

    if (trigger == NULL)
        return 0;
    const struct completion *done =
        g->done.n ? &g->done.at[g->done.n - 1] : NULL;
    if (done != NULL &&
        (done->day > trigger->day ||
            (done->day == trigger->day && done->record > trigger->id)))
        return 0;
    g->done.n = 0;
    return add_completion(g, trigger, 0) ? -1 : 1;
}

int
gather_task(struct gather *g, const struct task *t, struct reckoning *r)
{
    int due = 1;

    if (add_completions(g, t))
        return -1;
    if (t->job->n_follows > 0)
        due = follow(g, t);
    *r = (struct reckoning){
        .task = t,
        .done = g->done.at,
        .n_done = g->done.n,
        .failed = g->failed,
        .spells = g->spells.at,
        .n_spells = g->spells.n,
        .distance = g->distance_usage,
        .hours = g->hours_usage,
    };
    return due;
}

int
gather_assume(struct gather *g, struct completion c, struct reckoning *r)
{
    if (APPEND(g->done, c))
        return -1;
    r->done = g->done.at;
    r->n_done = g->done.n;
    return 0;
}

day_t
gather_last_done(const struct gather *g)
{
    return g->last_done;
}
