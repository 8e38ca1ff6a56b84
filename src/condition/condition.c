#include "condition.h"

#include "buf.h"

#include <stdlib.h>

/* A reason, with the vehicle that it is about. */
struct found {
    size_t vehicle; /* index of the subject */
    struct stop stop;
};

struct conditions {
    struct vehicle_condition *vehicles;
    size_t n_vehicles;
    struct stop *stops;
    struct found *found;
    size_t n, room;
    int is_short; /* memory is out */
};

static const struct {
    const char *word;
    const char *said;
} conditions[] = {
    [CONDITION_NOT_TO_BE_DRIVEN] = {"not-to-be-driven", "not to be driven"},
    [CONDITION_NOT_KNOWN] = {"not-known", "not known, ask"},
    [CONDITION_OPEN_DEFECTS] = {"open-defects",
        "may be driven, with open defects"},
    [CONDITION_FIT] = {"fit", "fit, as far as is known"},
};

static const struct {
    const char *word;
    const char *lifted_by;
    enum fitness makes;
} kinds[] = {
    [STOP_DEFECT] = {"defect", "somebody who may release it",
        CONDITION_NOT_TO_BE_DRIVEN},
    [STOP_LAPSED] = {"lapsed", "somebody who may release it",
        CONDITION_NOT_TO_BE_DRIVEN},
    [STOP_FAILED] = {"failed", "a pass, or somebody who may release it",
        CONDITION_NOT_TO_BE_DRIVEN},
    [STOP_OVERDUE] = {"overdue", "a record that it was done",
        CONDITION_NOT_TO_BE_DRIVEN},
    [STOP_OFF_ROAD] = {"off-road", "whoever ends the spell",
        CONDITION_NOT_TO_BE_DRIVEN},
    [STOP_LEFT] = {"left", "nobody, unless that is voided",
        CONDITION_NOT_TO_BE_DRIVEN},
    [STOP_NO_RECORD] = {"no-record", "a record that it was done",
        CONDITION_NOT_KNOWN},
    [STOP_FIRST_USE] = {"first-use", "a check or an inspection",
        CONDITION_NOT_KNOWN},
    [STOP_OPEN] = {"open", "somebody who may release it",
        CONDITION_OPEN_DEFECTS},
    [STOP_TELLS] = {"failed", "a pass", CONDITION_OPEN_DEFECTS},
};

const char *
condition_word(enum fitness condition)
{
    return conditions[condition].word;
}

const char *
condition_said(enum fitness condition)
{
    return conditions[condition].said;
}

const char *
stop_word(enum stop_kind kind)
{
    return kinds[kind].word;
}

const char *
stop_lifted_by(enum stop_kind kind)
{
    return kinds[kind].lifted_by;
}

const char *
stop_note(const struct stop *s)
{
    if (s->defect != NULL)
        return s->defect->seen.note ? s->defect->seen.note
                                    : s->defect->reported.note;
    if (s->record != NULL)
        return s->record->note;
    return s->due && s->due->failed ? s->due->failed->note : NULL;
}

/* "defect 3, T1 Tyres all round", and on what unless that is the vehicle
 * itself; the text is of the sheet as it is now, so the code goes first. */
static void
say_defect(const struct defect *d, struct buf *out)
{
    const struct subject *s = d->subject;
    const struct check_item *item = sheet_item(s, d->item);

    if (item == NULL && s->carrier != NULL)
        item = sheet_item(s->carrier, d->item);
    buf_print(out, "defect %lld, %s%s%s", (long long)d->number, d->item,
        item ? " " : "", item ? item->text : "");
    if (s->kind == SUBJECT_EQUIPMENT)
        buf_print(out, " on %s", s->id);
}

/* What was done about an open defect so far. */
static const char *const stands[] = {[DEFECT_REPORTED] = "reported",
    [DEFECT_STOP] = "stopped by decision",
    [DEFECT_UNTIL] = "put off",
    [DEFECT_WATCH] = "watched",
    [DEFECT_REPAIRED] = "repaired and not released"};

/* Each kind names the day from which it holds, if there is one. */
void
stop_say(const struct stop *s, struct buf *out)
{
    const char *title = s->due ? s->due->task->job->title : "";
    char since[DAY_WORDS];
    char until[DAY_WORDS];

    day_words(s->since, since);
    if (s->due != NULL && s->subject->kind == SUBJECT_EQUIPMENT)
        buf_print(out, "%s: ", s->subject->id);
    if (s->defect != NULL)
        say_defect(s->defect, out);
    if (s->kind == STOP_DEFECT || s->kind == STOP_OPEN)
        buf_print(out, " (%s), %s, since %s",
            sheet_grade_word(s->defect->grade), stands[s->defect->state],
            since);
    else if (s->kind == STOP_LAPSED)
        buf_print(
            out, ", was put off until %s", day_words(s->defect->until, until));
    else if (s->kind == STOP_FAILED || s->kind == STOP_TELLS)
        buf_print(out, "%s failed on %s", title, since);
    else if (s->kind == STOP_OVERDUE)
        buf_print(out, "%s is overdue, since %s", title, since);
    else if (s->kind == STOP_NO_RECORD)
        buf_print(out, "%s has no record", title);
    else if (s->kind == STOP_OFF_ROAD)
        buf_print(out, "off the road since %s", since);
    else if (s->kind == STOP_LEFT)
        buf_print(out, "left the fleet on %s", since);
    else
        buf_text(out, "no check or inspection since it came");
}

/* Keep a reason for the vehicle that @s.subject is or is carried by; a driver
 * has a condition of their own (rule 11). */
static void
add(struct conditions *c, struct stop s)
{
    const struct subject *v = s.subject;

    while (v->kind == SUBJECT_EQUIPMENT && v->carrier != NULL)
        v = v->carrier;
    if (v->kind != SUBJECT_VEHICLE)
        return;
    if (c->n == c->room) {
        size_t more = c->room ? 2 * c->room : 64;
        struct found *grown = realloc(c->found, more * sizeof *grown);
        if (grown == NULL) {
            c->is_short = 1;
            return;
        }
        c->found = grown;
        c->room = more;
    }
    s.makes = kinds[s.kind].makes;
    c->found[c->n++] = (struct found){v->index, s};
}

struct stop
stop_by_defect(const struct defect *d, day_t today)
{
    int lapsed = defect_lapsed(d, today);
    enum stop_kind kind = lapsed                   ? STOP_LAPSED
                          : defect_stops(d, today) ? STOP_DEFECT
                                                   : STOP_OPEN;

    return (struct stop){.kind = kind,
        .makes = kinds[kind].makes,
        .subject = d->subject,
        .since = lapsed ? d->until + 1 : d->reported.at.day,
        .defect = d};
}

static void
add_defects(struct conditions *c, const struct defects *ds, day_t today)
{
    size_t n;
    const struct defect *d = defects_all(ds, &n);

    for (size_t i = 0; i < n; i++)
        if (defect_is_open(&d[i]) && d[i].subject != NULL)
            add(c, stop_by_defect(&d[i], today));
}

/* What failed is its own stop, and is not said once more as overdue
 * (rule 9).  One that stops nothing is known against the vehicle all the same:
 * that is not called fit. */
static void
add_due(struct conditions *c, const struct due *d, const struct defects *ds,
    day_t today)
{
    const struct job *job = d->task->job;
    struct stop s = {.subject = d->task->subject, .due = d, .since = DAY_NONE};

    if (d->cycle.ahead != 0)
        return;
    if (d->failed != NULL &&
        defects_released_failure(ds, d->failed->id) == NULL) {
        s.kind = job->failure == FAILURE_STOPS ? STOP_FAILED : STOP_TELLS;
        s.since = d->failed->day;
        add(c, s);
    } else if (d->besides == DUE_OVERDUE && job->overdue == OVERDUE_STOPS &&
               d->deadline != DAY_NONE && d->deadline < today) {
        s.kind = STOP_OVERDUE;
        s.since = d->deadline + 1;
        add(c, s);
    } else if (d->besides == DUE_NO_RECORD && job->class == CLASS_LAW) {
        s.kind = STOP_NO_RECORD;
        add(c, s);
    }
}

/* Spells and leavings of vehicles, by today. */
static void
add_record(struct conditions *c, const struct record *r, day_t today)
{
    struct stop s = {.subject = r->subject, .since = r->day, .record = r};

    if (r->subject == NULL || r->voided_by != 0 || r->day > today ||
        r->subject->kind != SUBJECT_VEHICLE)
        return;
    s.kind = r->kind == RECORD_LEFT ? STOP_LEFT : STOP_OFF_ROAD;
    if (r->kind == RECORD_LEFT ||
        (r->kind == RECORD_OFF_ROAD &&
            (r->until == DAY_NONE || r->until >= today)))
        add(c, s);
}

/* The day on which @v last came back from a spell off the road, up to @today;
 * DAY_NONE for never: then it counts from ever. */
static day_t
came(const struct subject *v, const struct record *r, size_t n, day_t today)
{
    day_t last = DAY_NONE;

    for (size_t i = 0; i < n; i++)
        if (r[i].subject == v && r[i].kind == RECORD_OFF_ROAD &&
            r[i].voided_by == 0 && r[i].until != DAY_NONE && r[i].until < today)
            last = day_later(last, r[i].until + 1);
    return last;
}

/* An inspection stands in for a check, not the other way round. */
static int
was_looked_at(const struct fleet *f, const struct subject *v,
    const struct record *r, size_t n, day_t since)
{
    for (size_t i = 0; i < n; i++) {
        int counts = r[i].kind == RECORD_CHECKED
                         ? v->first_use == FIRST_USE_CHECK
                         : r[i].kind == RECORD_COMPLETED && r[i].job &&
                               r[i].job->inspection;
        if (counts && r[i].subject == v && r[i].voided_by == 0 &&
            r[i].day >= since)
            return 1;
    }
    for (size_t i = 0; i < v->n_tasks; i++) {
        const struct task *t = &f->tasks[v->first_task + i];
        if (t->job->inspection && t->baseline.last != DAY_NONE &&
            t->baseline.last >= since)
            return 1;
    }
    return 0;
}

static int
by_gravity(const void *left, const void *right)
{
    const struct found *a = left;
    const struct found *b = right;

    if (a->vehicle != b->vehicle)
        return a->vehicle < b->vehicle ? -1 : 1;
    if (a->stop.makes != b->stop.makes)
        return a->stop.makes < b->stop.makes ? -1 : 1;
    if (a->stop.since != b->stop.since)
        return a->stop.since < b->stop.since ? -1 : 1;
    return (a->stop.kind > b->stop.kind) - (a->stop.kind < b->stop.kind);
}

static int
vehicles_by_gravity(const void *left, const void *right)
{
    const struct vehicle_condition *a = left;
    const struct vehicle_condition *b = right;

    if (a->condition != b->condition)
        return a->condition < b->condition ? -1 : 1;
    return (a->vehicle > b->vehicle) - (a->vehicle < b->vehicle);
}

/* Give each vehicle its reasons, of which the first decides. */
static int
hand_out(struct conditions *c, const struct fleet *f)
{
    size_t at = 0;

    c->stops = calloc(c->n + 1, sizeof *c->stops);
    c->vehicles = calloc(f->n_subjects + 1, sizeof *c->vehicles);
    if (c->is_short || c->stops == NULL || c->vehicles == NULL)
        return -1;
    if (c->n > 1)
        qsort(c->found, c->n, sizeof *c->found, by_gravity);
    for (size_t i = 0; i < f->n_subjects; i++) {
        size_t first = at;
        for (; at < c->n && c->found[at].vehicle == i; at++)
            c->stops[at] = c->found[at].stop;
        if (f->subjects[i].kind == SUBJECT_VEHICLE)
            c->vehicles[c->n_vehicles++] =
                (struct vehicle_condition){&f->subjects[i],
                    at > first ? c->stops[first].makes : CONDITION_FIT,
                    &c->stops[first], at - first};
    }
    if (c->n_vehicles > 1)
        qsort(c->vehicles, c->n_vehicles, sizeof *c->vehicles,
            vehicles_by_gravity);
    return 0;
}

struct conditions *
conditions_new(const struct snapshot *s, const struct defects *ds,
    const struct record *records, size_t n_records)
{
    const struct fleet *f = snapshot_fleet(s);
    day_t today = snapshot_today(s);
    struct conditions *c = calloc(1, sizeof *c);
    size_t n_dues;
    const struct due *dues = snapshot_dues(s, &n_dues);

    if (c == NULL)
        return NULL;
    add_defects(c, ds, today);
    for (size_t i = 0; i < n_dues; i++)
        add_due(c, &dues[i], ds, today);
    for (size_t i = 0; i < n_records; i++)
        add_record(c, &records[i], today);
    for (size_t i = 0; i < f->n_subjects; i++) {
        const struct subject *v = &f->subjects[i];
        if (v->kind != SUBJECT_VEHICLE || v->first_use == FIRST_USE_NOTHING)
            continue;
        day_t since = came(v, records, n_records, today);
        if (!was_looked_at(f, v, records, n_records, since))
            add(c, (struct stop){
                       .kind = STOP_FIRST_USE, .subject = v, .since = since});
    }
    if (hand_out(c, f) == 0)
        return c;
    conditions_free(c);
    return NULL;
}

void
conditions_free(struct conditions *c)
{
    if (c == NULL)
        return;
    free(c->vehicles);
    free(c->stops);
    free(c->found);
    free(c);
}

const struct vehicle_condition *
conditions_all(const struct conditions *c, size_t *n)
{
    *n = c->n_vehicles;
    return c->vehicles;
}

const struct vehicle_condition *
conditions_of(const struct conditions *c, const struct subject *s)
{
    for (size_t i = 0; i < c->n_vehicles; i++)
        if (c->vehicles[i].vehicle == s)
            return &c->vehicles[i];
    return NULL;
}
