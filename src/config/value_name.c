#include "value.h"

#include "holder.h"
#include "items.h"
#include "scan.h"
#include "span.h"

#include <string.h>

/* The object that a value of one id names, or NULL. */
static void *
find_one(struct reading *r, struct entry *e, enum section_kind kind)
{
    const char *id = reading_text(r, e);

    if (id == NULL)
        return NULL;
    const struct section *s = reading_find(r, e, e->place, kind, id);
    return s ? s->object : NULL;
}

void
value_calendar(
    struct reading *r, const struct key *k, struct entry *e, void *at)
{
    const struct calendar *c = find_one(r, e, SECTION_CALENDAR);

    (void)k;
    if (c != NULL)
        *(const struct workcal **)at = c->made;
}

void
value_place(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    struct rule *rule = at;
    const struct calendar *c = find_one(r, e, SECTION_CALENDAR);

    (void)k;
    if (c != NULL) {
        rule->calendar = c->made;
        rule->place = c->title;
        rule->at = c->workplace;
    }
}

/* A list of jobs; sets @n. */
static const struct job **
take_jobs(struct reading *r, struct entry *e, size_t *n)
{
    const struct job **jobs =
        reading_take(r, items_count(e, ITEMS_WORDS) * sizeof(void *));
    struct items item = items_of(e, ITEMS_WORDS);

    *n = 0;
    while (jobs != NULL && items_next(&item)) {
        const struct section *s =
            reading_find(r, e, item.place, SECTION_JOB, item.text);
        const struct job *job = s ? s->object : NULL;
        for (size_t i = 0; i < *n && job != NULL; i++)
            if (jobs[i] == job) {
                reading_refuse(r, e, item.place,
                    "'%s' stands there twice; take one out", job->id);
                job = NULL;
            }
        if (job != NULL)
            jobs[(*n)++] = job;
    }
    return jobs;
}

void
value_covers(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    struct job *job = at;

    (void)k;
    job->covers = take_jobs(r, e, &job->n_covers);
}

void
value_follows(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    struct job *job = at;

    (void)k;
    job->follows = take_jobs(r, e, &job->n_follows);
    for (size_t i = 0; i < job->n_follows; i++)
        if (job->follows[i] == job)
            reading_refuse(r, e, e->place,
                "'%s' cannot follow itself; name the job that makes it due",
                job->id);
}

void
value_also_counts(
    struct reading *r, const struct key *k, struct entry *e, void *at)
{
    struct job *job = at;
    const char *text = reading_text(r, e);
    char id[ITEM_SIZE];
    int64_t most;

    (void)k;
    if (text == NULL)
        return;
    struct scan s = scan_start(text);
    if (!scan_number(&s, 1, 1000, &most) || !scan_any(&s, id, sizeof id) ||
        !scan_end(&s)) {
        reading_refuse(r, e, e->place,
            "'%s' is not how often a job counts; expected N JOB", text);
        return;
    }
    const struct section *found = reading_find(r, e, e->place, SECTION_JOB, id);
    if (found == NULL)
        return;
    job->also_counts = (struct also_counts){found->object, (int)most};
    if (job->also_counts.job == job)
        reading_refuse(
            r, e, e->place, "'%s' counts already; name another job", job->id);
}

void
value_depot(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    struct holder *h = at;

    (void)k;
    h->subject.depot = find_one(r, e, SECTION_DEPOT);
}

void
value_carrier(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    struct holder *h = at;
    const char *id = reading_text(r, e);

    (void)k;
    if (id == NULL)
        return;
    const struct section *s = reading_find(r, e, e->place, SECTION_VEHICLE, id);
    if (s == NULL)
        return;
    if (s->kind == SECTION_VEHICLE)
        h->subject.carrier = h->subject.first_carrier = &r->subjects[s->index];
    else
        reading_refuse(r, e, e->place,
            "'%s' is %s; only a vehicle carries things", id,
            s->kind == SECTION_DRIVER ? "a driver" : "equipment");
}

void
value_jobs(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    struct holder *h = at;
    size_t n;
    const struct job **jobs = take_jobs(r, e, &n);
    struct use *uses = reading_take(r, (h->n_uses + n) * sizeof *uses);

    (void)k;
    if (jobs == NULL || uses == NULL)
        return;
    if (h->n_uses > 0)
        memcpy(uses, h->uses, h->n_uses * sizeof *uses);
    h->uses = uses;
    for (size_t i = 0; i < n; i++)
        holder_add_job(r, h, e, jobs[i]);
}

void
value_yearly(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    static const char *const units[] = {"km", "miles", "mile", NULL};
    struct holder *h = at;
    const char *text = reading_text(r, e);

    (void)k;
    if (text == NULL)
        return;
    struct scan s = scan_start(text);
    int taken = scan_number(&s, 1, 2000000, &h->yearly);
    int unit = scan_choice(&s, units);
    if (!taken || unit < 0 || !scan_end(&s))
        reading_refuse(r, e, e->place,
            "'%s' is not a distance; expected N km or N miles, at most "
            "2000000",
            text);
    h->yearly_unit = unit == 0 ? UNIT_KM : UNIT_MILES;
}

/* "all", "depot harbour", "subject K7", "job annual-test", and for a feed
 * "person manager". */
static int
take_scope(struct reading *r, const struct key *k, struct entry *e,
    const struct items *item, struct scope *scope)
{
    static const char *const words[] = {
        "all", "depot", "subject", "job", "person", NULL};
    static const enum section_kind kinds[] = {SECTION_SITE, SECTION_DEPOT,
        SECTION_VEHICLE, SECTION_JOB, SECTION_PERSON};
    struct scan s = scan_start(item->text);
    char id[ITEM_SIZE];
    int kind = scan_choice(&s, words);

    if (kind < 0 || (kind > 0 && !scan_any(&s, id, sizeof id)) ||
        !scan_end(&s) || (kind == SCOPE_PERSON && !strstr(k->form, "person")))
        return reading_refuse(r, e, item->place,
            "'%s' is not what can be shown; expected %s", item->text, k->form);
    *scope = (struct scope){(enum scope_kind)kind, NULL};
    if (kind == SCOPE_ALL)
        return 0;
    const struct section *found =
        reading_find(r, e, item->place, kinds[kind], id);
    if (found == NULL)
        return -1;
    scope->which =
        kind == SCOPE_SUBJECT ? &r->subjects[found->index] : found->object;
    return 0;
}

static const struct scope *
take_scopes(struct reading *r, const struct key *k, struct entry *e, size_t *n)
{
    struct scope *scopes =
        reading_take(r, items_count(e, ITEMS_COMMAS) * sizeof *scopes);
    struct items item = items_of(e, ITEMS_COMMAS);

    *n = 0;
    while (scopes != NULL && items_next(&item))
        if (take_scope(r, k, e, &item, &scopes[*n]) == 0)
            ++*n;
    return scopes;
}

void
value_told(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    struct person *p = at;

    p->told = take_scopes(r, k, e, &p->n_told);
}

void
value_shows(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    struct feed *f = at;

    f->shows = take_scopes(r, k, e, &f->n_shows);
}

#define NOT_STAGES                                                             \
    "is not a first stage; expected SPAN onward, overdue onward or overdue "   \
    "SPAN onward"

void
value_stages(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    struct person *p = at;
    const char *text = reading_text(r, e);
    const char *wrong = NULL;

    (void)k;
    if (text == NULL)
        return;
    struct scan s = scan_start(text);
    p->from = (struct span){0, STEP_DAYS};
    p->from_overdue = scan_word(&s, "overdue");
    if (!p->from_overdue || !scan_word(&s, "onward")) {
        if (!span_scan(&s, &p->from) || !scan_word(&s, "onward"))
            wrong = NOT_STAGES;
        else
            wrong = value_check_span(p->from, 0);
    }
    if (wrong == NULL && !scan_end(&s))
        wrong = NOT_STAGES;
    if (wrong != NULL)
        reading_refuse(r, e, e->place, "'%s' %s", text, wrong);
}
