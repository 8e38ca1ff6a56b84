#include "value.h"

#include "items.h"
#include "scan.h"
#include "span.h"
#include "subject_def.h"

#include <string.h>

/* The object that a value of one id names, or NULL. */
static void *
find_one(struct load_context *r, struct entry *e, enum section_kind kind)
{
    const char *id = context_text(r, e);

    if (id == NULL)
        return NULL;
    const struct section *s = context_find(r, e, e->place, kind, id);
    return s ? s->object : NULL;
}

VALUE_PARSER(parse_calendar)
{
    const struct calendar *c = find_one(r, e, SECTION_CALENDAR);

    if (c != NULL)
        *(const struct work_calendar **)at = c->made;
}

VALUE_FORMATTER(format_calendar)
{
    const struct work_calendar *calendar =
        *(const struct work_calendar *const *)at;
    const struct section *s = calendar ? r->document->sections : NULL;

    while (s != NULL &&
           (s->kind != SECTION_CALENDAR ||
               ((const struct calendar *)s->object)->made != calendar))
        s = s->next;
    buf_text(out, s ? s->id : "none");
}

const struct value_type value_calendar = {
    .parse = parse_calendar, .format = format_calendar};

VALUE_PARSER(parse_place)
{
    struct rule *rule = at;
    const struct calendar *c = find_one(r, e, SECTION_CALENDAR);

    if (c != NULL) {
        rule->calendar = c->made;
        rule->place = c->title;
        rule->at = c->workplace;
    }
}

VALUE_FORMATTER(format_place)
{
    const struct rule *rule = at;

    buf_text(out, rule->place ? rule->place : "the depot's");
}

const struct value_type value_place = {
    .parse = parse_place, .format = format_place};

/* A list of jobs; sets @n. */
static const struct job **
take_jobs(struct load_context *r, struct entry *e, size_t *n)
{
    const struct job **jobs =
        context_take(r, items_count(e, ITEMS_WORDS) * sizeof(void *));
    struct items item = items_of(e, ITEMS_WORDS);

    *n = 0;
    while (jobs != NULL && items_next(&item)) {
        const struct section *s =
            context_find(r, e, item.place, SECTION_JOB, item.text);
        const struct job *job = s ? s->object : NULL;
        for (size_t i = 0; i < *n && job != NULL; i++)
            if (jobs[i] == job) {
                context_refuse(r, e, item.place,
                    "'%s' stands there twice; take one out", job->id);
                job = NULL;
            }
        if (job != NULL)
            jobs[(*n)++] = job;
    }
    return jobs;
}

VALUE_PARSER(parse_job_list)
{
    size_t *n = value_count(k, at);

    *(const struct job ***)at = take_jobs(r, e, n);
}

VALUE_FORMATTER(format_job_list)
{
    const struct job *const *jobs = *(const struct job *const *const *)at;
    size_t n = *value_count(k, at);

    if (n == 0)
        value_format_unset(k, out);
    for (size_t i = 0; i < n; i++)
        buf_print(out, "%s%s", i > 0 ? " " : "", jobs[i]->id);
}

const struct value_type value_job_list = {
    .parse = parse_job_list, .format = format_job_list};

VALUE_PARSER(parse_also_counts)
{
    struct job *job = at;
    const char *text = context_text(r, e);
    char id[ITEM_SIZE];
    int64_t most;

    if (text == NULL)
        return;
    struct scan s = scan_start(text);
    if (!scan_number(&s, 1, 1000, &most) || !scan_any(&s, id, sizeof id) ||
        !scan_end(&s)) {
        context_refuse(r, e, e->place,
            "'%s' is not how often a job counts; expected N JOB", text);
        return;
    }
    const struct section *found = context_find(r, e, e->place, SECTION_JOB, id);
    if (found == NULL)
        return;
    job->also_counts = (struct also_counts){found->object, (int)most};
    if (job->also_counts.job == job)
        context_refuse(
            r, e, e->place, "'%s' counts already; name another job", job->id);
}

VALUE_FORMATTER(format_also_counts)
{
    const struct also_counts *also = &((const struct job *)at)->also_counts;

    if (also->job == NULL)
        value_format_unset(k, out);
    else
        buf_print(out, "%d %s", also->most, also->job->id);
}

const struct value_type value_also_counts = {
    .parse = parse_also_counts, .format = format_also_counts};

VALUE_PARSER(parse_depot)
{
    struct subject_def *h = at;

    h->subject.depot = find_one(r, e, SECTION_DEPOT);
}

VALUE_FORMATTER(format_depot)
{
    const struct depot *d =
        fleet_depot(&((const struct subject_def *)at)->subject);

    buf_text(out, d ? d->id : "none");
}

const struct value_type value_depot = {
    .parse = parse_depot, .format = format_depot};

VALUE_PARSER(parse_carrier)
{
    struct subject_def *h = at;
    const char *id = context_text(r, e);

    if (id == NULL)
        return;
    const struct section *s = context_find(r, e, e->place, SECTION_VEHICLE, id);
    if (s == NULL)
        return;
    if (s->kind == SECTION_VEHICLE)
        h->subject.carrier = h->subject.first_carrier = &r->subjects[s->index];
    else
        context_refuse(r, e, e->place,
            "'%s' is %s; only a vehicle carries things", id,
            s->kind == SECTION_DRIVER ? "a driver" : "equipment");
}

VALUE_FORMATTER(format_carrier)
{
    const struct subject *s = ((const struct subject_def *)at)->subject.carrier;

    buf_text(out, s ? s->id : "none");
}

const struct value_type value_carrier = {
    .parse = parse_carrier, .format = format_carrier};

VALUE_PARSER(parse_jobs)
{
    struct subject_def *h = at;
    size_t n;
    const struct job **jobs = take_jobs(r, e, &n);
    struct use *uses = context_take(r, (h->n_uses + n) * sizeof *uses);

    if (jobs == NULL || uses == NULL)
        return;
    if (h->n_uses > 0)
        memcpy(uses, h->uses, h->n_uses * sizeof *uses);
    h->uses = uses;
    for (size_t i = 0; i < n; i++)
        subject_def_add_job(r, h, e, jobs[i]);
}

VALUE_FORMATTER(format_jobs)
{
    const struct subject_def *h = at;

    if (h->n_uses == 0)
        value_format_unset(k, out);
    for (size_t i = 0; i < h->n_uses; i++)
        buf_print(out, "%s%s", i > 0 ? " " : "", h->uses[i].job->id);
}

const struct value_type value_jobs = {
    .parse = parse_jobs, .format = format_jobs};

VALUE_TAKER(take_yearly)
{
    static const char *const units[] = {"km", "miles", "mile", NULL};
    struct subject_def *h = at;
    int taken = scan_number(s, k->least, k->most, &h->yearly);
    int unit = scan_choice(s, units);

    h->yearly_unit = unit == 0 ? UNIT_KM : UNIT_MILES;
    return taken && unit >= 0 && scan_end(s) ? NULL : k->wrong;
}

VALUE_FORMATTER(format_yearly)
{
    const struct subject *s = &((const struct subject_def *)at)->subject;

    if (s->yearly_distance == 0)
        value_format_unset(k, out);
    else
        buf_print(out, "%lld %s", (long long)s->yearly_distance,
            fleet_unit_word(s->unit));
}

const struct value_type value_yearly = {
    .take = take_yearly, .format = format_yearly};

/* "all", "depot harbour", "subject K7", "job annual-test", and for a feed
 * "person manager". */
static int
take_scope(struct load_context *r, const struct key *k, struct entry *e,
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
        return context_refuse(r, e, item->place,
            "'%s' is not what can be shown; expected %s", item->text, k->form);
    *scope = (struct scope){(enum scope_kind)kind, NULL};
    if (kind == SCOPE_ALL)
        return 0;
    const struct section *found =
        context_find(r, e, item->place, kinds[kind], id);
    if (found == NULL)
        return -1;
    scope->which =
        kind == SCOPE_SUBJECT ? &r->subjects[found->index] : found->object;
    return 0;
}

VALUE_PARSER(parse_scopes)
{
    struct scope *scopes =
        context_take(r, items_count(e, ITEMS_COMMAS) * sizeof *scopes);
    size_t *n = value_count(k, at);
    struct items item = items_of(e, ITEMS_COMMAS);

    *n = 0;
    *(const struct scope **)at = scopes;
    while (scopes != NULL && items_next(&item))
        if (take_scope(r, k, e, &item, &scopes[*n]) == 0)
            ++*n;
}

/* What @which points to depends on the kind. */
static const char *
id_of(const struct scope *s)
{
    switch (s->kind) {
    case SCOPE_DEPOT:
        return ((const struct depot *)s->which)->id;
    case SCOPE_SUBJECT:
        return ((const struct subject *)s->which)->id;
    case SCOPE_JOB:
        return ((const struct job *)s->which)->id;
    case SCOPE_PERSON:
        return ((const struct person *)s->which)->id;
    case SCOPE_ALL:
        break;
    }
    return "";
}

VALUE_FORMATTER(format_scopes)
{
    static const char *const words[] = {
        "all", "depot ", "subject ", "job ", "person "};
    const struct scope *scopes = *(const struct scope *const *)at;
    size_t n = *value_count(k, at);

    if (n == 0)
        value_format_unset(k, out);
    for (size_t i = 0; i < n; i++)
        buf_print(out, "%s%s%s", i > 0 ? ", " : "", words[scopes[i].kind],
            id_of(&scopes[i]));
}

const struct value_type value_scopes = {
    .parse = parse_scopes, .format = format_scopes};

#define NOT_STAGES                                                             \
    "is not a first stage; expected SPAN onward, overdue onward or overdue "   \
    "SPAN onward"

VALUE_TAKER(take_stages)
{
    struct person *p = at;
    const char *wrong = NULL;

    p->from = (struct span){0, STEP_DAYS};
    p->from_overdue = scan_word(s, "overdue");
    if (!p->from_overdue || !scan_word(s, "onward")) {
        if (!span_scan(s, &p->from) || !scan_word(s, "onward"))
            return NOT_STAGES;
        wrong = value_check_span(p->from, 0);
    }
    return wrong == NULL && !scan_end(s) ? NOT_STAGES : wrong;
}

VALUE_FORMATTER(format_stages)
{
    const struct person *p = at;
    char text[SPAN_TEXT];

    if (e == NULL)
        buf_text(out, "all");
    else if (p->from_overdue && p->from.n == 0)
        buf_text(out, "overdue onward");
    else
        buf_print(out, "%s%s onward", p->from_overdue ? "overdue " : "",
            span_text(p->from, text));
}

const struct value_type value_stages = {
    .take = take_stages, .format = format_stages};

/* One item of 'of': which vehicles. */
struct members {
    int all;
    const struct depot *depot;
    const struct subject_def *type;
    const struct subject *one;
};

static int
refuse_member(struct load_context *r, struct entry *e, const struct items *item)
{
    return context_refuse(r, e, item->place,
        "'%s' does not say which vehicles; expected all, depot DEPOT, type "
        "TYPE or subject VEHICLE",
        item->text);
}

static int
take_named(struct load_context *r, struct entry *e, const struct items *item,
    const struct section *found, struct members *m)
{
    if (found == NULL)
        return -1;
    if (found->kind == SECTION_DEPOT)
        m->depot = found->object;
    else if (found->kind == SECTION_TYPE)
        m->type = found->object;
    else if (found->kind == SECTION_VEHICLE)
        m->one = &r->subjects[found->index];
    else
        return context_refuse(r, e, item->place,
            "'%s' is no vehicle; only vehicles are away", found->id);
    return 0;
}

/* As in a scope, but with types, for which there is no scope, and without jobs
 * and people. */
static int
take_members(struct load_context *r, struct entry *e, const struct items *item,
    struct members *m)
{
    static const char *const words[] = {
        "all", "depot", "type", "subject", NULL};
    static const enum section_kind kinds[] = {
        SECTION_SITE, SECTION_DEPOT, SECTION_TYPE, SECTION_VEHICLE};
    struct scan s = scan_start(item->text);
    char id[ITEM_SIZE];
    int kind = scan_choice(&s, words);

    *m = (struct members){.all = kind == 0};
    if (kind < 0 || (kind > 0 && !scan_any(&s, id, sizeof id)) || !scan_end(&s))
        return refuse_member(r, e, item);
    if (m->all)
        return 0;
    return take_named(
        r, e, item, context_find(r, e, item->place, kinds[kind], id), m);
}

static int
is_member(const struct members *m, const struct subject_def *h)
{
    return m->all || (m->depot && fleet_depot(&h->subject) == m->depot) ||
           (m->type && h->type == m->type) ||
           (m->one && m->one->index == h->subject.index);
}

static void
add_member(struct away_limit *l, const struct subject *s)
{
    for (size_t i = 0; i < l->n_of; i++)
        if (l->of[i] == s)
            return;
    l->of[l->n_of++] = s;
}

VALUE_PARSER(parse_limited)
{
    struct away_limit *l = at;
    struct items item = items_of(e, ITEMS_COMMAS);
    struct members m;

    l->of = context_take(r, (r->fleet->n_subjects + 1) * sizeof(void *));
    while (l->of != NULL && items_next(&item)) {
        if (take_members(r, e, &item, &m))
            continue;
        for (size_t i = 0; i < r->fleet->n_subjects; i++)
            if (r->defs[i].subject.kind == SUBJECT_VEHICLE &&
                is_member(&m, &r->defs[i]))
                add_member(l, &r->subjects[i]);
    }
    if (l->n_of == 0 && !e->refused)
        context_refuse(r, e, e->place, "there is no such vehicle");
}

/* The vehicles that it came to. */
VALUE_FORMATTER(format_limited)
{
    const struct away_limit *l = at;

    for (size_t i = 0; i < l->n_of; i++)
        buf_print(out, "%s%s", i > 0 ? " " : "", l->of[i]->id);
}

const struct value_type value_limited = {
    .parse = parse_limited, .format = format_limited};

VALUE_PARSER(parse_on)
{
    struct away_limit *l = at;
    const char *id = context_text(r, e);
    const struct section *found =
        id ? context_find(r, e, e->place, SECTION_CALENDAR, id) : NULL;

    if (found != NULL)
        l->on = ((const struct calendar *)found->object)->workplace;
}

VALUE_FORMATTER(format_on)
{
    const struct away_limit *l = at;

    buf_text(out, l->on ? l->on->id : "all days");
}

const struct value_type value_on = {.parse = parse_on, .format = format_on};
