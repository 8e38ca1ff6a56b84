#include "planning.h"

#include "arena.h"
#include "booked.h"
#include "lookup.h"
#include "plan_words.h"
#include "planned.h"
#include "records.h"

#include <stdlib.h>
#include <strings.h>
#include <sysexits.h>

day_t
planning_until(const struct run_context *p)
{
    day_t until = step_span(
        run_moment(p).today, run_fleet(p)->site.plan_ahead, 1, MONTH_END_CLAMP);

    return until == DAY_NONE ? DAY_LAST : until;
}

/* --- What the plan holds to --------------------------------------------------
 */

static int
by_task(const void *left, const void *right)
{
    const struct booked *a = left;
    const struct booked *b = right;

    if (a->task != b->task)
        return a->task < b->task ? -1 : 1;
    return (a->id > b->id) - (a->id < b->id);
}

static size_t
take_booked(const struct fleet *f, const struct record *rows, size_t n_rows,
    struct booked *out)
{
    size_t n = 0;

    for (size_t i = 0; i < n_rows; i++) {
        const struct record *r = &rows[i];
        const struct task *t =
            r->subject && r->job ? fleet_task(f, r->subject, r->job) : NULL;
        if (t != NULL)
            out[n++] = (struct booked){t, r->day, r->id, r->entered,
                record_text(r, "cycle"), r->by, r->note};
    }
    if (n > 1)
        qsort(out, n, sizeof *out, by_task);
    return n;
}

/* Set the bookings that stand in the ledger for what the fleet file has, or,
 * unless
 * @only is NULL, for that subject, in order of task, then of entry; some may be
 * for cycles that are over. */
static int
read_booked(
    const struct run_context *p, const struct subject *only, struct fault *f)
{
    struct run_made *m = run_made(p);
    struct record *rows;
    size_t n_rows;

    if (m->booked != NULL)
        return 0;
    if (records_standing(run_ledger(p), run_fleet(p), RECORD_BIT(RECORD_BOOKED),
            only ? only->id : NULL, run_arena(p), &rows, &n_rows, f))
        return -1;
    m->booked = arena_take(run_arena(p), (n_rows + 1) * sizeof *m->booked);
    if (m->booked == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    m->n_booked = take_booked(run_fleet(p), rows, n_rows, m->booked);
    return 0;
}

/* The days of a plan's bookings. */
static struct fleet_plan_day *
days_like(const struct fleet_plan *like, size_t *n, struct fault *f)
{
    const struct plan_booking *b = plan_bookings(fleet_plan_solution(like), n);
    struct fleet_plan_day *days = malloc((*n + 1) * sizeof *days);

    if (days == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    for (size_t i = 0; i < *n && days != NULL; i++)
        days[i] = (struct fleet_plan_day){
            .task = fleet_plan_task(like, b[i].work), .day = b[i].day};
    return days;
}

/* The tasks of a fleet by their ids, of which letters match in either case. */
struct task_names {
    struct lookup *subjects;
    struct lookup *jobs;
};

static int
names_of(const struct fleet *f, struct task_names *n)
{
    n->subjects = lookup_new(f->n_subjects);
    n->jobs = lookup_new(f->n_jobs);
    if (n->subjects == NULL || n->jobs == NULL)
        return -1;
    for (size_t i = 0; i < f->n_subjects; i++)
        lookup_add(n->subjects, f->subjects[i].id, &f->subjects[i]);
    for (size_t i = 0; i < f->n_jobs; i++)
        lookup_add(n->jobs, f->jobs[i].id, &f->jobs[i]);
    return 0;
}

/* Put the days of @rows into @out, but for what the fleet file has no more;
 * returns 0 or -1. */
static int
days_of(const struct fleet *f, const struct planned *rows, size_t n_rows,
    struct fleet_plan_day *out, size_t *n)
{
    struct task_names names;
    int rc = names_of(f, &names);

    *n = 0;
    for (size_t i = 0; i < n_rows && rc == 0; i++) {
        const struct subject *s = lookup_find(names.subjects, rows[i].subject);
        const struct job *j = lookup_find(names.jobs, rows[i].job);
        const struct task *t = s && j ? fleet_task(f, s, j) : NULL;
        if (t != NULL)
            out[(*n)++] =
                (struct fleet_plan_day){.task = t, .day = rows[i].day};
    }
    lookup_free(names.subjects);
    lookup_free(names.jobs);
    return rc;
}

static struct fleet_plan_day *
days_kept(const struct run_context *p, size_t *n, struct fault *f)
{
    struct planned *rows;
    size_t n_rows;

    if (planned_read(run_ledger(p), run_arena(p), &rows, &n_rows, f))
        return NULL;
    struct fleet_plan_day *days = malloc((n_rows + 1) * sizeof *days);
    if (days != NULL && days_of(run_fleet(p), rows, n_rows, days, n) == 0)
        return days;
    free(days);
    fault_fill(f, EX_OSERR, "out of memory");
    return NULL;
}

/* --- The plan ------------------------------------------------------------- */

struct fleet_plan *
planning_what_if(const struct run_context *p, const struct change *changes,
    size_t n, const struct fleet_plan *like, struct fault *f)
{
    struct fleet_plan_options o = {.today = run_moment(p).today,
        .until = planning_until(p),
        .changes = changes,
        .n_changes = n};

    if (read_booked(p, NULL, f))
        return NULL;
    struct fleet_plan_day *kept =
        like ? days_like(like, &o.n_kept, f) : days_kept(p, &o.n_kept, f);
    if (kept == NULL)
        return NULL;
    o.fixed = run_made(p)->booked;
    o.n_fixed = run_made(p)->n_booked;
    o.kept = kept;
    struct fleet_plan *a = fleet_plan_new(run_facts(p), &o);
    if (a == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    free(kept);
    return a;
}

const struct fleet_plan *
planning_of_run(const struct run_context *p, struct fault *f)
{
    struct run_made *m = run_made(p);

    if (m->plan == NULL)
        m->plan = planning_what_if(p, NULL, 0, NULL, f);
    return m->plan;
}

/* What a snapshot is made to follow. */
struct followed {
    const struct fleet_plan *plan;
    struct buf *why;
};

/* The day of the wider job that does for the call of @t, if one does. */
static day_t
day_of_wider(const struct followed *f, const struct task *t, day_t deadline,
    const char **why)
{
    size_t n;
    const struct fleet_plan_covered *c = fleet_plan_covered(f->plan, &n);

    for (size_t i = 0; i < n; i++) {
        if (c[i].task != t || c[i].deadline != deadline)
            continue;
        const struct plan_booking *b = fleet_plan_wider(f->plan, &c[i]);
        buf_print(
            f->why, "done with %s, which covers it", c[i].with->job->title);
        *why = buf_str(f->why);
        return b ? b->day : DAY_NONE;
    }
    return DAY_NONE;
}

static day_t
day_of_plan(void *with, const struct task *t, day_t deadline, const char **why)
{
    const struct followed *f = with;
    const struct plan_booking *b = fleet_plan_find(f->plan, t, deadline);
    day_t passed = fleet_plan_passed(f->plan, t);

    buf_clear(f->why);
    if (b == NULL)
        return day_of_wider(f, t, deadline, why);
    if (b->cycle == 0 && passed != DAY_NONE)
        buf_text(f->why, "as it had it before that day passed");
    else
        plan_words_calmly(f->plan, b, f->why);
    *why = buf_str(f->why);
    return b->cycle == 0 && passed != DAY_NONE ? passed : b->day;
}

/* Of the days of the plan, where the site's dates follow one. */
static struct snapshot *
follow_plan(const struct run_context *p, struct snapshot_options *options,
    struct fault *f)
{
    struct followed followed = {planning_of_run(p, f), buf_new()};
    struct snapshot *s = NULL;

    options->planned = day_of_plan;
    options->with = &followed;
    if (followed.plan != NULL && followed.why != NULL)
        s = snapshot_new(run_facts(p), options);
    if (followed.plan != NULL && (s == NULL || buf_failed(followed.why))) {
        fault_fill(f, EX_OSERR, "out of memory");
        snapshot_free(s);
        s = NULL;
    }
    buf_free(followed.why);
    return s;
}

struct snapshot *
planning_snapshot(const struct run_context *p, struct snapshot_options options,
    int planned, struct fault *f)
{
    int follows = planned && run_fleet(p)->site.planner;
    const struct subject *only =
        options.only && !follows ? options.only->subject : NULL;

    if (read_booked(p, only, f))
        return NULL;
    options.booked = run_made(p)->booked;
    options.n_booked = run_made(p)->n_booked;
    if (follows)
        return follow_plan(p, &options, f);
    struct snapshot *s = snapshot_new(run_facts(p), &options);
    if (s == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    return s;
}

static int
by_name_and_day(const void *left, const void *right)
{
    const struct planned *a = left;
    const struct planned *b = right;
    int order = strcasecmp(a->subject, b->subject);

    if (order == 0)
        order = strcasecmp(a->job, b->job);
    return order ? order : (a->day > b->day) - (a->day < b->day);
}

/* The days of the plan, in the order of the ledger's and each once: sets @n. */
static struct planned *
days_to_keep(const struct fleet_plan *a, size_t *n)
{
    size_t n_bookings;
    const struct plan_booking *b =
        plan_bookings(fleet_plan_solution(a), &n_bookings);
    struct planned *days = malloc((2 * n_bookings + 1) * sizeof *days);
    size_t kept = 0;

    *n = 0;
    for (size_t i = 0; i < n_bookings && days != NULL; i++) {
        const struct task *t = fleet_plan_task(a, b[i].work);
        struct planned day = {t->subject->id, t->job->id, b[i].day};
        if (day.day != DAY_NONE)
            days[(*n)++] = day;
        /* The day that was said stays the one that was said. */
        day.day = b[i].cycle == 0 ? fleet_plan_passed(a, t) : DAY_NONE;
        if (day.day != DAY_NONE)
            days[(*n)++] = day;
    }
    if (days != NULL && *n > 1)
        qsort(days, *n, sizeof *days, by_name_and_day);
    for (size_t i = 0; i < *n; i++)
        if (kept == 0 || by_name_and_day(&days[kept - 1], &days[i]) != 0)
            days[kept++] = days[i];
    *n = kept;
    return days;
}

/* Nonzero when just these days are kept already: the daemon keeps its plan in
 * each round, and a round that changes nothing writes nothing. */
static int
are_kept(const struct run_context *p, const struct planned *days, size_t n)
{
    struct planned *kept;
    size_t n_kept;

    if (planned_read(run_ledger(p), run_arena(p), &kept, &n_kept, NULL) ||
        n != n_kept)
        return 0;
    for (size_t i = 0; i < n; i++)
        if (by_name_and_day(&days[i], &kept[i]) != 0)
            return 0;
    return 1;
}

int
planning_keep(const struct run_context *p, struct fault *f)
{
    const struct fleet_plan *a = planning_of_run(p, f);
    size_t n;

    if (a == NULL)
        return -1;
    struct planned *days = days_to_keep(a, &n);
    if (days == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    int rc =
        are_kept(p, days, n) ? 0 : planned_write(run_ledger(p), days, n, f);
    free(days);
    return rc;
}
