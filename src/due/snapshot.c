#include "snapshot.h"

#include "arena.h"
#include "booked.h"
#include "compute.h"
#include "follow.h"
#include "reasons.h"
#include "task_facts.h"

#include <stdlib.h>

/* More cycles of one task than anybody plans: daily for a year and a half. */
#define CYCLES_MOST 600

struct snapshot {
    const struct facts *facts;
    struct snapshot_options options;
    size_t next_booked;  /* which of its bookings comes next */
    struct arena *arena; /* of the reasons */
    struct due *dues;
    size_t n;
    size_t size;
};

static struct due *
next_slot(struct snapshot *s)
{
    if (s->n == s->size) {
        size_t size = s->size ? s->size * 2 : 64;
        void *dues = realloc(s->dues, size * sizeof *s->dues);
        if (dues == NULL)
            return NULL;
        s->dues = dues;
        s->size = size;
    }
    return &s->dues[s->n];
}

/* The day on which a due is taken to be done: that of its event, or, where
 * somebody booked one to come after the deadline, that. */
static day_t
day_done(const struct snapshot *s, const struct due *d)
{
    return d->warnings & WARN_BOOKED_LATE && d->booked >= s->options.today
               ? d->booked
               : due_day(d);
}

/* The next cycle of a due, taking it as completed on its plan day.  Returns 1
 * when one was added, 0 when there is none by the horizon, -1 without
 * memory. */
static int
add_next_cycle(struct snapshot *s, struct task_facts *g, struct calc_context *r,
    struct decision *all)
{
    const struct decision before_it = *all;
    const struct due before = s->dues[s->n - 1];
    struct completion assumed = {.day = day_done(s, &before),
        .reading = {USAGE_UNKNOWN, USAGE_UNKNOWN, USAGE_UNKNOWN},
        .job = r->task->job,
        .assumed = 1};

    if (assumed.day == DAY_NONE)
        return 0;
    struct due *d = next_slot(s);
    if (d == NULL || task_facts_assume(g, assumed, r))
        return -1;
    reasons_clear(r->why);
    r->before = &before_it;
    r->failed = NULL;
    r->ahead = before.cycle.ahead + 1;
    compute_due(r, d, all);
    r->before = NULL;
    day_t day = due_day(d);
    if (day == DAY_NONE || day > s->options.horizon || day <= assumed.day)
        return 0;
    d->cycle = before.cycle;
    d->cycle.ahead++;
    d->last_done = before.last_done;
    d->besides = d->state;
    s->n++;
    return reasons_take(r->why, d) ? -1 : 1;
}

static int
add_coming(struct snapshot *s, struct task_facts *g, struct calc_context *r,
    struct decision *all)
{
    int rc = 1;

    if (s->options.horizon == DAY_NONE || r->task->job->n_follows > 0)
        return 0;
    for (int i = 0; i < CYCLES_MOST && rc == 1; i++)
        rc = add_next_cycle(s, g, r, all);
    return rc < 0 ? -1 : 0;
}

/* The bookings of @t; sets @n.  Tasks are taken in their order. */
static const struct booked *
booked_of(struct snapshot *s, const struct task *t, size_t *n)
{
    const struct booked *all = s->options.booked;
    size_t end = s->options.n_booked;
    size_t *at = &s->next_booked;

    while (*at < end && all[*at].task < t)
        ++*at;
    for (*n = 0; *at + *n < end && all[*at + *n].task == t;)
        ++*n;
    return *n > 0 ? &all[*at] : NULL;
}

static int
add_task(struct snapshot *s, struct task_facts *g, const struct task *t,
    struct reasons *why)
{
    struct calc_context r;
    int due = task_facts_task(g, t, &r);

    if (due < 0)
        return -1;
    /* What failed is not done, even where nothing else asks for it. */
    if (due == 0 && r.failed == NULL)
        return 0;
    struct due *d = next_slot(s);
    if (d == NULL)
        return -1;
    r.why = why;
    r.calm = s->options.calm;
    r.planned = s->options.planned;
    r.planned_with = s->options.with;
    r.booked = booked_of(s, t, &r.n_booked);
    reasons_clear(why);
    follow_say_others(&r);
    struct decision all;
    due = due && compute_due(&r, d, &all);
    if (!due && r.failed == NULL)
        return 0;
    if (!due)
        compute_undated(&r, d);
    d->last_done = task_facts_last_done(g);
    compute_state(&r, s->options.today, d);
    s->n++;
    if (reasons_take(why, d))
        return -1;
    const struct cycle now = d->cycle;
    r.now = &now;
    return due ? add_coming(s, g, &r, &all) : 0;
}

static int
add_all(struct snapshot *s, struct task_facts *g, struct reasons *why)
{
    const struct fleet *f = s->facts->fleet;
    const struct task *only = s->options.only;

    if (only != NULL)
        return task_facts_subject(g, only->subject) || add_task(s, g, only, why)
                   ? -1
                   : 0;
    for (size_t i = 0; i < f->n_subjects; i++) {
        const struct subject *subject = &f->subjects[i];
        if (task_facts_subject(g, subject))
            return -1;
        for (size_t k = 0; k < subject->n_tasks; k++)
            if (add_task(s, g, &f->tasks[subject->first_task + k], why))
                return -1;
    }
    return 0;
}

/* What is in force comes before what is only projected. */
static int
rank(const struct due *d)
{
    return d->cycle.ahead > 0 ? DUE_AHEAD : (int)d->state;
}

/* Where a due belongs, and where it is. */
struct order {
    uint64_t urgency;
    size_t at;
};

static struct order
order_of(const struct snapshot *s, size_t at)
{
    const struct due *d = &s->dues[at];
    day_t day = due_day(d);
    uint32_t after = day == DAY_NONE ? 0 : (uint32_t)(day - DAY_FIRST) + 1;

    return (struct order){(uint64_t)rank(d) << 32 | after, at};
}

/* Dues were worked out by task and cycle, so their place breaks a tie. */
static int
by_urgency(const void *left, const void *right)
{
    const struct order *a = left;
    const struct order *b = right;

    if (a->urgency != b->urgency)
        return a->urgency < b->urgency ? -1 : 1;
    return (a->at > b->at) - (a->at < b->at);
}

/* The small orders are sorted and the dues moved once. */
static int
sort(struct snapshot *s)
{
    struct order *orders = malloc((s->n + 1) * sizeof *orders);
    struct due *sorted = malloc((s->n + 1) * sizeof *sorted);

    if (orders == NULL || sorted == NULL) {
        free(orders);
        free(sorted);
        return -1;
    }
    for (size_t i = 0; i < s->n; i++)
        orders[i] = order_of(s, i);
    qsort(orders, s->n, sizeof *orders, by_urgency);
    for (size_t i = 0; i < s->n; i++)
        sorted[i] = s->dues[orders[i].at];
    free(orders);
    free(s->dues);
    s->dues = sorted;
    return 0;
}

struct snapshot *
snapshot_new(const struct facts *facts, const struct snapshot_options *options)
{
    struct snapshot *s = calloc(1, sizeof *s);

    if (s == NULL)
        return NULL;
    s->facts = facts;
    s->options = *options;
    s->arena = arena_new();
    struct task_facts *g = task_facts_new(facts);
    struct reasons *why =
        s->arena && options->reasons ? reasons_new(s->arena) : NULL;
    if (s->arena == NULL || g == NULL || (options->reasons && why == NULL))
        goto err;
    if (add_all(s, g, why) || sort(s))
        goto err;
    task_facts_free(g);
    return s;
err:
    task_facts_free(g);
    snapshot_free(s);
    return NULL;
}

void
snapshot_free(struct snapshot *s)
{
    if (s == NULL)
        return;
    arena_free(s->arena);
    free(s->dues);
    free(s);
}

day_t
snapshot_today(const struct snapshot *s)
{
    return s->options.today;
}

const struct fleet *
snapshot_fleet(const struct snapshot *s)
{
    return s->facts->fleet;
}

const struct due *
snapshot_dues(const struct snapshot *s, size_t *n)
{
    *n = s->n;
    return s->dues;
}
