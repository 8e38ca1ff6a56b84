#include "from_records.h"

#include "arena.h"

#include <stdlib.h>

static int64_t
number(const struct record *r, const char *field, int64_t none)
{
    const struct record_value *v = record_value(r, field);

    return v ? v->number : none;
}

/* The numbers of the defects that a check answers, which the body has as
 * texts. */
static int
take_answered(struct defect_event *e, struct arena *a, const struct record *r)
{
    const struct record_value *v = record_value(r, "answered");

    if (v == NULL || v->n_items == 0)
        return 0;
    int64_t *out = arena_take(a, v->n_items * sizeof *out);
    if (out == NULL)
        return -1;
    for (size_t i = 0; i < v->n_items; i++)
        for (const char *c = v->items[i]; *c >= '0' && *c <= '9'; c++)
            out[i] = out[i] * 10 + (*c - '0');
    e->answered = out;
    e->n_answered = v->n_items;
    return 0;
}

/* A report is about the first one of its defect, or about what it was found
 * in. */
static void
take_report(
    struct defect_event *e, const struct defects *ds, const struct record *r)
{
    const struct defect_event *of = defects_event(ds, r->about);
    const char *grade = record_text(r, "grade");
    int found = grade ? sheet_grade_find(grade) : -1;

    e->item = record_text(r, "item");
    e->grade = found < 0 ? GRADE_STOPS : (enum grade)found;
    e->number = number(r, "number", 0);
    e->cause = number(r, "check", 0);
    if (of != NULL && of->kind == EVENT_REPORTED)
        return;
    e->about = 0;
    e->cause = r->about;
}

/* A verdict that this program does not know stops: the safe side. */
static void
take_verdict(struct defect_event *e, const struct record *r)
{
    const char *word = record_text(r, "verdict");
    int found = word ? defect_verdict_find(word) : -1;

    e->verdict = found < 0 ? VERDICT_STOP : (enum defect_verdict)found;
    e->until = r->until;
    e->reading = number(r, "up-to", -1);
    if (e->verdict == VERDICT_UNTIL && e->until == DAY_NONE)
        e->verdict = VERDICT_STOP;
}

/* Which kind of event a record is, or -1 for none that matters here. */
static int
kind_of(const struct record *r)
{
    switch (r->kind) {
    case RECORD_CHECKED:
        return EVENT_CHECKED;
    case RECORD_FAILED:
        return EVENT_FAILED;
    case RECORD_REPORTED:
        return EVENT_REPORTED;
    case RECORD_ASSESSED:
        return EVENT_ASSESSED;
    case RECORD_REPAIRED:
        return EVENT_REPAIRED;
    case RECORD_RELEASED:
        return EVENT_RELEASED;
    case RECORD_MOVED:
        return EVENT_MOVED;
    default:
        return -1;
    }
}

static int
add(struct defects *ds, struct arena *a, const struct record *r)
{
    struct defect_event e = {.kind = (enum defect_kind)kind_of(r),
        .id = r->id,
        .about = r->about,
        .at = {r->day, (int)number(r, "at", 0)},
        .whole_day = record_value(r, "at") == NULL,
        .by = r->by,
        .note = r->note,
        .alone = number(r, "alone", 0) != 0,
        .paper = record_text(r, "paper") != NULL,
        .subject_id = r->subject_id,
        .subject = r->subject,
        .other = r->other,
        .until = DAY_NONE,
        .reading = -1};

    if (e.kind == EVENT_CHECKED && take_answered(&e, a, r))
        return -1;
    if (e.kind == EVENT_REPORTED)
        take_report(&e, ds, r);
    if (e.kind == EVENT_ASSESSED)
        take_verdict(&e, r);
    if (e.kind == EVENT_MOVED)
        e.cause = r->about;
    return defects_add(ds, &e);
}

/* A record, and what voids it. */
struct void_of {
    int64_t by;
    int64_t id;
};

static int
by_void(const void *left, const void *right)
{
    const struct void_of *a = left;
    const struct void_of *b = right;

    return (a->by > b->by) - (a->by < b->by);
}

/* Add the voids that were entered before the record @upto, or all of them, and
 * with it the one that it is. */
static int
add_voids(struct defects *ds, const struct void_of *voids, size_t n,
    size_t *next, const struct record *upto)
{
    for (; *next < n && (upto == NULL || voids[*next].by <= upto->id);
         (*next)++) {
        struct defect_event e = {.kind = EVENT_VOIDED,
            .id = voids[*next].by,
            .about = voids[*next].id,
            .until = DAY_NONE,
            .reading = -1};
        if (upto != NULL && upto->id == e.id) {
            e.cause = upto->about;
            e.by = upto->by;
            e.note = upto->note;
        }
        if (defects_add(ds, &e))
            return -1;
    }
    return 0;
}

/* What the ledger says of a void is on the record that it voids, and the void
 * itself may be left out of the list: so the voids are put back to where they
 * were entered. */
int
defects_read(
    struct defects *ds, struct arena *a, const struct record *records, size_t n)
{
    struct void_of *voids = calloc(n + 1, sizeof *voids);
    size_t n_voids = 0;
    size_t next = 0;
    int result = voids ? 0 : -1;

    for (size_t i = 0; result == 0 && i < n; i++)
        if (records[i].voided_by != 0 && kind_of(&records[i]) >= 0)
            voids[n_voids++] =
                (struct void_of){records[i].voided_by, records[i].id};
    if (n_voids > 1)
        qsort(voids, n_voids, sizeof *voids, by_void);
    for (size_t i = 0; result == 0 && i < n; i++) {
        result = add_voids(ds, voids, n_voids, &next, &records[i]);
        if (result == 0 && kind_of(&records[i]) >= 0)
            result = add(ds, a, &records[i]);
    }
    if (result == 0)
        result = add_voids(ds, voids, n_voids, &next, NULL);
    free(voids);
    return result;
}
