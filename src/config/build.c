#include "build.h"

#include "bounds.h"
#include "check.h"
#include "doubt.h"
#include "holder.h"
#include "keys.h"
#include "lookup.h"
#include "tasks.h"

#include <string.h>

/* All stages, however long before the deadline the first may be. */
static const struct span from_the_first = {60, STEP_YEARS};

/* What calendar services are known to take whole. */
static const struct feed feed_defaults = {
    .horizon = {18, STEP_MONTHS},
    .alarm = {-1, STEP_DAYS},
    .most_events = 1000,
    .most_kilobytes = 900,
};

/* At seven, when people begin. */
static const struct server_settings server_defaults = {
    .listen = "127.0.0.1:8080",
    .remind_at = (int64_t)7 * 60,
};

static const struct span default_calm = {3, STEP_DAYS};
static const struct span default_ahead = {12, STEP_MONTHS};

/* Number the sections of each group and count them. */
static void
count(struct reading *r, size_t counts[SECTION_KINDS])
{
    for (struct section *s = r->document->sections; s != NULL; s = s->next)
        if (!s->again)
            s->index = counts[section_group(s->kind)]++;
}

static int
make_room(struct reading *r, const size_t counts[SECTION_KINDS])
{
    struct fleet *f = r->fleet;

    f->n_depots = counts[SECTION_DEPOT];
    f->n_jobs = counts[SECTION_JOB];
    f->n_subjects = counts[SECTION_VEHICLE];
    f->n_persons = counts[SECTION_PERSON];
    f->n_feeds = counts[SECTION_FEED];
    f->n_workplaces = counts[SECTION_CALENDAR];
    f->n_limits = counts[SECTION_LIMIT];
    f->depots = r->depots = reading_take(r, f->n_depots * sizeof *r->depots);
    f->jobs = r->jobs = reading_take(r, f->n_jobs * sizeof *r->jobs);
    f->subjects = r->subjects =
        reading_take(r, f->n_subjects * sizeof *r->subjects);
    f->persons = r->persons =
        reading_take(r, f->n_persons * sizeof *r->persons);
    f->feeds = r->feeds = reading_take(r, f->n_feeds * sizeof *r->feeds);
    f->workplaces = r->workplaces =
        reading_take(r, f->n_workplaces * sizeof *r->workplaces);
    f->limits = r->limits = reading_take(r, f->n_limits * sizeof *r->limits);
    r->holders = reading_take(r, f->n_subjects * sizeof *r->holders);
    return r->document->out_of_memory ? -1 : 0;
}

/* What the section describes, before any of its keys is read. */

static void *
new_holidays(struct reading *r)
{
    struct holidays *h = reading_take(r, sizeof *h);

    if (h != NULL)
        h->set.known_until = h->published_until = DAY_NONE;
    return h;
}

static void *
new_calendar(struct reading *r, const struct section *s)
{
    struct calendar *c = reading_take(r, sizeof *c);

    if (c == NULL)
        return NULL;
    c->title = s->id;
    c->workplace = &r->workplaces[s->index];
    return c;
}

static void *
new_depot(struct reading *r, const struct section *s)
{
    struct depot *d = &r->depots[s->index];

    d->id = d->title = s->id;
    return d;
}

static void *
new_job(struct reading *r, const struct section *s)
{
    struct job *j = &r->jobs[s->index];

    j->id = j->title = s->id;
    j->index = s->index;
    j->rule.age_from = ORIGIN_EARLIEST;
    j->rule.first.on = DAY_NONE;
    return j;
}

static void *
new_holder(struct reading *r, const struct section *s)
{
    struct holder *h = s->kind == SECTION_TYPE ? reading_take(r, sizeof *h)
                                               : &r->holders[s->index];

    if (h == NULL)
        return NULL;
    h->section = s;
    h->subject.id = s->id;
    h->subject.index = s->index;
    h->subject.kind = s->kind == SECTION_EQUIPMENT ? SUBJECT_EQUIPMENT
                      : s->kind == SECTION_DRIVER  ? SUBJECT_DRIVER
                                                   : SUBJECT_VEHICLE;
    h->subject.registered = h->subject.built = h->subject.in_service = DAY_NONE;
    h->subject.unit_since = DAY_NONE;
    if (s->kind != SECTION_TYPE)
        r->subjects[s->index] = h->subject;
    return h;
}

static void *
new_person(struct reading *r, const struct section *s)
{
    struct person *p = &r->persons[s->index];

    p->id = s->id;
    p->from = from_the_first;
    p->days = WEEKDAYS_ALL;
    return p;
}

static void *
new_feed(struct reading *r, const struct section *s)
{
    struct feed *f = &r->feeds[s->index];

    *f = feed_defaults;
    f->id = f->title = s->id;
    return f;
}

static void *
new_limit(struct reading *r, const struct section *s)
{
    struct away_limit *l = &r->limits[s->index];

    l->id = l->title = s->id;
    return l;
}

static void *
new_site(struct reading *r)
{
    r->fleet->site.plan_ahead = default_ahead;
    return &r->fleet->site;
}

static void *
new_object(struct reading *r, const struct section *s)
{
    switch (s->kind) {
    case SECTION_SITE:
        return new_site(r);
    case SECTION_MAIL:
        return &r->fleet->site.mail;
    case SECTION_SERVER:
        return &r->fleet->site.server;
    case SECTION_HOLIDAYS:
        return new_holidays(r);
    case SECTION_CALENDAR:
        return new_calendar(r, s);
    case SECTION_DEPOT:
        return new_depot(r, s);
    case SECTION_JOB:
        return new_job(r, s);
    case SECTION_TYPE:
    case SECTION_VEHICLE:
    case SECTION_EQUIPMENT:
    case SECTION_DRIVER:
        return new_holder(r, s);
    case SECTION_PERSON:
        return new_person(r, s);
    case SECTION_FEED:
        return new_feed(r, s);
    case SECTION_LIMIT:
        return new_limit(r, s);
    case SECTION_KINDS:
        break;
    }
    return NULL;
}

/* What remains to be done once the keys of a section are read. */

static void
finish_holidays(struct reading *r, const struct section *s, struct holidays *h)
{
    if (section_entry(s, "known-until") == NULL)
        h->set.known_until = h->published_until;
    check_holidays(r, s, h);
}

static void
finish_calendar(struct reading *r, const struct section *s, struct calendar *c)
{
    /* Without its weekdays it would only cause problems of its own. */
    const struct entry *works = section_entry(s, "works");

    if (works == NULL || works->refused || r->document->out_of_memory)
        return;
    c->made = reading_keep(r, workcal_new(&c->plan), NULL, NULL);
    *c->workplace =
        (struct workplace){s->id, c->title, c->made, c->vehicles, c->minutes};
    check_calendar(r, s, c);
}

static void
finish_job(struct reading *r, const struct section *s, struct job *j)
{
    if (section_entry(s, "first-ends") == NULL)
        j->rule.first_ends = j->rule.ends;
    if (section_entry(s, "first-kept") == NULL)
        j->rule.first_kept = bounds_keeps_first(&j->rule);
    check_job(r, s, j);
    check_job_rule(r, s, j);
    doubt_job(r, s, j);
}

static void
read_section(struct reading *r, struct section *s)
{
    void *object = s->object;

    if (s->kind >= SECTION_TYPE && s->kind <= SECTION_DRIVER) {
        holder_read(r, s);
        if (s->kind != SECTION_TYPE)
            check_subject(r, object);
        return;
    }
    keys_read(r, s, object,
        s->kind == SECTION_JOB ? &((struct job *)object)->rule : NULL);
    if (s->kind == SECTION_HOLIDAYS)
        finish_holidays(r, s, object);
    else if (s->kind == SECTION_CALENDAR)
        finish_calendar(r, s, object);
    else if (s->kind == SECTION_JOB)
        finish_job(r, s, object);
    else if (s->kind == SECTION_MAIL)
        check_mail(r, s, object);
    else if (s->kind == SECTION_LIMIT)
        check_limit(r, s, object);
}

/* The place of a calendar, each of which has one of its own. */
static const struct workplace *
place_of(const struct reading *r, const struct workcal *calendar)
{
    for (size_t i = 0; i < r->fleet->n_workplaces; i++)
        if (r->workplaces[i].calendar == calendar)
            return &r->workplaces[i];
    return NULL;
}

static void
finish_depots(struct reading *r)
{
    for (size_t i = 0; i < r->fleet->n_depots; i++) {
        struct depot *d = &r->depots[i];
        d->at = place_of(r, d->calendar);
        if (d->time_zone == NULL)
            d->time_zone = r->fleet->site.time_zone;
    }
}

/* Views that show a title alone have to tell such jobs apart. */
static int
mark_shared_titles(struct reading *r)
{
    struct lookup *titles = lookup_new(r->fleet->n_jobs);

    if (titles == NULL)
        return -1;
    for (size_t i = 0; i < r->fleet->n_jobs; i++)
        if (r->jobs[i].title != NULL)
            lookup_add(titles, r->jobs[i].title, &r->jobs[i]);
    for (size_t i = 0; i < r->fleet->n_jobs; i++) {
        const struct job *one = lookup_find(titles, r->jobs[i].title);
        if (one != NULL && one->index != i)
            r->jobs[i].title_shared = r->jobs[one->index].title_shared = 1;
    }
    lookup_free(titles);
    return 0;
}

static void
check_site(struct reading *r, struct place whole)
{
    if (document_find(r->document, SECTION_SITE, "") == NULL)
        reading_error(r, whole,
            "there is no [site]; add it with name, time-zone and ledger");
    if (r->fleet->n_subjects == 0)
        reading_warning(r, whole,
            "there is no vehicle, equipment or driver, so nothing is ever due");
}

static void
warn_no_mail(struct reading *r)
{
    const struct section *s = r->document->sections;

    while (s != NULL && s->kind != SECTION_PERSON)
        s = s->next;
    if (s != NULL && document_find(r->document, SECTION_MAIL, "") == NULL)
        reading_warning(r, s->place,
            "%s cannot be written to: there is no [mail]; add it with from "
            "and by",
            s->title);
}

void
build_fleet(struct reading *r, struct place whole)
{
    size_t counts[SECTION_KINDS] = {0};

    count(r, counts);
    if (make_room(r, counts))
        return;
    r->fleet->site.calm = default_calm;
    r->fleet->site.server = server_defaults;
    for (struct section *s = r->document->sections; s != NULL; s = s->next)
        if (!s->again && (s->object = new_object(r, s)) == NULL)
            return;
    for (int kind = 0; kind < SECTION_KINDS; kind++)
        for (struct section *s = r->document->sections; s != NULL; s = s->next)
            if (!s->again && (int)s->kind == kind &&
                !r->document->out_of_memory)
                read_section(r, s);
    if (r->document->out_of_memory)
        return;
    finish_depots(r);
    if (mark_shared_titles(r)) {
        r->document->out_of_memory = 1;
        return;
    }
    tasks_make(r);
    check_works(r);
    check_all_jobs(r);
    check_site(r, whole);
    warn_no_mail(r);
    /* Errors leave gaps that would be doubted for nothing. */
    if (problems_count(r->problems, PROBLEM_ERROR) == 0)
        doubt_fleet(r);
}
