#include "check.h"

#include "intervals.h"
#include "kind.h"
#include "sheet.h"
#include "subject_def.h"
#include "value.h"

#include <string.h>
#include <strings.h>

static int
has(const struct section *s, const char *key)
{
    return section_entry(s, key) != NULL;
}

/* The most days added to any one year. */
static size_t
most_added(const struct holiday_set *set, int *year)
{
    size_t count[300] = {0};
    size_t most = 0;

    *year = 1900;
    for (size_t i = 0; i < set->n_added; i++) {
        int y = day_ymd(set->added[i].day).year;
        if (++count[y - 1900] > most) {
            most = count[y - 1900];
            *year = y;
        }
    }
    return most;
}

/* The year is worked out into a list of fixed length, so too many days are
 * refused here. */
void
check_holidays(
    struct load_context *r, const struct section *s, const struct holidays *h)
{
    int year;
    size_t most = most_added(&h->set, &year) + h->set.n_rules;

    if (most > HOLIDAY_MOST)
        context_error(r, s->place,
            "%s has %zu days in %d; expected at most %d a year", s->title, most,
            year, HOLIDAY_MOST);
    if (!has(s, "day") && !has(s, "add") && !has(s, "file"))
        context_warning(
            r, s->place, "%s has no day; add 'day', 'add' or 'file'", s->title);
    if (strcasecmp(s->id, VALUE_NO_HOLIDAYS) == 0)
        context_error(r, s->place,
            "%s: the word means that a calendar keeps none; give the set "
            "another name",
            s->title);
}

void
check_calendar(
    struct load_context *r, const struct section *s, const struct calendar *c)
{
    if (c->made == NULL ||
        work_calendar_following(c->made, DAY_FIRST) != DAY_NONE)
        return;
    context_error(r, s->place,
        "%s never works; name a weekday in 'works' or a day in 'open'",
        s->title);
}

/* A follow-on says 'within' and all other work says 'every'; any other mix was
 * meant as one of the two. */
static void
check_kinds_of_interval(struct load_context *r, const struct section *s)
{
    if (!has(s, "every") && !has(s, "within"))
        context_error(r, s->place,
            "%s has no 'every'; add every = INTERVAL, or 'follows' and "
            "'within' for work that another job makes due",
            s->title);
    else if (has(s, "every") && has(s, "within"))
        context_error(r, section_entry(s, "within")->place,
            "%s has both 'every' and 'within'; take one out", s->title);
    else if (has(s, "within") && !has(s, "follows"))
        context_error(r, section_entry(s, "within")->place,
            "%s has 'within' but no 'follows'; add follows = JOB...", s->title);
    else if (has(s, "follows") && !has(s, "within"))
        context_error(r, section_entry(s, "follows")->place,
            "%s has 'follows' but no 'within'; write within = INTERVAL for "
            "'every'",
            s->title);
}

void
check_job(
    struct load_context *r, const struct section *s, const struct job *job)
{
    const struct entry *class = section_entry(s, "class");
    struct entry *follows = section_entry(s, "follows");

    for (size_t i = 0; i < job->n_follows; i++)
        if (job->follows[i] == job)
            context_refuse(r, follows, follows->place,
                "'%s' cannot follow itself; name the job that makes it due",
                job->id);
    check_kinds_of_interval(r, s);
    if (class != NULL && !class->refused && job->class == CLASS_LAW &&
        has(s, "every") && !has(s, "lead") && !kind_never_due(&job->rule))
        context_warning(r, s->place,
            "%s is law and has no 'lead'; add lead = N working days, so that "
            "it is booked in time",
            s->title);
}

static void
warn_before(struct load_context *r, const struct subject_def *h,
    const char *late, day_t later, const char *early, day_t earlier)
{
    const struct entry *e = section_entry(h->section, late);

    if (e != NULL && later != DAY_NONE && earlier != DAY_NONE &&
        later < earlier)
        context_warning(
            r, e->place, "'%s': the day lies before '%s'", late, early);
}

/* A vehicle without a job is taken for forgotten.  A driver or a piece of
 * equipment may be there only to be named. */
void
check_subject(struct load_context *r, const struct subject_def *h)
{
    const struct subject *s = &h->subject;
    const struct section *of = h->section;

    warn_before(r, h, "registered", s->registered, "built", s->built);
    warn_before(r, h, "in-service", s->in_service, "built", s->built);
    warn_before(r, h, "in-service", s->in_service, "registered", s->registered);
    if (s->kind != SUBJECT_EQUIPMENT && s->carrier != NULL)
        context_error(r, of->place,
            "%s is carried by '%s' as its type says; only equipment is carried",
            of->title, s->carrier->id);
    if (s->kind == SUBJECT_DRIVER && s->n_sheets > 0)
        context_error(r, of->place,
            "%s has the check sheet '%s' as its type says; only vehicles and "
            "equipment are checked",
            of->title, s->sheets[0]->id);
    if (h->n_uses > 0 || subject_def_states(h, "jobs"))
        return;
    if (s->kind == SUBJECT_VEHICLE)
        context_error(r, of->place,
            "%s has no job, so it is never due; add jobs = JOB...", of->title);
    else
        context_warning(r, of->place,
            "%s has no job, so it is never due; add jobs = JOB...", of->title);
}

/* Only who is told something is written to, and who can neither be told nor do
 * anything was meant to be one of the two. */
void
check_person(struct load_context *r, const struct section *s)
{
    static const char *const of_mail[] = {
        "mail", "stages", "days", "calendar", "urgent", "outlook"};

    if (has(s, "told")) {
        if (!has(s, "mail"))
            context_error(r, s->place,
                "%s is told of dues and has no 'mail'; add mail = ADDRESS, or "
                "take out 'told'",
                s->title);
        return;
    }
    if (!has(s, "may") && !has(s, "mail"))
        context_error(r, s->place,
            "%s has neither 'told' nor 'may'; add told = SCOPE, ... and "
            "mail = ADDRESS for who is written to, may = assess, repair, "
            "release for who decides about defects",
            s->title);
    for (size_t i = 0; i < sizeof of_mail / sizeof *of_mail; i++) {
        struct entry *e = section_entry(s, of_mail[i]);
        if (e != NULL)
            context_refuse(r, e, e->place,
                "%s has no 'told', so nothing is ever sent; add "
                "told = SCOPE, ... or take this out",
                s->title);
    }
}

/* Of two with one name nobody could tell whose word it was that a vehicle may
 * go; where neither decides anything, it does no harm. */
void
check_names(struct load_context *r)
{
    for (const struct section *s = r->document->sections; s; s = s->next) {
        const struct person *p = s->object;
        if (s->kind != SECTION_PERSON || s->again || p->name == NULL)
            continue;
        for (size_t i = 0; i < r->fleet->n_persons; i++) {
            const struct person *other = &r->persons[i];
            const char *name = other->name && i < s->index ? other->name : "";
            if (other == p || (p->may == 0 && other->may == 0) ||
                (strcasecmp(p->name, other->id) != 0 &&
                    strcasecmp(p->name, name) != 0))
                continue;
            context_error(r, section_entry(s, "name")->place,
                "'name': [person %s] is called so too, and one of the two "
                "decides about defects; tell them apart",
                other->id);
        }
    }
}

/* Nonzero when the job covers none that may stand in a circle. */
static int
is_settled(const struct job *job, const char *settled)
{
    for (size_t i = 0; i < job->n_covers; i++)
        if (!settled[job->covers[i]->index])
            return 0;
    return 1;
}

/* Settle, again and again, the jobs that cover only settled ones. */
static void
settle(const struct load_context *r, char *settled)
{
    int changed = 1;

    while (changed) {
        changed = 0;
        for (size_t i = 0; i < r->fleet->n_jobs; i++)
            if (!settled[i] && is_settled(&r->jobs[i], settled))
                settled[i] = (char)(changed = 1);
    }
}

static const struct job *
next_unsettled(const struct job *job, const char *settled)
{
    size_t i = 0;

    while (settled[job->covers[i]->index])
        i++;
    return job->covers[i];
}

/* Name the circle that an unsettled job leads into, and settle it. */
static void
refuse_circle(struct load_context *r, const struct job *from, char *settled)
{
    for (size_t i = 0; i < r->fleet->n_jobs; i++)
        from = next_unsettled(from, settled);
    const struct job *first = from;
    const struct job *job = from;
    do {
        job = next_unsettled(job, settled);
        if (job->index < first->index)
            first = job;
    } while (job != from);
    const char *text = first->id;
    job = first;
    do {
        const struct job *next = next_unsettled(job, settled);
        text =
            arena_print(r->arena, "%s covers %s", text ? text : "", next->id);
        job = next;
    } while (job != first);
    const struct section *s =
        document_find(r->document, SECTION_JOB, first->id);
    struct entry *e = section_entry(s, "covers");
    context_refuse(r, e, e->place, "jobs cover each other in a circle: %s",
        text ? text : "");
    settled[first->index] = 1;
}

static void
check_circles(struct load_context *r)
{
    char *settled = context_take(r, r->fleet->n_jobs);

    for (size_t i = 0; settled != NULL && i < r->fleet->n_jobs; i++) {
        settle(r, settled);
        if (!settled[i])
            refuse_circle(r, &r->jobs[i--], settled);
    }
}

/* Jobs of presets are only on offer, so nobody need have them. */
static void
warn_unused(struct load_context *r)
{
    char *used = context_take(r, r->fleet->n_jobs);

    if (used == NULL)
        return;
    for (size_t i = 0; i < r->fleet->n_subjects; i++)
        for (size_t k = 0; k < r->defs[i].n_uses; k++)
            used[r->defs[i].uses[k].job->index] = 1;
    for (const struct section *s = r->document->sections; s != NULL;
         s = s->next)
        if (s->kind == SECTION_JOB && !s->again && !s->preset &&
            !used[s->index])
            context_warning(r, s->place,
                "nobody has the job '%s'; add it to the 'jobs' of a subject",
                s->id);
}

void
check_all_jobs(struct load_context *r)
{
    check_circles(r);
    warn_unused(r);
}
