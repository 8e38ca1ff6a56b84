#include "planning.h"

#include "arena.h"
#include "because.h"
#include "planned.h"
#include "standing.h"

#include <stdlib.h>
#include <sysexits.h>

day_t
planning_until(const struct run_context *p)
{
    day_t until = step_span(
        run_moment(p).today, run_fleet(p)->site.plan_ahead, 1, MONTH_END_CLAMP);

    return until == DAY_NONE ? DAY_LAST : until;
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
days_kept(const struct run_context *p, const struct standing_names *names,
    size_t *n, struct fault *f)
{
    struct planned *rows;
    size_t n_rows;

    if (planned_read(run_ledger(p), run_arena(p), &rows, &n_rows, f))
        return NULL;
    struct agenda_day *days = malloc((n_rows + 1) * sizeof *days);
    if (days == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    *n = 0;
    for (size_t i = 0; i < n_rows && days != NULL; i++) {
        const struct task *t =
            standing_task(names, rows[i].subject, rows[i].job);
        if (t != NULL)
            days[(*n)++] = (struct agenda_day){.task = t, .day = rows[i].day};
    }
    return days;
}

static struct agenda *
make(const struct run_context *p, struct agenda_options *o,
    const struct agenda *like, const struct standing_names *names,
    struct fault *f)
{
    struct agenda *a = NULL;
    struct booked *fixed = standing_bookings(p, &o->n_fixed, f);
    struct agenda_day *kept = NULL;

    if (fixed != NULL)
        kept = like ? days_like(like, &o->n_kept, f)
                    : days_kept(p, names, &o->n_kept, f);
    if (kept != NULL) {
        o->fixed = fixed;
        o->kept = kept;
        a = agenda_new(run_facts(p), o);
        if (a == NULL)
            fault_fill(f, EX_OSERR, "out of memory");
    }
    free(kept);
    return a;
}

struct agenda *
planning_agenda(const struct run_context *p, const struct change *changes,
    size_t n, const struct agenda *like, struct fault *f)
{
    struct agenda_options o = {.today = run_moment(p).today,
        .until = planning_until(p),
        .changes = changes,
        .n_changes = n};
    struct standing_names *names = standing_names(run_fleet(p));
    struct agenda *a = NULL;

    if (names != NULL)
        a = make(p, &o, like, names, f);
    else
        fault_fill(f, EX_OSERR, "out of memory");
    standing_names_free(names);
    return a;
}

/* What a snapshot is made to follow. */
struct followed {
    const struct agenda *agenda;
    struct buf *why;
};

/* The day of the wider job that does for the call of @t, if one does. */
static day_t
day_of_wider(const struct followed *f, const struct task *t, day_t deadline,
    const char **why)
{
    size_t n;
    const struct agenda_covered *c = agenda_covered(f->agenda, &n);

    for (size_t i = 0; i < n; i++) {
        if (c[i].task != t || c[i].deadline != deadline)
            continue;
        const struct plan_booking *b = agenda_wider(f->agenda, &c[i]);
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
    const struct plan_booking *b = agenda_find(f->agenda, t, deadline);
    day_t passed = agenda_passed(f->agenda, t);

    buf_clear(f->why);
    if (b == NULL)
        return day_of_wider(f, t, deadline, why);
    if (b->cycle == 0 && passed != DAY_NONE)
        buf_text(f->why, "as it had it before that day passed");
    else
        because_calmly(f->agenda, b, f->why);
    *why = buf_str(f->why);
    return b->cycle == 0 && passed != DAY_NONE ? passed : b->day;
}

struct snapshot *
planning_snapshot(const struct run_context *p, struct snapshot_options options,
    struct fault *f)
{
    struct agenda *a = planning_agenda(p, NULL, 0, NULL, f);
    struct followed followed = {a, buf_new()};
    struct snapshot *s = NULL;

    options.planned = day_of_plan;
    options.with = &followed;
    if (a != NULL && followed.why != NULL) {
        s = snapshot_new(run_facts(p), &options);
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
planning_keep(
    const struct run_context *p, const struct agenda *a, struct fault *f)
{
    size_t n;
    const struct plan_booking *b = plan_bookings(agenda_plan(a), &n);
    struct planned *days = malloc((2 * n + 1) * sizeof *days);
    size_t n_days = 0;

    if (days == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    for (size_t i = 0; i < n; i++) {
        const struct task *t = agenda_task(a, b[i].work);
        day_t passed = b[i].cycle == 0 ? agenda_passed(a, t) : DAY_NONE;
        if (b[i].day != DAY_NONE)
            days[n_days++] =
                (struct planned){t->subject->id, t->job->id, b[i].day};
        /* The day that was said stays the one that was said. */
        if (passed != DAY_NONE)
            days[n_days++] =
                (struct planned){t->subject->id, t->job->id, passed};
    }
    int rc = planned_write(run_ledger(p), days, n_days, f);
    free(days);
    return rc;
}

int
planning_keep_present(const struct run_context *p, struct fault *f)
{
    if (!run_fleet(p)->site.planner)
        return 0;
    struct agenda *a = planning_agenda(p, NULL, 0, NULL, f);
    int rc = a ? planning_keep(p, a, f) : -1;

    agenda_free(a);
    return rc;
}
