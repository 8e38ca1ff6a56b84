#ifndef SHOWN_FLEET_H
#define SHOWN_FLEET_H

/* A fleet of random_fleet.h written down, as a fleet file and the records of
 * its ledger, to be tried by hand.  Include after "random_fleet.h". */

#include "span.h"
#include "test.h"

/* A line of what is shown, one of the comments of the test's output. */
#define SHOW(...) print_message("#   " __VA_ARGS__)

static inline const char *
shown_span(struct span s)
{
    static char text[SPAN_TEXT];

    return span_text(s, text);
}

static inline const char *
shown_day(day_t d)
{
    static char text[DAY_TEXT];

    return day_text(d, text);
}

static inline void
show_jobs(const char *key, const struct job *const *jobs, size_t n)
{
    for (size_t i = 0; i < n; i++)
        SHOW("%s = %s%s", key, jobs[i]->id, "\n");
}

static inline void
show_running(const struct rule *r)
{
    static const char *const ends[] = {
        "same day", "day before", "month end", "week end"};
    static const char *const opens[] = {"safer", "day after", "same day"};
    static const char *const runs[] = {
        "completion", "deadline", "keeping the date"};

    SHOW("ends = %s, first-ends = %s\n", ends[r->ends], ends[r->first_ends]);
    if (r->month_end == MONTH_END_STICKY)
        SHOW("month-end = sticky\n");
    SHOW("runs-from = %s\n", runs[r->runs_from]);
    if (r->window.n > 0)
        SHOW("window = %s, window-opens = %s\n", shown_span(r->window),
            opens[r->window_opens]);
    if (r->late == LATE_KEEPS_DATE)
        SHOW("late = keeps the date\n");
    if (r->shortest.n > 0)
        SHOW("shortest = %s\n", shown_span(r->shortest));
}

static inline void
show_rest(const struct rule *r)
{
    static const char *const rolls[] = {"preceding", "following", "nearest"};
    static const char *const days[] = {"early", "likely", "late"};

    if (r->first.origin == ORIGIN_ON)
        SHOW("first = on %s\n", shown_day(r->first.on));
    else if (r->first.origin != ORIGIN_NONE)
        SHOW("first = %s from registered\n", shown_span(r->first.after));
    for (int i = 0; i < r->n_ages; i++) {
        SHOW("from-age = %s:", shown_span(r->ages[i].age));
        print_message(" %s\n", shown_span(r->ages[i].every));
    }
    if (r->off_road == OFF_ROAD_WAITS)
        SHOW("off-road = waits\n");
    SHOW("roll = %s, forecast = %s\n", rolls[r->roll], days[r->forecast]);
    if (r->lead.span.n > 0)
        SHOW("lead = %s%s\n", shown_span(r->lead.span),
            r->lead.working ? " (working)" : "");
}

static inline void
show_job(const struct job *j)
{
    SHOW("[job %s] class = %s\n", j->id, fleet_class_word(j->class));
    for (int i = 0; i < j->rule.n_every; i++)
        SHOW("%s %s\n",
            i > 0              ? "or"
            : j->n_follows > 0 ? "within ="
                               : "every =",
            j->rule.every[i].text);
    show_jobs("covers", j->covers, j->n_covers);
    show_jobs("follows", j->follows, j->n_follows);
    if (j->also_counts.job != NULL)
        SHOW("also-counts = %d %s\n", j->also_counts.most,
            j->also_counts.job->id);
    show_running(&j->rule);
    show_rest(&j->rule);
}

static inline void
show_task(const struct random_fleet *f, const struct task *t)
{
    SHOW("%s has %s%s\n", t->subject->id, t->job->id,
        t->calendar == f->place ? ", done on Tuesdays and Fridays" : "");
    if (t->baseline.last != DAY_NONE)
        SHOW("%s.last = %s\n", t->job->id, shown_day(t->baseline.last));
    if (t->baseline.deadline != DAY_NONE)
        SHOW("%s.deadline = %s\n", t->job->id, shown_day(t->baseline.deadline));
}

static inline void
show_record(const struct record *k)
{
    SHOW("record %lld: %s %s %s on %s", (long long)k->id, k->subject_id,
        k->job != NULL ? k->job->id : "", record_kind_word(k->kind),
        shown_day(k->day));
    if (k->until != DAY_NONE)
        print_message(" until %s", shown_day(k->until));
    if (k->reading >= 0)
        print_message(" at %lld", (long long)k->reading);
    if (k->other_id != NULL)
        print_message(" to %s", k->other_id);
    print_message("\n");
}

/* Nonzero when some task has that job, or a job of one names it. */
static inline int
is_used(const struct world *w, const struct job *j)
{
    for (size_t i = 0; i < w->n_tasks; i++) {
        const struct job *of = w->tasks[i].job;
        if (of == j || of->also_counts.job == j)
            return 1;
        for (size_t k = 0; k < of->n_follows; k++)
            if (of->follows[k] == j)
                return 1;
    }
    for (size_t i = 0; i < w->n_records; i++)
        if (w->records[i].job == j)
            return 1;
    return 0;
}

static inline void
show_fleet(const struct random_fleet *f)
{
    const struct world *w = f->w;
    int week = 0;

    for (int d = 0; d < 7; d++) /* from a Monday before all closures */
        week |= work_calendar_is_open(w->calendar, day_of(2022, 8, 1) + d) << d;
    SHOW("depot open on weekdays 0x%02x; shut", (unsigned)week);
    for (size_t i = 0; i < f->n_closed; i++)
        print_message(" %s", shown_day(f->closed[i].day));
    print_message("\n");
    for (size_t i = 0; i < w->n_jobs; i++)
        if (is_used(w, &w->jobs[i]))
            show_job(&w->jobs[i]);
    for (size_t i = 0; i < w->n_subjects; i++) {
        const struct subject *s = &w->subjects[i];
        SHOW("[%s] registered = %s, yearly-distance = %lld%s%s\n", s->id,
            shown_day(s->registered), (long long)s->yearly_distance,
            s->carrier ? ", carried by " : "",
            s->carrier ? s->carrier->id : "");
    }
    for (size_t i = 0; i < w->n_tasks; i++)
        show_task(f, &w->tasks[i]);
    for (size_t i = 0; i < w->n_records; i++)
        show_record(&w->records[i]);
}

#endif
