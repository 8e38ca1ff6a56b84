#include "build.h"

#include "check.h"
#include "intervals.h"
#include "keys.h"
#include "lookup.h"
#include "sheets.h"
#include "subject_def.h"
#include "tasks.h"
#include "warnings.h"

#include <string.h>

/* Number the sections of each group and count them. */
static void
count(struct load_context *r, size_t counts[SECTION_KINDS])
{
    for (struct section *s = r->document->sections; s != NULL; s = s->next)
        if (!s->again)
            s->index = counts[section_group(s->kind)]++;
}

/* The lists have their full length before any key is read, so that a value can
 * point to what is described further down. */
static int
make_room(struct load_context *r, const size_t counts[SECTION_KINDS])
{
    struct fleet *f = r->fleet;

    f->n_depots = counts[SECTION_DEPOT];
    f->n_jobs = counts[SECTION_JOB];
    f->n_subjects = counts[SECTION_VEHICLE];
    f->n_persons = counts[SECTION_PERSON];
    f->n_feeds = counts[SECTION_FEED];
    f->n_workplaces = counts[SECTION_CALENDAR];
    f->n_limits = counts[SECTION_LIMIT];
    f->n_types = counts[SECTION_TYPE];
    f->n_sheets = counts[SECTION_CHECK];
    f->depots = r->depots = context_take(r, f->n_depots * sizeof *r->depots);
    f->jobs = r->jobs = context_take(r, f->n_jobs * sizeof *r->jobs);
    f->subjects = r->subjects =
        context_take(r, f->n_subjects * sizeof *r->subjects);
    f->persons = r->persons =
        context_take(r, f->n_persons * sizeof *r->persons);
    f->feeds = r->feeds = context_take(r, f->n_feeds * sizeof *r->feeds);
    f->workplaces = r->workplaces =
        context_take(r, f->n_workplaces * sizeof *r->workplaces);
    f->limits = r->limits = context_take(r, f->n_limits * sizeof *r->limits);
    f->types = r->types = context_take(r, f->n_types * sizeof *r->types);
    f->sheets = r->sheets = context_take(r, f->n_sheets * sizeof *r->sheets);
    r->defs = context_take(r, f->n_subjects * sizeof *r->defs);
    return r->document->out_of_memory ? -1 : 0;
}

/* A subject is in the fleet before its keys are read: equipment may name a
 * vehicle that stands further down. */
static void *
new_subject(struct load_context *r, const struct section *s)
{
    struct subject_def *h = s->kind == SECTION_TYPE ? context_take(r, sizeof *h)
                                                    : &r->defs[s->index];

    if (h == NULL)
        return NULL;
    h->section = s;
    h->subject = (struct subject){.id = s->id,
        .index = s->index,
        .kind = s->kind == SECTION_EQUIPMENT ? SUBJECT_EQUIPMENT
                : s->kind == SECTION_DRIVER  ? SUBJECT_DRIVER
                                             : SUBJECT_VEHICLE,
        .registered = DAY_NONE,
        .built = DAY_NONE,
        .in_service = DAY_NONE,
        .unit_since = DAY_NONE};
    if (s->kind != SECTION_TYPE) {
        r->subjects[s->index] = h->subject;
        return h;
    }
    h->subject.type = &r->types[s->index];
    r->types[s->index] = (struct subject_type){s->id, NULL, s->index};
    return h;
}

/* What the section describes, before any of its keys is read: all that does
 * not go by a key alone, which has its usual value in the table of keys. */
static void *
new_object(struct load_context *r, const struct section *s)
{
    struct holidays *holidays;
    struct calendar *calendar;

    switch (s->kind) {
    case SECTION_SITE:
        return &r->fleet->site;
    case SECTION_MAIL:
        return &r->fleet->site.mail;
    case SECTION_SERVER:
        return &r->fleet->site.server;
    case SECTION_HOLIDAYS:
        holidays = context_take(r, sizeof *holidays);
        if (holidays != NULL)
            holidays->set.known_until = holidays->published_until = DAY_NONE;
        return holidays;
    case SECTION_CALENDAR:
        calendar = context_take(r, sizeof *calendar);
        if (calendar != NULL)
            *calendar = (struct calendar){
                .title = s->id, .workplace = &r->workplaces[s->index]};
        return calendar;
    case SECTION_DEPOT:
        r->depots[s->index] = (struct depot){.id = s->id, .title = s->id};
        return &r->depots[s->index];
    case SECTION_JOB:
        r->jobs[s->index] = (struct job){.id = s->id,
            .title = s->id,
            .index = s->index,
            .rule = {.first = {.on = DAY_NONE}}};
        return &r->jobs[s->index];
    case SECTION_CHECK:
        return sheets_new(r, s);
    case SECTION_TYPE:
    case SECTION_VEHICLE:
    case SECTION_EQUIPMENT:
    case SECTION_DRIVER:
        return new_subject(r, s);
    case SECTION_PERSON:
        r->persons[s->index] = (struct person){.id = s->id};
        return &r->persons[s->index];
    case SECTION_FEED:
        r->feeds[s->index] = (struct feed){
            .id = s->id, .title = s->id, .alarm = {-1, STEP_DAYS}};
        return &r->feeds[s->index];
    case SECTION_LIMIT:
        r->limits[s->index] = (struct away_limit){.id = s->id, .title = s->id};
        return &r->limits[s->index];
    case SECTION_KINDS:
        break;
    }
    return NULL;
}

/* Make what each section describes, as it is when nothing is stated. */
static int
make_objects(struct load_context *r)
{
    /* These hold without a section, too. */
    keys_set_usual(r, SECTION_SITE, PART_WHOLE, &r->fleet->site);
    keys_set_usual(r, SECTION_SERVER, PART_WHOLE, &r->fleet->site.server);
    for (struct section *s = r->document->sections; s != NULL; s = s->next) {
        if (s->again)
            continue;
        s->object = new_object(r, s);
        if (s->object == NULL)
            return -1;
        keys_set_usual(r, s->kind, PART_WHOLE, s->object);
        if (s->kind == SECTION_JOB)
            keys_set_usual(
                r, s->kind, PART_RULE, &((struct job *)s->object)->rule);
    }
    return r->document->out_of_memory ? -1 : 0;
}

/* What remains to be done once the keys of a section are read. */

static void
finish_holidays(
    struct load_context *r, const struct section *s, struct holidays *h)
{
    if (section_entry(s, "known-until") == NULL)
        h->set.known_until = h->published_until;
    check_holidays(r, s, h);
}

static void
finish_calendar(
    struct load_context *r, const struct section *s, struct calendar *c)
{
    /* Without its weekdays it would only cause problems of its own. */
    const struct entry *works = section_entry(s, "works");

    if (works == NULL || works->refused || r->document->out_of_memory)
        return;
    c->made = context_keep(r, work_calendar_new(&c->plan), NULL, NULL);
    *c->workplace =
        (struct workplace){s->id, c->title, c->made, c->vehicles, c->minutes};
    check_calendar(r, s, c);
}

static void
finish_job(struct load_context *r, const struct section *s, struct job *j)
{
    if (section_entry(s, "first-ends") == NULL)
        j->rule.first_ends = j->rule.ends;
    if (section_entry(s, "first-kept") == NULL)
        j->rule.first_kept = intervals_keeps_first(&j->rule);
    /* Who does not say so gets the safer reading of the law. */
    if (j->failure == FAILURE_USUAL)
        j->failure = j->class == CLASS_LAW ? FAILURE_STOPS : FAILURE_TELLS;
    if (j->overdue == OVERDUE_USUAL)
        j->overdue = j->class == CLASS_LAW ? OVERDUE_STOPS : OVERDUE_WARNS;
    check_job(r, s, j);
    check_job_rule(r, s, j);
    warn_job(r, s, j);
}

/* Subjects and types inherit and have jobs, so they are read by a module of
 * their own. */
static void
read_section(struct load_context *r, struct section *s)
{
    void *object = s->object;

    if (s->kind >= SECTION_TYPE && s->kind <= SECTION_DRIVER) {
        subject_def_read(r, s);
        if (s->kind != SECTION_TYPE)
            check_subject(r, object);
        return;
    }
    if (s->kind == SECTION_CHECK) {
        sheets_read(r, s);
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
    else if (s->kind == SECTION_PERSON)
        check_person(r, s);
    else if (s->kind == SECTION_LIMIT)
        check_limit(r, s, object);
}

/* The place of a calendar, each of which has one of its own. */
static const struct workplace *
place_of(const struct load_context *r, const struct work_calendar *calendar)
{
    for (size_t i = 0; i < r->fleet->n_workplaces; i++)
        if (r->workplaces[i].calendar == calendar)
            return &r->workplaces[i];
    return NULL;
}

static void
finish_depots(struct load_context *r)
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
mark_shared_titles(struct load_context *r)
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
check_site(struct load_context *r, struct place whole)
{
    if (document_find(r->document, SECTION_SITE, "") == NULL)
        context_error(r, whole,
            "there is no [site]; add it with name, time-zone and ledger");
    if (r->fleet->n_subjects == 0)
        context_warning(r, whole,
            "there is no vehicle, equipment or driver, so nothing is ever due");
}

static void
warn_no_mail(struct load_context *r)
{
    const struct section *s = r->document->sections;

    while (s != NULL &&
           (s->kind != SECTION_PERSON || section_entry(s, "told") == NULL))
        s = s->next;
    if (s != NULL && document_find(r->document, SECTION_MAIL, "") == NULL)
        context_warning(r, s->place,
            "%s cannot be written to: there is no [mail]; add it with from "
            "and by",
            s->title);
}

/* First every object, then the keys kind by kind: what is named is read before
 * what names it.  Checks of the whole fleet come last, and doubts only where
 * there is no error. */
void
build_fleet(struct load_context *r, struct place whole)
{
    size_t counts[SECTION_KINDS] = {0};

    count(r, counts);
    if (make_room(r, counts))
        return;
    if (make_objects(r))
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
    check_names(r);
    check_site(r, whole);
    warn_no_mail(r);
    /* Errors leave gaps that would be doubted for nothing. */
    if (problems_count(r->problems, PROBLEM_ERROR) == 0)
        warn_fleet(r);
}
