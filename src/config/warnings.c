#include "warnings.h"

#include "intervals.h"
#include "kind.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

/* By tasks and not by dues, for there are no dues yet. */
static int
in_scope(const struct scope *scope, const struct task *t)
{
    switch (scope->kind) {
    case SCOPE_ALL:
        return 1;
    case SCOPE_DEPOT:
        return fleet_depot(t->subject) == scope->which;
    case SCOPE_SUBJECT:
        return t->subject == scope->which ||
               (t->subject->carrier && t->subject->carrier == scope->which);
    case SCOPE_JOB:
        return t->job == scope->which;
    case SCOPE_PERSON:
        break;
    }
    return 0;
}

/* The same, also for what a person is told of. */
static int
in_any_scope(const struct scope *scope, const struct task *t)
{
    const struct person *p = scope->which;

    if (scope->kind != SCOPE_PERSON)
        return in_scope(scope, t);
    for (size_t i = 0; i < p->n_told; i++)
        if (in_scope(&p->told[i], t))
            return 1;
    return 0;
}

/* Nonzero when something that can be due is in one of the scopes. */
static int
any_due(const struct load_context *r, const struct scope *scopes, size_t n)
{
    for (size_t i = 0; i < r->fleet->n_tasks; i++)
        for (size_t k = 0; k < n; k++)
            if (in_any_scope(&scopes[k], &r->tasks[i]) &&
                !kind_never_due(r->tasks[i].rule))
                return 1;
    return 0;
}

/* Nonzero when the calendar of @p is open on one of the days of @p. */
static int
any_open(const struct person *p)
{
    day_t d = work_calendar_following(p->calendar, DAY_FIRST);

    while (d != DAY_NONE && !(p->days >> day_weekday(d) & 1))
        d = work_calendar_following(p->calendar, step_days(d, 1));
    return d != DAY_NONE;
}

static void
warn_days(
    struct load_context *r, const struct section *s, const struct person *p)
{
    if (p->calendar != NULL && !any_open(p))
        context_warning(r, section_entry(s, "calendar")->place,
            "'calendar': it is never open on the 'days' of %s, who is never "
            "written to; correct one of them",
            s->title);
}

/* A person or a feed that can never show anything was meant to show something
 * else. */
static void
warn_scopes(struct load_context *r)
{
    for (const struct section *s = r->document->sections; s; s = s->next) {
        const struct person *p = s->object;
        const struct feed *f = s->object;
        if (s->kind == SECTION_PERSON && p->n_told > 0 &&
            !any_due(r, p->told, p->n_told))
            context_warning(r, section_entry(s, "told")->place,
                "'told': nothing in it is ever due, so %s is never written "
                "to; name what has a job",
                s->title);
        if (s->kind == SECTION_PERSON)
            warn_days(r, s, p);
        if (s->kind == SECTION_FEED && !any_due(r, f->shows, f->n_shows))
            context_warning(r, section_entry(s, "shows")->place,
                "'shows': nothing in it is ever due, so %s is empty; name "
                "what has a job",
                s->title);
    }
}

/* Nobody wants work on Christmas Day by oversight. */
static void
warn_calendar(
    struct load_context *r, const struct section *s, const struct calendar *c)
{
    if (c->plan.works != 0 && section_entry(s, "holidays") == NULL)
        context_warning(r, s->place,
            "%s keeps no holidays, so it is open on Christmas Day too; add "
            "holidays = NAME (presets/holidays-*.conf has some), or "
            "holidays = none",
            s->title);
}

static void
warn_calendars(struct load_context *r)
{
    for (const struct section *s = r->document->sections; s; s = s->next)
        if (s->kind == SECTION_CALENDAR && !s->again)
            warn_calendar(r, s, s->object);
}

/* Nonzero when @text has the word "lift" or "lifts", and not "forklift". */
static int
says_lift(const char *text)
{
    const char *at = text;

    while (at != NULL && (at = strcasestr(at, "lift")) != NULL) {
        const char *end = at + strlen("lift");
        end += *end == 's' || *end == 'S';
        if ((at == text || !isalnum((unsigned char)at[-1])) &&
            !isalnum((unsigned char)*end))
            return 1;
        at = end;
    }
    return 0;
}

static int
has_lift(const struct subject_def *h)
{
    if (says_lift(h->subject.title))
        return 1;
    return h->type != NULL && (says_lift(h->type->section->id) ||
                                  says_lift(h->type->subject.title));
}

static int
has_lift_job(const struct subject_def *h)
{
    for (size_t i = 0; i < h->n_uses; i++)
        if (says_lift(h->uses[i].job->id) || says_lift(h->uses[i].job->title))
            return 1;
    return 0;
}

/* A passenger lift has a statutory examination of its own, which is easily
 * forgotten. */
static void
warn_lift(struct load_context *r, const struct subject_def *h)
{
    const struct subject *s = &r->subjects[h->subject.index];
    int found = has_lift_job(h);

    for (size_t i = 0; i < r->fleet->n_subjects && !found; i++)
        found = r->subjects[i].carrier == s && has_lift_job(&r->defs[i]);
    if (!found)
        context_warning(r, h->section->place,
            "%s has a lift, and neither it nor what it carries has a job with "
            "'lift' in its name or title; add one to its 'jobs'",
            h->section->title);
}

void
warn_fleet(struct load_context *r)
{
    if (r->fleet->n_subjects == 0)
        return;
    warn_calendars(r);
    warn_scopes(r);
    warn_checks(r);
    for (size_t i = 0; i < r->fleet->n_subjects; i++)
        if (r->subjects[i].kind == SUBJECT_VEHICLE && has_lift(&r->defs[i]))
            warn_lift(r, &r->defs[i]);
}

/* Where @e stands, in the numbers of @ps, which are not those of the reader. */
static struct place
place_of(
    const struct load_context *r, const struct entry *e, struct problems *ps)
{
    return (struct place){
        problems_file(ps, r->document->files[e->place.file]), e->place.line};
}

static void
warn_until(const struct load_context *r, const struct section *s,
    const struct holidays *h, struct problems *ps)
{
    const struct entry *known = section_entry(s, "known-until");
    const struct entry *e = known ? known : section_entry(s, "file");
    char day[DAY_TEXT];

    problems_add(ps, PROBLEM_WARNING, place_of(r, e, ps),
        "'%s': %s is known until %s only, less than a year ahead; %s", e->key,
        s->title, day_text(h->set.known_until, day),
        known ? "add what is published since and move the day"
              : "fetch a newer file");
}

/* The last day that a certificate of the day @from can be good until: the
 * longest interval, what a window adds, and the end of that month. */
static day_t
latest(const struct rule *rule, day_t from, int first)
{
    const struct interval *every = intervals_length(rule);

    if (every == NULL)
        return DAY_LAST;
    day_t to = step_span(from, every->span, 1, MONTH_END_CLAMP);
    day_t alone = step_span(from, rule->first.after, 1, MONTH_END_CLAMP);
    if (first && alone > to)
        to = alone;
    return step_month_last(step_span(to, rule->window, 1, MONTH_END_CLAMP));
}

static void
warn_deadline(const struct load_context *r, const struct subject_def *h,
    const struct use *use, day_t today, struct problems *ps)
{
    const struct baseline *b = &use->baseline;
    int first = b->last == DAY_NONE;
    char day[DAY_TEXT];

    if (b->deadline == DAY_NONE ||
        b->deadline <= latest(use->rule, first ? today : b->last, first))
        return;
    const struct entry *e =
        section_job_entry(h->section, use->job->id, "deadline");
    problems_add(ps, PROBLEM_WARNING, place_of(r, e, ps),
        "'%s': %s is further off than the interval and the window of the job "
        "reach from %s; look at the certificate",
        e->key, day_text(b->deadline, day), first ? "today" : "the 'last' day");
}

/* A year that is mistyped would put the job off in silence. */
static void
warn_last(const struct load_context *r, const struct subject_def *h,
    const struct use *use, day_t today, struct problems *ps)
{
    char day[DAY_TEXT];

    if (use->baseline.last == DAY_NONE || use->baseline.last <= today)
        return;
    const struct entry *e = section_job_entry(h->section, use->job->id, "last");
    problems_add(ps, PROBLEM_WARNING, place_of(r, e, ps),
        "'%s': it cannot have been done on %s, which is still to come; correct "
        "that day, or the clock",
        e->key, day_text(use->baseline.last, day));
}

void
warn_dates(const struct load_context *r, day_t today, struct problems *ps)
{
    for (size_t i = 0; i < r->fleet->n_subjects; i++)
        for (size_t k = 0; k < r->defs[i].n_uses; k++) {
            const struct use *use = &r->defs[i].uses[k];
            warn_last(r, &r->defs[i], use, today, ps);
            warn_deadline(r, &r->defs[i], use, today, ps);
        }
    for (const struct section *s = r->document->sections; s; s = s->next) {
        const struct holidays *h = s->object;
        /* A year back rather than on: no day lies too early for this. */
        if (s->kind == SECTION_HOLIDAYS && h->set.known_until != DAY_NONE &&
            step_months(h->set.known_until, -12, MONTH_END_CLAMP) < today &&
            context_is_kept(r, h))
            warn_until(r, s, h, ps);
    }
}

/* The most particular line that states it: the subject, its type, the job. */
void
warn_stated(const struct load_context *r, const struct task *t,
    const char *text, struct problems *ps)
{
    const struct subject_def *h = &r->defs[t->subject->index];
    const char *job = t->job->id;
    const struct entry *e = section_job_entry(h->section, job, "deadline");

    if (e == NULL)
        e = section_job_entry(h->section, job, "first");
    if (e == NULL && h->type != NULL)
        e = section_job_entry(h->type->section, job, "first");
    if (e == NULL)
        e = section_entry(
            document_find(r->document, SECTION_JOB, job), "first");
    if (e != NULL)
        problems_add(
            ps, PROBLEM_WARNING, place_of(r, e, ps), "'%s': %s", e->key, text);
}
