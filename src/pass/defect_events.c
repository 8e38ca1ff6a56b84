#include "defect_events.h"

#include "from_records.h"
#include "records.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

#define VALUES_MOST 12

/* The kinds of events that are entered here, and their records. */
static const struct {
    enum record_kind record;
    enum defect_kind event;
} kinds[] = {{RECORD_CHECKED, EVENT_CHECKED}, {RECORD_REPORTED, EVENT_REPORTED},
    {RECORD_ASSESSED, EVENT_ASSESSED}, {RECORD_REPAIRED, EVENT_REPAIRED},
    {RECORD_RELEASED, EVENT_RELEASED}};

/* What the life of defects follows from, but for the moves and the failures,
 * which dues need too and which are known already. */
#define FOLDED                                                                 \
    (RECORD_BIT(RECORD_REPORTED) | RECORD_BIT(RECORD_ASSESSED) |               \
        RECORD_BIT(RECORD_REPAIRED) | RECORD_BIT(RECORD_RELEASED))

static int
in_order_of_entry(const void *left, const void *right)
{
    const struct record *a = left;
    const struct record *b = right;

    return (a->id > b->id) - (a->id < b->id);
}

struct record *
defect_events_records(const struct run_context *p, size_t *n, struct fault *f)
{
    const struct facts *facts = run_facts(p);
    size_t last = facts->first[facts->fleet->n_subjects];
    struct record *records;

    if (records_of_kinds(
            run_ledger(p), run_fleet(p), FOLDED, run_arena(p), &records, n, f))
        return NULL;
    struct record *all =
        arena_take(run_arena(p), (*n + last + 1) * sizeof *all);
    if (all == NULL) {
        fault_fill(f, EX_OSERR, "out of memory");
        return NULL;
    }
    if (*n > 0)
        memcpy(all, records, *n * sizeof *all);
    for (size_t i = 0; i < last; i++)
        if (facts->records[i].kind == RECORD_MOVED ||
            facts->records[i].kind == RECORD_FAILED)
            all[(*n)++] = facts->records[i];
    if (*n > 1)
        qsort(all, *n, sizeof *all, in_order_of_entry);
    return all;
}

struct defects *
defect_events_fold(const struct run_context *p, struct fault *f)
{
    size_t n;
    struct record *records = defect_events_records(p, &n, f);
    struct defects *ds = records ? defects_new(run_fleet(p)) : NULL;

    if (ds != NULL && defects_read(ds, run_arena(p), records, n) == 0)
        return ds;
    defects_free(ds);
    if (records != NULL)
        fault_fill(f, EX_OSERR, "out of memory");
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
        int len =
            snprintf(digits, sizeof digits, "%lld", (long long)e->answered[i]);
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
        put_list(&r, values, "reported", more->reported, more->n_reported);
    }
    if (is_report) {
        put_text(&r, values, "item", e->item);
        put_text(&r, values, "grade", sheet_grade_word(e->grade));
        put_number(&r, values, "number", e->number, e->number > 0);
        put_number(
            &r, values, "check", e->cause, e->number == 0 && e->cause > 0);
    }
    if (e->kind == EVENT_ASSESSED) {
        put_text(&r, values, "verdict", defect_verdict_word(e->verdict));
        put_number(&r, values, "up-to", e->reading, e->reading >= 0);
    }
    return records_add(run_ledger(p), &r, &e->id, f);
}

const char *
defect_events_zone(const struct run_context *p, const struct subject *s)
{
    const struct depot *d = s ? fleet_depot(s) : NULL;

    return d ? d->time_zone : run_fleet(p)->site.time_zone;
}
