#include "forward.h"

#include "arena.h"
#include "compute.h"
#include "early.h"
#include "kind.h"
#include "task_facts.h"

#include <stdlib.h>
#include <string.h>

#define ROOM_FIRST 2

/* A task with what was done so far, and what was assumed when it was last asked
 * for: after[k] and calls[k] stand for the first k of those days. */
struct line {
    struct calc_context facts;
    struct completion *done; /* the facts', with room for those days */
    size_t n_base;
    size_t room; /* for days */
    size_t n;    /* how many of after and calls hold */
    struct decision *after;
    struct forward_call *calls;
    int is_due;
};

struct forward {
    struct arena *arena;
    struct line *lines;
};

/* A copy of @n items of @size bytes; of none, NULL is no failure. */
static void *
keep(struct arena *a, const void *items, size_t n, size_t size, int *failed)
{
    void *copy = n > 0 ? arena_take(a, n * size) : NULL;

    if (copy != NULL)
        memcpy(copy, items, n * size);
    *failed |= n > 0 && copy == NULL;
    return copy;
}

/* What the tasks of a subject share. */
struct shared {
    const struct spell *spells;
    const struct reading *distance;
    const struct reading *hours;
};

static int
keep_line(struct forward *f, struct task_facts *g, const struct task *t,
    struct shared *s, struct line *l)
{
    int failed = 0;
    int due = task_facts_task(g, t, &l->facts);

    if (due < 0)
        return -1;
    l->is_due = due;
    struct calc_context *r = &l->facts;
    if (s->spells == NULL)
        s->spells =
            keep(f->arena, r->spells, r->n_spells, sizeof *r->spells, &failed);
    if (s->distance == NULL)
        s->distance = keep(f->arena, r->distance.readings, r->distance.n,
            sizeof *s->distance, &failed);
    if (s->hours == NULL)
        s->hours = keep(
            f->arena, r->hours.readings, r->hours.n, sizeof *s->hours, &failed);
    r->spells = s->spells;
    r->distance.readings = s->distance;
    r->hours.readings = s->hours;
    r->distance.spells = r->hours.spells = s->spells;
    r->called = r->answers = NULL; /* the one that is due has been chosen */
    r->n_called = r->n_answers = 0;
    l->n_base = r->n_done;
    r->done = l->done =
        keep(f->arena, r->done, r->n_done, sizeof *r->done, &failed);
    return failed ? -1 : 0;
}

static int
keep_all(struct forward *f, struct task_facts *g, const struct fleet *fleet)
{
    for (size_t i = 0; i < fleet->n_subjects; i++) {
        const struct subject *s = &fleet->subjects[i];
        struct shared shared = {NULL, NULL, NULL};
        if (task_facts_subject(g, s))
            return -1;
        for (size_t k = s->first_task; k < s->first_task + s->n_tasks; k++)
            if (keep_line(f, g, &fleet->tasks[k], &shared, &f->lines[k]))
                return -1;
    }
    return 0;
}

struct forward *
forward_new(const struct facts *facts)
{
    struct forward *f = calloc(1, sizeof *f);
    struct task_facts *g = task_facts_new(facts);
    int rc = -1;

    if (f == NULL || g == NULL)
        goto out;
    f->arena = arena_new();
    f->lines = calloc(facts->fleet->n_tasks + 1, sizeof *f->lines);
    if (f->arena != NULL && f->lines != NULL)
        rc = keep_all(f, g, facts->fleet);
out:
    task_facts_free(g);
    if (rc == 0)
        return f;
    forward_free(f);
    return NULL;
}

void
forward_free(struct forward *f)
{
    if (f == NULL)
        return;
    arena_free(f->arena);
    free(f->lines);
    free(f);
}

/* Room for @n days and what comes after each. */
static int
make_room(struct forward *f, struct line *l, size_t n)
{
    size_t room = l->room ? l->room : ROOM_FIRST;

    if (l->after != NULL && n <= l->room)
        return 0;
    while (room < n)
        room *= 2;
    struct completion *done = arena_grow(f->arena, l->done,
        l->n_base + (l->n ? l->n - 1 : 0), l->n_base + room, sizeof *l->done);
    struct decision *after =
        arena_grow(f->arena, l->after, l->n, room + 1, sizeof *l->after);
    struct forward_call *calls =
        arena_grow(f->arena, l->calls, l->n, room + 1, sizeof *l->calls);
    if (done == NULL || after == NULL || calls == NULL)
        return -1;
    l->facts.done = l->done = done;
    l->after = after;
    l->calls = calls;
    l->room = room;
    return 0;
}

/* How many of the days @done are those assumed already. */
static size_t
common(const struct line *l, const day_t *done, size_t n)
{
    size_t k = 0;

    while (k < n && k + 1 < l->n && l->done[l->n_base + k].day == done[k])
        k++;
    return k;
}

/* What follows the first @k of the days. */
static void
reckon(struct line *l, size_t k)
{
    struct calc_context r = l->facts;
    struct due d;

    r.n_done = l->n_base + k;
    r.before = k > 0 ? &l->after[k - 1] : NULL;
    compute_due(&r, &d, &l->after[k]);
    l->calls[k] = (struct forward_call){
        .state = d.state,
        .no_return = d.no_return,
        .deadline = d.deadline,
        .from = early_from(&r, &l->after[k], &d),
        .counts = early_counts(&r, &l->after[k], &d),
        .cycle = d.cycle,
    };
}

static int
never_comes(const struct line *l, size_t n)
{
    const struct task *t = l->facts.task;

    return !l->is_due || kind_never_due(t->rule) ||
           (t->job->n_follows > 0 && n > 0);
}

int
forward_call(struct forward *f, size_t task, const day_t *done, size_t n,
    struct forward_call *out)
{
    struct line *l = &f->lines[task];

    if (never_comes(l, n))
        return 0;
    if (make_room(f, l, n))
        return -1;
    size_t known = common(l, done, n);
    if (l->n == 0)
        reckon(l, 0);
    for (size_t k = known + 1; k <= n; k++) {
        l->done[l->n_base + k - 1] = (struct completion){.day = done[k - 1],
            .reading = {USAGE_UNKNOWN, USAGE_UNKNOWN, USAGE_UNKNOWN},
            .job = l->facts.task->job,
            .assumed = 1};
        reckon(l, k);
    }
    if (l->n == 0 || known < n)
        l->n = n + 1;
    *out = l->calls[n];
    out->failed = n == 0 && l->facts.failed ? l->facts.failed->day : DAY_NONE;
    /* One that does not move on would be called for without end. */
    return n == 0 || out->deadline == DAY_NONE || out->deadline > done[n - 1];
}

int
forward_booked(struct forward *f, size_t task, const struct booked *b)
{
    struct line *l = &f->lines[task];
    struct forward_call now;

    if (forward_call(f, task, NULL, 0, &now) != 1)
        return BOOKED_UNTOLD;
    return booked_ahead(b, &l->facts, l->n_base, &now.cycle);
}

int
forward_has_spells(const struct forward *f, size_t task)
{
    return f->lines[task].facts.n_spells > 0;
}

int
forward_is_off_road(const struct forward *f, size_t task, day_t d)
{
    const struct calc_context *r = &f->lines[task].facts;

    for (size_t i = 0; i < r->n_spells; i++)
        if (r->spells[i].from <= d &&
            (r->spells[i].until == DAY_NONE || r->spells[i].until >= d))
            return 1;
    return 0;
}
