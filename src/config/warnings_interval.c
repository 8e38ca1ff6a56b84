#include "warnings.h"

#include "intervals.h"
#include "kind.h"
#include "span.h"

#include <string.h>

/* A mile is 1.609344 km exactly (international yard, 1959). */
static int64_t
in_mm(const struct interval *i)
{
    return i->amount * (i->unit == UNIT_KM ? 1000000 : 1609344);
}

/* The interval of @rule that is of one sort: a length of time, for METER_NONE,
 * a distance or hours; NULL when it has none. */
static const struct interval *
of_sort(const struct rule *rule, enum meter meter)
{
    return meter == METER_NONE ? intervals_length(rule)
                               : intervals_metered(rule, meter);
}

/* Nonzero when @a is longer than @b, which is of the same sort. */
static int
is_longer(const struct interval *a, const struct interval *b, enum meter meter)
{
    if (meter == METER_NONE)
        return span_size(a->span) > span_size(b->span);
    if (meter == METER_DISTANCE)
        return in_mm(a) > in_mm(b);
    return a->amount > b->amount;
}

/* A rule whose intervals are held to what is allowed, key by key. */
struct limit_check {
    struct load_context *context;
    const struct section *of_job;
    const struct section *type; /* above the section being read, or NULL */
    const struct section *here;
    const struct job *job;
    const struct rule *rule;
    const char *word; /* of its interval: every or within */
};

/* The key of the job that holds in the section being read: as it stands there,
 * in its type or in the job. */
static const struct entry *
entry_held(const struct limit_check *h, const char *word)
{
    const struct entry *e = section_job_entry(h->here, h->job->id, word);

    if (e == NULL)
        e = section_job_entry(h->type, h->job->id, word);
    return e ? e : section_entry(h->of_job, word);
}

static const char *
file_of(const struct limit_check *h, const struct entry *e)
{
    return problems_name(h->context->problems, e->place.file);
}

/* Hold one sort of interval to 'at-most', which allows @most; @at is the key
 * of the two that stands here. */
static void
warn_most(const struct limit_check *h, const struct entry *at, enum meter meter,
    const struct interval *most)
{
    const struct interval *mine = of_sort(h->rule, meter);
    const struct entry *allowed = entry_held(h, "at-most");

    if (mine == NULL)
        context_warning(h->context, at->place,
            "'%s': nothing in it keeps to the '%s' that 'at-most' allows at "
            "%s:%d; add an interval of that sort",
            at->key, most->text, file_of(h, allowed), allowed->place.line);
    else if (is_longer(mine, most, meter))
        context_warning(h->context, at->place,
            "'%s': '%s' is longer than the '%s' that 'at-most' allows at "
            "%s:%d; correct one of them",
            at->key, mine->text, most->text, file_of(h, allowed),
            allowed->place.line);
}

/* Hold one sort of the interval @at, of one's own, to that of the job. */
static void
warn_longer(
    const struct limit_check *h, const struct entry *at, enum meter meter)
{
    const struct interval *mine = of_sort(h->rule, meter);
    const struct interval *of = of_sort(&h->job->rule, meter);
    const struct entry *at_job = section_entry(h->of_job, h->word);

    if (at_job != NULL && !at_job->refused && mine != NULL && of != NULL &&
        is_longer(mine, of, meter))
        context_warning(h->context, at->place,
            "'%s': '%s' is longer than the '%s' of %s at %s:%d; correct it, "
            "or state what its authority allows in '%s.at-most'",
            at->key, mine->text, of->text, h->of_job->title, file_of(h, at_job),
            at_job->place.line, h->job->id);
}

/* Nonzero when the key stands in the section being read. */
static int
stands_here(const struct limit_check *h, const struct entry *e)
{
    return e != NULL && section_entry(h->here, e->key) == e;
}

/* What 'at-most' says is what the authority allows.  Without it an own interval
 * is held to that of the job. */
static void
warn_held(const struct limit_check *h)
{
    const struct entry *every = entry_held(h, h->word);
    const struct entry *allowed = entry_held(h, "at-most");
    const struct entry *at = stands_here(h, every)     ? every
                             : stands_here(h, allowed) ? allowed
                                                       : NULL;
    struct rule most = {.n_every = h->rule->n_at_most};

    if (at == NULL || every == NULL || every->refused ||
        (allowed != NULL && allowed->refused))
        return;
    memcpy(most.every, h->rule->at_most, sizeof most.every);
    for (enum meter meter = METER_NONE; meter < METERS; meter++) {
        const struct interval *limit = of_sort(&most, meter);
        if (limit != NULL)
            warn_most(h, at, meter, limit);
        /* What is nobody's rule but your own is yours to change. */
        else if (at == every && h->here != h->of_job &&
                 h->job->class != CLASS_OWN)
            warn_longer(h, at, meter);
    }
}

/* The length of time that holds at an age, or NULL. */
static const struct span *
span_at(const struct rule *rule, struct span age)
{
    const struct interval *every = intervals_length(rule);
    const struct span *found = every ? &every->span : NULL;

    for (int i = 0; i < rule->n_ages; i++)
        if (span_size(rule->ages[i].age) <= span_size(age) &&
            (found == NULL ||
                span_size(rule->ages[i].every) < span_size(*found)))
            found = &rule->ages[i].every;
    return found;
}

/* Steps of age of one's own take the place of all those of the job. */
static void
warn_ages(const struct limit_check *h)
{
    const struct entry *own = entry_held(h, "from-age");
    const struct entry *at_job = section_entry(h->of_job, "from-age");
    char age[SPAN_TEXT];
    char mine[SPAN_TEXT];
    char of[SPAN_TEXT];

    if (!stands_here(h, own) || own->refused || at_job == NULL ||
        at_job->refused || h->job->class == CLASS_OWN)
        return;
    for (int i = 0; i < h->job->rule.n_ages; i++) {
        const struct age_step *step = &h->job->rule.ages[i];
        const struct span *held = span_at(h->rule, step->age);
        if (held != NULL && span_size(*held) > span_size(step->every))
            context_warning(h->context, own->place,
                "'%s': '%s' at the age of %s is longer than the '%s' of %s at "
                "%s:%d; correct it",
                own->key, span_text(*held, mine), span_text(step->age, age),
                span_text(step->every, of), h->of_job->title,
                file_of(h, at_job), at_job->place.line);
    }
}

static const char *
interval_word(const struct section *of_job)
{
    return section_entry(of_job, "within") ? "within" : "every";
}

void
warn_job(struct load_context *r, const struct section *s, const struct job *job)
{
    struct limit_check h = {r, s, NULL, s, job, &job->rule, interval_word(s)};

    warn_held(&h);
}

void
warn_intervals(struct load_context *r, const struct subject_def *h)
{
    const struct section *type = h->type ? h->type->section : NULL;

    for (size_t i = 0; i < h->n_uses; i++) {
        const struct job *job = h->uses[i].job;
        const struct section *s =
            document_find(r->document, SECTION_JOB, job->id);
        struct limit_check held = {
            r, s, type, h->section, job, h->uses[i].own, interval_word(s)};
        if (held.rule == NULL)
            continue;
        warn_held(&held);
        warn_ages(&held);
    }
}
