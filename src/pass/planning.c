#include "planning.h"

#include "arena.h"
#include "because.h"
#include "bookings.h"
#include "lookup.h"

#include <stdlib.h>
#include <sysexits.h>

/* Ids of the ledger to what the fleet file has. */
struct names {
    const struct fleet *fleet;
    struct lookup *subjects;
    struct lookup *jobs;
};

day_t
planning_until(const struct pass *p)
{
    day_t until = step_span(pass_moment(p).today,
        pass_fleet(p)->site.plan_ahead, 1, MONTH_END_CLAMP);

    return until == DAY_NONE ? DAY_LAST : until;
}

static int
names_make(const struct fleet *f, struct names *out)
{
    *out = (struct names){f, lookup_new(f->n_subjects), lookup_new(f->n_jobs)};
    if (out->subjects == NULL || out->jobs == NULL)
        return -1;
    for (size_t i = 0; i < f->n_subjects; i++)
        lookup_add(out->subjects, f->subjects[i].id, &f->subjects[i]);
    for (size_t i = 0; i < f->n_jobs; i++)
        lookup_add(out->jobs, f->jobs[i].id, &f->jobs[i]);
    return 0;
}

static void
names_free(struct names *n)
{
    lookup_free(n->subjects);
    lookup_free(n->jobs);
}

/* NULL for what the fleet file has no more. */
static const struct task *
task_named(const struct names *n, const char *subject, const char *job)
{
    const struct subject *s = lookup_find(n->subjects, subject);
    const struct job *j = lookup_find(n->jobs, job);

    return s && j ? fleet_task(n->fleet, s, j) : NULL;
}

/* The days of a plan's bookings. */
static struct agenda_day *
days_like(const struct agenda *like, size_t *n, struct fault *f)
{
    const struct plan_booking *b = plan_bookings(agenda_plan(like), n);
    struct agenda_day *days = malloc((*n + 1) * sizeof *days);

    if (days == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    for (size_t i = 0; i < *n && days != NULL; i++)
        days[i] = (struct agenda_day){
            .task = agenda_task(like, b[i].work), .day = b[i].day};
    return days;
}

static struct agenda_day *
days_kept(
    const struct pass *p, const struct names *names, size_t *n, struct fault *f)
{
    struct planned *rows;
    size_t n_rows;

    if (planned_read(pass_ledger(p), pass_arena(p), &rows, &n_rows, f))
        return NULL;
    struct agenda_day *days = malloc((n_rows + 1) * sizeof *days);
    if (days == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    *n = 0;
    for (size_t i = 0; i < n_rows && days != NULL; i++) {
        const struct task *t = task_named(names, rows[i].subject, rows[i].job);
        if (t != NULL)
            days[(*n)++] = (struct agenda_day){.task = t, .day = rows[i].day};
    }
    return days;
}

static struct agenda_day *
days_booked(
    const struct pass *p, const struct names *names, size_t *n, struct fault *f)
{
    struct booking *rows;
    size_t n_rows;

    if (bookings_read(pass_ledger(p), pass_arena(p), &rows, &n_rows, f))
        return NULL;
    struct agenda_day *days = malloc((n_rows + 1) * sizeof *days);
    if (days == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    *n = 0;
    for (size_t i = 0; i < n_rows && days != NULL; i++) {
        const struct booking *b = &rows[i];
        const struct task *t = task_named(names, b->subject, b->job);
        if (t != NULL)
            days[(*n)++] =
                (struct agenda_day){t, b->day, b->id, b->cycle, b->by, b->note};
    }
    return days;
}

static struct agenda *
make(const struct pass *p, struct agenda_options *o, const struct agenda *like,
    const struct names *names, struct fault *f)
{
    struct agenda *a = NULL;
    struct agenda_day *fixed = days_booked(p, names, &o->n_fixed, f);
    struct agenda_day *kept = NULL;

    if (fixed != NULL)
        kept = like ? days_like(like, &o->n_kept, f)
                    : days_kept(p, names, &o->n_kept, f);
    if (kept != NULL) {
        o->fixed = fixed;
        o->kept = kept;
        a = agenda_new(pass_facts(p), o);
        if (a == NULL)
            fault_fill(f, EX_OSERR, "out of memory");
    }
    free(fixed);
    free(kept);
    return a;
}

struct agenda *
planning_agenda(const struct pass *p, const struct change *changes, size_t n,
    const struct agenda *like, struct fault *f)
{
    struct agenda_options o = {.today = pass_moment(p).today,
        .until = planning_until(p),
        .changes = changes,
        .n_changes = n};
    struct names names;
    struct agenda *a = NULL;

    if (names_make(pass_fleet(p), &names) == 0)
        a = make(p, &o, like, &names, f);
    else
        fault_fill(f, EX_OSERR, "out of memory");
    names_free(&names);
    return a;
}

/* What a snapshot is made to follow. */
struct followed {
    const struct agenda *agenda;
    struct buf *why;
};

static day_t
day_of_plan(void *with, const struct task *t, day_t deadline, const char **why)
{
    const struct followed *f = with;
    const struct plan_booking *b = agenda_find(f->agenda, t, deadline);

    if (b == NULL)
        return DAY_NONE;
    buf_clear(f->why);
    because_calmly(f->agenda, b, f->why);
    *why = buf_str(f->why);
    return b->day;
}

struct snapshot *
planning_snapshot(
    const struct pass *p, struct snapshot_options options, struct fault *f)
{
    struct agenda *a = planning_agenda(p, NULL, 0, NULL, f);
    struct followed followed = {a, buf_new()};
    struct snapshot *s = NULL;

    options.planned = day_of_plan;
    options.with = &followed;
    if (a != NULL && followed.why != NULL) {
        s = snapshot_new(pass_facts(p), &options);
        if (s == NULL || buf_failed(followed.why)) {
            fault_fill(f, EX_OSERR, "out of memory");
            snapshot_free(s);
            s = NULL;
        }
    } else if (a != NULL) {
        fault_fill(f, EX_OSERR, "out of memory");
    }
    buf_free(followed.why);
    agenda_free(a);
    return s;
}

int
planning_keep(const struct pass *p, const struct agenda *a, struct fault *f)
{
    size_t n;
    const struct plan_booking *b = plan_bookings(agenda_plan(a), &n);
    struct planned *days = malloc((n + 1) * sizeof *days);

    if (days == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    for (size_t i = 0; i < n; i++) {
        const struct task *t = agenda_task(a, b[i].work);
        days[i] = (struct planned){t->subject->id, t->job->id, b[i].day};
    }
    int rc = planned_write(pass_ledger(p), days, n, f);
    free(days);
    return rc;
}

int
planning_keep_present(const struct pass *p, struct fault *f)
{
    if (!pass_fleet(p)->site.planner)
        return 0;
    struct agenda *a = planning_agenda(p, NULL, 0, NULL, f);
    int rc = a ? planning_keep(p, a, f) : -1;

    agenda_free(a);
    return rc;
}
