#include "records.h"

#include "arena.h"
#include "lookup.h"
#include "query.h"

#include <string.h>
#include <sysexits.h>

#define VOIDED "voided"

static const char *const meters[] = {[METER_NONE] = NULL,
    [METER_DISTANCE] = "distance",
    [METER_HOURS] = "hours"};

/* Add @r under the word @kind, voiding @voids unless that is 0. */
static int
insert(struct ledger *l, const char *kind, const struct record *r,
    int64_t voids, struct fault *f)
{
    struct query q = query_start(l, RECORD_ADD);

    query_text(&q, kind);
    query_text(&q, r->subject_id);
    query_text(&q, r->job_id);
    query_day(&q, r->day);
    query_day(&q, r->until);
    if (r->reading < 0) {
        query_text(&q, NULL);
        query_text(&q, NULL);
    } else {
        query_text(&q, meters[r->meter]);
        query_int(&q, r->reading);
    }
    query_int(&q, r->entered);
    if (voids == 0)
        query_text(&q, NULL);
    else
        query_int(&q, voids);
    query_text(&q, r->by);
    query_text(&q, r->reference);
    query_text(&q, r->note);
    return query_run(&q, f);
}

int
records_add(
    struct ledger *l, const struct record *r, int64_t *id, struct fault *f)
{
    if (insert(l, record_kind_word(r->kind), r, 0, f) != 0)
        return -1;
    if (id != NULL)
        *id = sqlite3_last_insert_rowid(l->db);
    return 0;
}

/* Refuse a record that is not there or no longer stands. */
static int
must_stand(struct ledger *l, int64_t id, struct fault *f)
{
    struct query q = query_start(l, RECORD_STANDING);

    query_int(&q, id);
    int row = query_row(&q, f);
    if (row < 0)
        return -1;
    if (row == 0)
        return fault_set(f, EX_DATAERR,
            "%s: there is no record %lld: the history shows their numbers",
            l->path, (long long)id);
    int64_t by = query_int_at(&q, 0);
    query_end(&q);
    if (by != 0)
        return fault_set(f, EX_DATAERR,
            "%s: record %lld no longer stands, record %lld voided it", l->path,
            (long long)id, (long long)by);
    return 0;
}

/* Check and insert in one group, so that two who correct the same record at
 * once do not both succeed. */
static int
insert_voiding(struct ledger *l, const char *kind, const struct record *r,
    int64_t voids, struct fault *f)
{
    if (ledger_begin(l, f) != 0)
        return -1;
    if (must_stand(l, voids, f) == 0 && insert(l, kind, r, voids, f) == 0)
        return ledger_commit(l, f);
    ledger_rollback(l);
    return -1;
}

int
records_void(struct ledger *l, int64_t id, const char *by, const char *note,
    int64_t entered, struct fault *f)
{
    struct record r = {.day = DAY_NONE,
        .until = DAY_NONE,
        .reading = -1,
        .entered = entered,
        .by = by,
        .note = note};

    return insert_voiding(l, VOIDED, &r, id, f);
}

int
records_replace(struct ledger *l, int64_t old, const struct record *r,
    int64_t *id, struct fault *f)
{
    if (insert_voiding(l, record_kind_word(r->kind), r, old, f) != 0)
        return -1;
    if (id != NULL)
        *id = sqlite3_last_insert_rowid(l->db);
    return 0;
}

/* Reading all records: what it needs at hand, and what it has so far. */
struct reader {
    struct query query;
    struct arena *arena;
    struct lookup *subjects;
    struct lookup *jobs;
    struct record *records;
    size_t n;
    size_t room;
};

/* The index of the column's text among @n @words, or -1. */
static int
word_at(const struct query *q, int column, const char *const *words, int n)
{
    const char *text = (const char *)sqlite3_column_text(q->statement, column);

    for (int i = 0; text != NULL && i < n; i++)
        if (words[i] != NULL && strcmp(words[i], text) == 0)
            return i;
    return -1;
}

static int
kind_at(const struct query *q, int column)
{
    const char *words[RECORD_OFF_ROAD + 1];

    for (int i = 0; i <= RECORD_OFF_ROAD; i++)
        words[i] = record_kind_word((enum record_kind)i);
    return word_at(q, column, words, RECORD_OFF_ROAD + 1);
}

static int
take_texts(struct reader *in, struct record *r)
{
    const struct query *q = &in->query;

    if (query_text_at(q, 2, in->arena, &r->subject_id) != 0 ||
        query_text_at(q, 3, in->arena, &r->job_id) != 0 ||
        query_text_at(q, 9, in->arena, &r->by) != 0 ||
        query_text_at(q, 10, in->arena, &r->reference) != 0 ||
        query_text_at(q, 11, in->arena, &r->note) != 0 ||
        query_text_at(q, 13, in->arena, &r->voided_note) != 0)
        return SQLITE_NOMEM;
    r->subject = lookup_find(in->subjects, r->subject_id);
    r->job = lookup_find(in->jobs, r->job_id);
    return SQLITE_OK;
}

/* Fill in @r from the row at hand: a result code of SQLite. */
static int
take_record(struct reader *in, struct record *r)
{
    const struct query *q = &in->query;
    int kind = kind_at(q, 1);
    int meter = word_at(q, 6, meters, METER_HOURS + 1);

    r->id = query_int_at(q, 0);
    r->day = query_day_at(q, 4);
    if (kind < 0 || r->day == DAY_NONE)
        return SQLITE_CORRUPT; /* the table's own checks were passed by */
    r->kind = (enum record_kind)kind;
    r->until = query_day_at(q, 5);
    r->meter = meter < 0 ? METER_NONE : (enum meter)meter;
    r->reading = query_null_at(q, 7) ? -1 : query_int_at(q, 7);
    r->entered = query_int_at(q, 8);
    r->voided_by = query_int_at(q, 12);
    return take_texts(in, r);
}

static struct record *
room_for_one(struct reader *in)
{
    if (in->n == in->room) {
        size_t room = in->room == 0 ? 256 : 2 * in->room;
        void *grown = arena_grow(
            in->arena, in->records, in->n, room, sizeof *in->records);
        if (grown == NULL)
            return NULL;
        in->records = grown;
        in->room = room;
    }
    return &in->records[in->n++];
}

static int
take_all(struct ledger *l, struct reader *in, struct fault *f)
{
    int row;

    in->query = query_start(l, RECORDS_ALL);
    while ((row = query_row(&in->query, f)) > 0) {
        struct record *r = room_for_one(in);
        int code = r == NULL ? SQLITE_NOMEM : take_record(in, r);
        if (code != SQLITE_OK) {
            query_end(&in->query);
            return query_fault(l, code, f);
        }
    }
    return row;
}

int
records_read(struct ledger *l, const struct fleet *fleet, struct arena *a,
    struct record **out, size_t *n, struct fault *f)
{
    struct reader in = {.arena = a,
        .subjects = lookup_new(fleet->n_subjects),
        .jobs = lookup_new(fleet->n_jobs)};
    int result = -1;

    if (in.subjects == NULL || in.jobs == NULL) {
        query_fault(l, SQLITE_NOMEM, f);
        goto done;
    }
    for (size_t i = 0; i < fleet->n_subjects; i++)
        lookup_add(in.subjects, fleet->subjects[i].id, &fleet->subjects[i]);
    for (size_t i = 0; i < fleet->n_jobs; i++)
        lookup_add(in.jobs, fleet->jobs[i].id, &fleet->jobs[i]);
    result = take_all(l, &in, f);
    *out = in.records;
    *n = in.n;
done:
    lookup_free(in.subjects);
    lookup_free(in.jobs);
    return result;
}
