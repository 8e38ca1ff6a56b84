#include "defect_events.h"

#include "clock.h"
#include "records.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

#define VALUES_MOST 10

/* The kinds of records that the life of defects follows from, and the events
 * that they are.  Moves are among what dues need, and known already. */
static const struct {
    enum record_kind record;
    enum defect_kind event;
} kinds[] = {{RECORD_CHECKED, EVENT_CHECKED}, {RECORD_REPORTED, EVENT_REPORTED},
    {RECORD_ASSESSED, EVENT_ASSESSED}, {RECORD_REPAIRED, EVENT_REPAIRED},
    {RECORD_RELEASED, EVENT_RELEASED}, {RECORD_MOVED, EVENT_MOVED}};

#define FOLDED                                                                 \
    (RECORD_BIT(RECORD_REPORTED) | RECORD_BIT(RECORD_ASSESSED) |               \
        RECORD_BIT(RECORD_REPAIRED) | RECORD_BIT(RECORD_RELEASED))

/* The place in the table of a kind of record, or -1. */
static int
place_of(enum record_kind kind)
{
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        if (kinds[i].record == kind)
            return (int)i;
    return -1;
}

static int64_t
number_in(const struct record *r, const char *word, int64_t otherwise)
{
    const struct record_value *v = record_value(r, word);

    return v ? v->number : otherwise;
}

/* The numbers of the defects that a check answers. */
static int
take_answered(
    const struct record *r, struct arena *a, struct defect_event *out)
{
    const struct record_value *v = record_value(r, "answered");
    int64_t *numbers;

    if (v == NULL)
        return 0;
    if ((numbers = arena_take(a, (v->n_items + 1) * sizeof *numbers)) == NULL)
        return -1;
    for (size_t i = 0; i < v->n_items; i++)
        numbers[i] = strtoll(v->items[i], NULL, 10);
    out->answered = numbers;
    out->n_answered = v->n_items;
    return 0;
}

/* A word that is none of its list was written by a newer program. */
static int
take_words(const struct record *r, struct defect_event *out, struct fault *f)
{
    const char *grade = record_text(r, "grade");
    const char *verdict = record_text(r, "verdict");
    int g = grade ? sheet_grade_find(grade) : GRADE_MINOR;
    int v = verdict ? defect_verdict_find(verdict) : VERDICT_STOP;

    if (g < 0 || v < 0)
        return fault_set(f, EX_CONFIG,
            "record %lld says '%s', which this program does not know: install "
            "the newer ostler that wrote it",
            (long long)r->id, g < 0 ? grade : verdict);
    out->grade = (enum grade)g;
    out->verdict = (enum defect_verdict)v;
    return 0;
}

int
defect_event_of(const struct record *r, struct arena *a,
    struct defect_event *out, struct fault *f)
{
    int place = place_of(r->kind);
    int64_t at = number_in(r, "at", -1);
    int opens = number_in(r, "number", 0) > 0;

    *out = (struct defect_event){
        .kind = kinds[place < 0 ? 0 : place].event,
        .id = r->id,
        .voided_by = r->voided_by,
        .about = opens || r->kind == RECORD_MOVED ? 0 : r->about,
        .cause = opens ? r->about : number_in(r, "check", 0),
        .at = {r->day, at < 0 ? 0 : (int)at},
        .whole_day = at < 0,
        .by = r->by,
        .note = r->note,
        .alone = number_in(r, "alone", 0) != 0,
        .paper = record_text(r, "paper") != NULL,
        .subject_id = r->subject_id,
        .subject = r->subject,
        .other = r->other,
        .item = record_text(r, "item"),
        .number = number_in(r, "number", 0),
        .until = r->until,
        .reading = number_in(r, "distance", -1),
    };
    if (take_words(r, out, f))
        return -1;
    if (take_answered(r, a, out))
        return fault_set(f, EX_OSERR, "out of memory");
    return 0;
}

static int
in_order_of_entry(const void *left, const void *right)
{
    const struct record *const *a = left;
    const struct record *const *b = right;

    return ((*a)->id > (*b)->id) - ((*a)->id < (*b)->id);
}

/* The moves among the facts and the @n records of defects, in the order of
 * entry.  What was moved by a voided record has not been moved. */
static const struct record **
merged(const struct run_context *p, const struct record *records, size_t *n)
{
    const struct facts *facts = run_facts(p);
    size_t last = facts->first[facts->fleet->n_subjects];
    const struct record **all =
        arena_take(run_arena(p), (*n + last + 1) * sizeof *all);
    size_t count = 0;

    if (all == NULL)
        return NULL;
    for (size_t i = 0; i < last; i++)
        if (facts->records[i].kind == RECORD_MOVED)
            all[count++] = &facts->records[i];
    for (size_t i = 0; i < *n; i++)
        all[count++] = &records[i];
    qsort(all, count, sizeof *all, in_order_of_entry);
    *n = count;
    return all;
}

struct defects *
defect_events_fold(const struct run_context *p, struct fault *f)
{
    struct record *records;
    const struct record **all;
    size_t n;
    struct defect_event e;

    if (records_of_kinds(run_ledger(p), run_fleet(p), FOLDED, run_arena(p),
            &records, &n, f))
        return NULL;
    struct defects *ds = defects_new(run_fleet(p));
    if (ds == NULL || (all = merged(p, records, &n)) == NULL)
        goto no_memory;
    for (size_t i = 0; i < n; i++) {
        if (defect_event_of(all[i], run_arena(p), &e, f))
            goto failed;
        if (defects_add(ds, &e))
            goto no_memory;
    }
    return ds;
no_memory:
    fault_fill(f, EX_OSERR, "out of memory");
failed:
    defects_free(ds);
    return NULL;
}

/* Append the value to those of @r when it is there. */
static void
put(struct record *r, struct record_value *values, int is_there,
    struct record_value v)
{
    if (is_there)
        values[r->n_values++] = v;
    r->values = values;
}

static void
put_text(struct record *r, struct record_value *values, const char *word,
    const char *text)
{
    put(r, values, text != NULL,
        (struct record_value){.word = word, .text = text});
}

static void
put_number(struct record *r, struct record_value *values, const char *word,
    int64_t n, int is_there)
{
    put(r, values, is_there, (struct record_value){.word = word, .number = n});
}

static void
put_list(struct record *r, struct record_value *values, const char *word,
    const char *const *items, size_t n)
{
    put(r, values, n > 0,
        (struct record_value){.word = word, .items = items, .n_items = n});
}

/* The numbers that are answered, as texts for the list of the body. */
static const char *const *
number_texts(const struct defect_event *e, struct arena *a)
{
    const char **texts = arena_take(a, (e->n_answered + 1) * sizeof *texts);
    char digits[24];

    for (size_t i = 0; texts != NULL && i < e->n_answered; i++) {
        int len = snprintf(
            digits, sizeof digits, "%lld", (long long)e->answered[i]);
        if ((texts[i] = arena_text(a, digits, (size_t)len)) == NULL)
            return NULL;
    }
    return texts;
}

int
defect_event_add(const struct run_context *p, struct defect_event *e,
    const struct defect_event_more *more, struct fault *f)
{
    struct record_value values[VALUES_MOST];
    const char *const *answered = number_texts(e, run_arena(p));
    int is_check = e->kind == EVENT_CHECKED;
    int is_report = e->kind == EVENT_REPORTED;
    enum record_kind kind = RECORD_VOIDED;

    if (answered == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        if (kinds[i].event == e->kind)
            kind = kinds[i].record;
    struct record r = {.kind = kind,
        .subject = e->subject,
        .subject_id = e->subject_id,
        .day = e->at.day,
        .until = e->kind == EVENT_ASSESSED ? e->until : DAY_NONE,
        .reading = more->reading,
        .meter = more->reading >= 0 ? METER_DISTANCE : METER_NONE,
        .entered = run_moment(p).now,
        .about = is_report && e->number > 0 ? e->cause : e->about,
        .by = e->by,
        .reference = more->reference,
        .note = e->note};

    put_number(&r, values, "at", e->at.minute, !e->whole_day);
    put_number(&r, values, "alone", 1, e->alone);
    put_text(&r, values, "paper", more->paper);
    if (is_check) {
        put_text(&r, values, "sheet", more->sheet);
        put_number(&r, values, "nil", more->nil, 1);
        put_number(&r, values, "opened", more->opened, more->opened >= 0);
        put_number(&r, values, "end", more->end, more->end >= 0);
        put_list(&r, values, "items", more->items, more->n_items);
        put_list(&r, values, "answered", answered, e->n_answered);
    }
    if (is_report) {
        put_text(&r, values, "item", e->item);
        put_text(&r, values, "grade", sheet_grade_word(e->grade));
        put_number(&r, values, "number", e->number, e->number > 0);
        put_number(&r, values, "check", e->cause,
            e->number == 0 && e->cause > 0);
    }
    if (e->kind == EVENT_ASSESSED) {
        put_text(&r, values, "verdict", defect_verdict_word(e->verdict));
        put_number(&r, values, "distance", e->reading, e->reading >= 0);
    }
    return records_add(run_ledger(p), &r, &e->id, f);
}

const char *
defect_events_zone(const struct run_context *p, const struct subject *s)
{
    const struct depot *d = s ? fleet_depot(s) : NULL;

    return d ? d->time_zone : run_fleet(p)->site.time_zone;
}
