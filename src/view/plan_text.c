#include "buf.h"
#include "caution.h"
#include "isoweek.h"
#include "plan_view.h"
#include "plan_words.h"
#include "visits.h"
#include "wording.h"

#include <string.h>

/*
 * For a terminal: first what comes too late, then what has no day, then the
 * weeks, with a line a visit and, under it, one a work with why on that day.
 */

struct plan_page {
    const struct fleet_plan *plan;
    const struct plan_problem *problem;
    struct buf *out;
    int unit_width;
};

const char *
plan_view_advice(const struct fleet_plan_undated *u)
{
    if (u->no_return)
        return WORDING_NO_RETURN;
    return wording_of(u->state)->advice;
}

static int
wider(int width, const char *text)
{
    int len = (int)strlen(text);

    return len > width ? len : width;
}

static void
measure(struct plan_page *p)
{
    size_t n;
    const struct plan_booking *b =
        plan_bookings(fleet_plan_solution(p->plan), &n);

    for (size_t i = 0; i < n; i++)
        p->unit_width =
            wider(p->unit_width, fleet_plan_subject(p->plan, b[i].work)->id);
}

static void
add_head(struct plan_page *p, const struct visits *v)
{
    const struct fleet_plan_options *o = fleet_plan_options(p->plan);
    size_t n_works;
    size_t n_late;

    (void)plan_bookings(fleet_plan_solution(p->plan), &n_works);
    (void)plan_clashes(fleet_plan_solution(p->plan), &n_late);
    buf_print(p->out, "%s, plan of ", fleet_plan_fleet(p->plan)->site.name);
    wording_today(o->today, p->out);
    buf_print(p->out, " to %s\n", day_words(o->until, (char[DAY_WORDS]){0}));
    buf_print(p->out, "%zu work%s in %zu visit%s", n_works,
        n_works == 1 ? "" : "s", v->n, v->n == 1 ? "" : "s");
    if (n_late == 0)
        buf_text(p->out, ", none of them too late\n");
    else
        buf_print(
            p->out, "; %zu come%s too late\n", n_late, n_late == 1 ? "s" : "");
}

static void
add_clash(struct plan_page *p, const struct plan_clash *c)
{
    size_t n;
    const struct plan_booking *b =
        &plan_bookings(fleet_plan_solution(p->plan), &n)[c->booking];
    char day[DAY_WORDS];

    buf_print(p->out, "  %-14s  %-*s  ",
        b->day == DAY_NONE ? "no day" : day_words(b->day, day), p->unit_width,
        fleet_plan_subject(p->plan, b->work)->id);
    plan_words_work(p->plan, b, p->out);
    buf_print(p->out, "\n%18s- ", "");
    plan_words_booking(p->plan, b, p->out);
    if (b->call.to >= fleet_plan_options(p->plan)->today) {
        buf_print(p->out, "\n%18s- ", "");
        plan_words_cure(p->plan, c, p->out);
    }
    buf_text(p->out, "\n");
}

static void
add_clashes(struct plan_page *p)
{
    size_t n;
    const struct plan_clash *c = plan_clashes(fleet_plan_solution(p->plan), &n);

    if (n > 0)
        buf_text(p->out, "\nToo late\n");
    for (size_t i = 0; i < n; i++)
        add_clash(p, &c[i]);
}

static void
add_undated(struct plan_page *p)
{
    size_t n;
    const struct fleet_plan_undated *u = fleet_plan_undated(p->plan, &n);

    if (n > 0)
        buf_text(p->out, "\nNot planned, for want of a day\n");
    for (size_t i = 0; i < n; i++) {
        buf_print(p->out, "  %-14s  %s\n%18s- ", u[i].task->subject->id,
            u[i].task->job->title, "");
        because_failed(u[i].failed, p->out);
        buf_print(p->out, "%s\n", plan_view_advice(&u[i]));
    }
}

/* What a wider job does for, under the one that does. */
static void
add_covered(struct plan_page *p)
{
    size_t n;
    const struct fleet_plan_covered *c = fleet_plan_covered(p->plan, &n);
    char day[DAY_WORDS];

    if (n > 0)
        buf_text(p->out, "\nDone with other work\n");
    for (size_t i = 0; i < n; i++) {
        const struct plan_booking *b = fleet_plan_wider(p->plan, &c[i]);
        day_t on = b ? b->day : DAY_NONE;
        buf_print(p->out, "  %-14s  %-*s  %s\n%18s- ",
            on == DAY_NONE ? "no day" : day_words(on, day), p->unit_width,
            c[i].task->subject->id, c[i].task->job->title, "");
        buf_print(p->out, "by %s: ", day_words(c[i].deadline, day));
        because_failed(c[i].failed, p->out);
        buf_print(p->out, "done with %s, which covers it%s\n",
            c[i].with->job->title,
            on == DAY_NONE || on > c[i].deadline ? ", LATE" : "");
    }
}

static void
add_work(struct plan_page *p, const struct plan_booking *b)
{
    buf_fill(p->out, ' ', 18);
    plan_words_work(p->plan, b, p->out);
    buf_print(p->out, ", by %s: ", day_words(b->call.to, (char[DAY_WORDS]){0}));
    plan_words_booking(p->plan, b, p->out);
    buf_text(p->out, "\n");
}

/* Done wherever it is, so that its place says little. */
static int
is_on_the_vehicle(const struct plan_page *p, const struct visit *v)
{
    return v->stays &&
           fleet_plan_unit_subject(p->plan, v->unit)->kind != SUBJECT_DRIVER;
}

/* A visit; its day is said once for all that day. */
static void
add_visit(struct plan_page *p, const struct visit *v, int new_day)
{
    char day[DAY_WORDS];

    buf_print(p->out, "  %-14s  %-*s  %s",
        new_day ? day_words(v->day, day) : "", p->unit_width,
        p->problem->units[v->unit].name,
        is_on_the_vehicle(p, v) ? "stays in use"
                                : p->problem->places[v->place].name);
    if (v->minutes > 0) {
        buf_text(p->out, ", ");
        plan_words_time(v->minutes, p->out);
    }
    buf_print(p->out, "%s\n", v->late ? ", LATE" : "");
    for (size_t i = 0; i < v->n; i++)
        add_work(p, v->bookings[i]);
}

static void
add_weeks(struct plan_page *p, const struct visits *v)
{
    for (size_t i = 0; i < v->n; i++) {
        const struct visit *before = i > 0 ? &v->list[i - 1] : NULL;
        struct isoweek week = isoweek_of(v->list[i].day);
        if (before == NULL ||
            isoweek_last(before->day) != isoweek_last(v->list[i].day))
            buf_print(p->out, "\n%04d-W%02d\n", week.year, week.week);
        add_visit(
            p, &v->list[i], before == NULL || before->day != v->list[i].day);
    }
}

int
plan_view_text(const struct fleet_plan *a, struct buf *out)
{
    struct plan_page p = {a, fleet_plan_problem(a), out, 0};
    struct visits v;
    size_t n_works;

    (void)plan_bookings(fleet_plan_solution(a), &n_works);
    if (visits_make(a, &v))
        return -1;
    measure(&p);
    add_head(&p, &v);
    add_clashes(&p);
    add_undated(&p);
    add_covered(&p);
    add_weeks(&p, &v);
    if (n_works == 0)
        buf_text(out, "\nNothing is to be planned.\n");
    buf_print(out, "\n%s\n", CAUTION_TEXT);
    visits_free(&v);
    return buf_failed(out) ? -1 : 0;
}
