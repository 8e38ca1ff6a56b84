#include "tasks.h"

#include "kind.h"
#include "subject_def.h"

#include <string.h>

/* One subject while its tasks are made: what was said of it is said once. */
struct linking {
    struct load_context *context;
    const struct subject_def *def;
    int said_depot;
    int said_unit;
};

/* Nonzero when a depot is stated for the subject or its carrier, even one
 * that was refused. */
static int
states_depot(const struct load_context *r, const struct subject_def *h)
{
    if (subject_def_states(h, "depot"))
        return 1;
    if (h->subject.carrier == NULL)
        return subject_def_states(h, "carried-by");
    return subject_def_states(&r->defs[h->subject.carrier->index], "depot");
}

static const struct made_calendar *
find_joined(const struct load_context *r, const struct work_calendar *a,
    const struct work_calendar *b)
{
    const struct made_calendar *m = r->calendars;

    while (m != NULL && (m->a != a || m->b != b))
        m = m->next;
    return m;
}

/* The calendar of a depot and a place, either of which may be NULL: made once
 * for each two.  NULL when there is neither, or memory is out. */
static const struct work_calendar *
joined(struct load_context *r, const struct depot *depot,
    const struct work_calendar *place)
{
    const struct work_calendar *a = depot ? depot->calendar : NULL;

    if (a == NULL || place == NULL || a == place)
        return a ? a : place;
    const struct made_calendar *m = find_joined(r, a, place);
    return m ? m->calendar
             : context_keep(r, work_calendar_both(a, place), a, place);
}

/* Two calendars that never meet would leave the work without a day; that is
 * said of the first subject to have it so. */
static const struct work_calendar *
calendar_of(struct linking *l, const struct use *use)
{
    const struct depot *depot = fleet_depot(&l->def->subject);
    const struct work_calendar *place = use->rule->calendar;
    const struct made_calendar *had = l->context->calendars;
    const struct work_calendar *c = joined(l->context, depot, place);

    if (l->context->calendars != had &&
        work_calendar_following(c, DAY_FIRST) == DAY_NONE)
        context_error(l->context, l->def->section->place,
            "%s has '%s' done at '%s', which never works on a day when the "
            "depot '%s' does",
            l->def->section->title, use->job->id, use->rule->place, depot->id);
    if (c == NULL && place == NULL && !l->said_depot &&
        !states_depot(l->context, l->def)) {
        l->said_depot = 1;
        context_error(l->context, l->def->section->place,
            "%s has no depot, so its working days are unknown: "
            "add depot = DEPOT",
            l->def->section->title);
    }
    return c;
}

/* A distance without a unit could be kilometres or miles; to guess wrong would
 * be late. */
static void
check_unit(struct linking *l, const struct use *use)
{
    const struct section *s = l->def->section;

    for (int i = 0; i < use->rule->n_every; i++)
        if (!l->said_unit &&
            kind_meter(&use->rule->every[i]) == METER_DISTANCE &&
            !subject_def_states(l->def, "distance-unit")) {
            l->said_unit = 1;
            context_error(l->context, s->place,
                "%s has no 'distance-unit', and the job '%s' counts distance; "
                "add distance-unit = km or miles",
                s->title, use->job->id);
        }
}

/* The key that holds the day from which an age counts, or NULL when it can
 * be told. */
static const char *
missing_origin(const struct subject_def *h, enum origin origin)
{
    static const char *const words[] = {[ORIGIN_REGISTERED] = "registered",
        [ORIGIN_BUILT] = "built",
        [ORIGIN_IN_SERVICE] = "in-service"};

    if (origin != ORIGIN_EARLIEST)
        return section_entry(h->section, words[origin]) ? NULL : words[origin];
    for (int i = ORIGIN_REGISTERED; i <= ORIGIN_IN_SERVICE; i++)
        if (section_entry(h->section, words[i]))
            return NULL;
    return "registered', 'built' or 'in-service";
}

static void
check_age(struct linking *l, const struct use *use)
{
    const struct section *s = l->def->section;
    const char *missing = use->rule->n_ages > 0
                              ? missing_origin(l->def, use->rule->age_from)
                              : NULL;

    if (missing != NULL)
        context_error(l->context, s->place,
            "%s has no '%s', from which the job '%s' counts the age; add it",
            s->title, missing, use->job->id);
}

/* What the key says means something only beside a unit. */
static void
need_unit(struct linking *l, const char *key)
{
    const struct subject_def *h = l->def;
    const struct entry *e = section_entry(h->section, key);

    if (e != NULL && !subject_def_states(h, "distance-unit"))
        context_error(l->context, e->place,
            "'%s': %s has no 'distance-unit'; add distance-unit = km or miles",
            key, h->section->title);
}

static void
link_subject(struct linking *l, struct task *tasks)
{
    const struct subject_def *h = l->def;

    need_unit(l, "yearly-distance");
    need_unit(l, "unit-since");
    for (size_t i = 0; i < h->n_uses; i++) {
        const struct use *use = &h->uses[i];
        check_unit(l, use);
        check_age(l, use);
        tasks[i] = (struct task){
            .subject = &l->context->subjects[h->subject.index],
            .job = use->job,
            .rule = use->rule,
            .calendar = calendar_of(l, use),
            .baseline = use->baseline,
        };
    }
}

/* The tasks of a subject lie together, and a subject knows the first of
 * them. */
void
tasks_make(struct load_context *r)
{
    struct fleet *fleet = r->fleet;
    size_t n = 0;

    for (size_t i = 0; i < fleet->n_subjects; i++) {
        r->defs[i].subject.first_task = n;
        r->defs[i].subject.n_tasks = r->defs[i].n_uses;
        n += r->defs[i].n_uses;
        r->subjects[i] = r->defs[i].subject;
    }
    struct task *tasks = r->tasks = context_take(r, n * sizeof *tasks);
    if (tasks == NULL)
        return;
    for (size_t i = 0; i < fleet->n_subjects; i++) {
        struct linking l = {.context = r, .def = &r->defs[i]};
        link_subject(&l, tasks + l.def->subject.first_task);
    }
    fleet->tasks = tasks;
    fleet->n_tasks = n;
}

/* The calendar of the holder's use number @i beside the depot, or NULL. */
static const struct work_calendar *
calendar_at(struct load_context *r, const struct subject_def *h, size_t i,
    const struct depot *depot)
{
    return joined(r, depot, h->uses[i].rule->calendar);
}

/* All calendars are looked at before anything is changed, so that a move is
 * whole or not at all. */
int
tasks_move(struct load_context *r, size_t index, const struct subject *carrier)
{
    struct subject_def *h = &r->defs[index];
    struct subject moved = h->subject;

    if (moved.kind != SUBJECT_EQUIPMENT ||
        (carrier != NULL && carrier->kind != SUBJECT_VEHICLE))
        return -1;
    moved.carrier = carrier;
    const struct depot *depot = fleet_depot(&moved);
    for (size_t i = 0; i < h->n_uses; i++)
        if (calendar_at(r, h, i, depot) == NULL)
            return -1;
    for (size_t i = 0; i < h->n_uses; i++)
        r->tasks[moved.first_task + i].calendar = calendar_at(r, h, i, depot);
    h->subject = r->subjects[index] = moved;
    h->moved = 1;
    return 0;
}
