#include "subject_def.h"

#include "arena.h"
#include "check.h"
#include "intervals.h"
#include "keys.h"
#include "sheets.h"
#include "warnings.h"

#include <string.h>
#include <strings.h>

int
subject_def_states(const struct subject_def *h, const char *key)
{
    return section_entry(h->section, key) != NULL ||
           (h->type != NULL && subject_def_states(h->type, key));
}

static struct use *
find_use(const struct subject_def *h, const struct job *job)
{
    for (size_t i = 0; i < h->n_uses; i++)
        if (h->uses[i].job == job)
            return &h->uses[i];
    return NULL;
}

static const struct section *
section_of(const struct load_context *r, const struct job *job)
{
    return document_find(r->document, SECTION_JOB, job->id);
}

void
subject_def_add_job(struct load_context *r, struct subject_def *h,
    struct entry *e, const struct job *job)
{
    if (find_use(h, job) != NULL) {
        context_warning(r, e->place,
            "'%s': %s has '%s' from its type already; take one out", e->key,
            h->section->title, job->id);
        return;
    }
    h->uses[h->n_uses++] = (struct use){
        .job = job,
        .from = h->section,
        .rule = &job->rule,
        .baseline = {.last = DAY_NONE,
            .deadline = DAY_NONE,
            .last_reading = {-1, -1, -1}},
        .own_first_ends =
            section_entry(section_of(r, job), "first-ends") != NULL,
        .own_first_kept =
            section_entry(section_of(r, job), "first-kept") != NULL,
    };
}

/* Begin with what the type says; the subject's own keys come on top. */
static void
inherit(struct load_context *r, struct subject_def *h)
{
    const struct subject_def *type = h->type;
    struct subject own = h->subject;

    h->subject = type->subject;
    h->subject.id = own.id;
    h->subject.kind = own.kind;
    h->subject.index = own.index;
    h->yearly = type->yearly;
    h->yearly_unit = type->yearly_unit;
    h->uses = context_take(r, type->n_uses * sizeof *h->uses);
    if (h->uses == NULL)
        return;
    h->n_uses = type->n_uses;
    if (h->n_uses > 0)
        memcpy(h->uses, type->uses, h->n_uses * sizeof *h->uses);
    for (size_t i = 0; i < h->n_uses; i++)
        h->uses[i].own = NULL; /* the type's rule is shared, not written */
}

/* Read before the other keys, which come on top of what the type says. */
static void
read_type(struct load_context *r, struct subject_def *h)
{
    struct entry *e = section_entry(h->section, "type");

    if (e == NULL || e->refused || e->lines == NULL ||
        h->section->kind == SECTION_TYPE)
        return;
    const char *id = context_text(r, e);
    if (id == NULL)
        return;
    const struct section *s = context_find(r, e, e->place, SECTION_TYPE, id);
    if (s == NULL)
        return;
    h->type = s->object;
    inherit(r, h);
}

/* The job named before the dot of JOB.KEY, as the holder has it, or NULL. */
static struct use *
use_of(
    struct load_context *r, struct subject_def *h, struct entry *e, size_t len)
{
    const char *id = context_copy(r, e->key, len);

    if (id == NULL)
        return NULL;
    const struct section *s = context_find(r, e, e->place, SECTION_JOB, id);
    if (s == NULL)
        return NULL;
    struct use *use = find_use(h, s->object);
    if (use == NULL)
        context_refuse(r, e, e->place,
            "%s does not have the job '%s'; add it to 'jobs'",
            h->section->title, id);
    return use;
}

/* A job that follows others says within, and all others every: an own value
 * goes by the same word. */
static int
is_other_word(struct load_context *r, const struct key *k, struct entry *e,
    const struct job *job)
{
    const struct section *s = section_of(r, job);
    int every = strcmp(k->word, "every") == 0;

    if (!every && strcmp(k->word, "within") != 0)
        return 0;
    const char *other = every ? "within" : "every";
    if (section_entry(s, k->word) || !section_entry(s, other))
        return 0;
    context_refuse(r, e, e->place, "the job '%s' says '%s'; expected %s.%s",
        job->id, other, job->id, other);
    return 1;
}

/* The rule is shared with the job until the first key of its own, and copied
 * then. */
static void
read_own_rule(struct load_context *r, struct subject_def *h,
    const struct key *k, struct entry *e, struct use *use)
{
    if (is_other_word(r, k, e, use->job))
        return;
    if (use->own == NULL) {
        use->own = context_take(r, sizeof *use->own);
        if (use->own == NULL)
            return;
        *use->own = *use->rule;
        use->rule = use->own;
    }
    if (strcmp(k->word, "first-ends") == 0)
        use->own_first_ends = 1;
    if (strcmp(k->word, "first-kept") == 0)
        use->own_first_kept = 1;
    keys_read_one(r, h->section, k, e, use->own);
}

/* One JOB.KEY. */
static void
read_own(struct load_context *r, struct subject_def *h, struct entry *e)
{
    const char *dot = strchr(e->key, '.');
    struct use *use = use_of(r, h, e, (size_t)(dot - e->key));
    const struct key *k =
        use ? keys_after_dot(r, h->section, e, dot + 1) : NULL;

    if (k == NULL)
        return;
    if (k->part == PART_RULE)
        read_own_rule(r, h, k, e, use);
    else if (h->section->kind == SECTION_TYPE)
        context_refuse(r, e, e->place,
            "a type has no past of its own; move it to each subject");
    else
        keys_read_one(r, h->section, k, e, &use->baseline);
}

/* A reading without a unit is of the one meter that the job goes by, in the
 * unit that it counted on that day. */
static void
take_plain_reading(struct load_context *r, const struct subject_def *h,
    const struct use *use, struct entry *e, struct baseline *b)
{
    int distance = intervals_metered(use->rule, METER_DISTANCE) != NULL;
    int hours = intervals_metered(use->rule, METER_HOURS) != NULL;

    if (distance && hours)
        context_refuse(r, e, e->place,
            "the job '%s' goes by distance and by hours; expected "
            "N km|miles, N hours",
            use->job->id);
    int before = !hours && h->subject.unit_since != DAY_NONE &&
                 b->last < h->subject.unit_since;
    if (before)
        b->unit = fleet_other_unit(h->subject.unit);
    b->last_reading[hours ? METER_HOURS : METER_DISTANCE] =
        b->last_reading[METER_NONE];
    b->last_reading[METER_NONE] = -1;
}

/* What the meters showed is brought to the unit of the subject's odometer, and
 * needs the day on which they did. */
static void
finish_reading(
    struct load_context *r, const struct subject_def *h, struct use *use)
{
    struct entry *e =
        section_job_entry(h->section, use->job->id, "last-reading");
    struct baseline *b = &use->baseline;
    int64_t *distance = &b->last_reading[METER_DISTANCE];

    if (e == NULL || e->refused)
        return;
    if (b->last == DAY_NONE &&
        section_job_entry(h->section, use->job->id, "last") == NULL)
        context_refuse(r, e, e->place,
            "on which day is not known; add %s.last = YYYY-MM-DD",
            use->job->id);
    if (b->last_reading[METER_NONE] >= 0) {
        b->unit = h->subject.unit;
        take_plain_reading(r, h, use, e, b);
    }
    if (*distance >= 0)
        *distance = fleet_in_unit(*distance, b->unit, h->subject.unit);
    b->unit = h->subject.unit;
}

/* What follows from other values unless it is stated is worked out again for a
 * rule of its own. */
static void
finish_use(struct load_context *r, struct subject_def *h, struct use *use)
{
    const struct baseline *b = &use->baseline;

    finish_reading(r, h, use);

    if (b->last != DAY_NONE && b->deadline != DAY_NONE && b->deadline < b->last)
        context_error(r, h->section->place,
            "%s: '%s.deadline' is before '%s.last'; correct one of them",
            h->section->title, use->job->id, use->job->id);
    if (use->own == NULL)
        return;
    if (!use->own_first_ends)
        use->own->first_ends = use->own->ends;
    if (!use->own_first_kept)
        use->own->first_kept = intervals_keeps_first(use->own);
    check_own_rule(r, h, use);
}

void
subject_def_read(struct load_context *r, struct section *s)
{
    struct subject_def *h = s->object;

    read_type(r, h);
    keys_read(r, s, h, NULL);
    for (struct entry *e = s->entries; e != NULL; e = e->next)
        if (!e->again && !e->refused && strchr(e->key, '.'))
            read_own(r, h, e);
    for (size_t i = 0; i < h->n_uses; i++)
        finish_use(r, h, &h->uses[i]);
    warn_intervals(r, h);
    sheets_check(r, h);
    if (s->kind == SECTION_TYPE)
        r->types[s->index].title = h->subject.title;
    /* The more it is used, the earlier it is due. */
    h->subject.yearly_distance =
        fleet_in_unit_at_most(h->yearly, h->yearly_unit, h->subject.unit);
}
