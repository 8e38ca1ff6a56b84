#include "record_reader.h"
#include "rows.h"

#include "arena.h"
#include "body.h"
#include "lookup.h"
#include "string_pool.h"

#include <string.h>
#include <sysexits.h>

/* More records than that at once, and the list grows by doubling. */
#define FIRST_ROOM (1 << 20)

/* --- texts ---------------------------------------------------------------- */

/* The word in that column, NULL for NULL: a result code of SQLite. */
static int
word_at(const struct query *q, int column, struct string_pool *words,
    struct word **out, int *is_new)
{
    const void *bytes = sqlite3_column_blob(q->statement, column);

    *out = NULL;
    *is_new = 0;
    if (bytes == NULL && query_null_at(q, column))
        return SQLITE_OK;
    size_t n = (size_t)sqlite3_column_bytes(q->statement, column);
    if (bytes != NULL || n == 0)
        *out = string_pool_get(words, bytes ? bytes : "", n, is_new);
    return *out != NULL ? SQLITE_OK : SQLITE_NOMEM;
}

/* The id in that column, and what it stands for. */
static int
id_at(const struct query *q, int column, struct ids *ids, const char **id,
    const void **thing)
{
    struct word *word;
    int is_new;
    int code = word_at(q, column, ids->seen, &word, &is_new);

    if (word == NULL)
        return code;
    if (is_new)
        word->thing = lookup_find(ids->known, word->text);
    *id = word->text;
    *thing = word->thing;
    return SQLITE_OK;
}

static int
take_ids(struct record_reader *in, const struct query *q, struct record *r)
{
    const void *subject = NULL;
    const void *other = NULL;
    const void *job = NULL;
    int code = id_at(q, 2, &in->subjects, &r->subject_id, &subject);

    if (code == SQLITE_OK)
        code = id_at(q, 3, &in->jobs, &r->job_id, &job);
    if (code == SQLITE_OK)
        code = id_at(q, 12, &in->subjects, &r->other_id, &other);
    r->subject = subject;
    r->other = other;
    r->job = job;
    return code;
}

static int
take_texts(struct record_reader *in, const struct query *q, struct record *r)
{
    struct word *by;
    int is_new;
    int code = word_at(q, 9, in->people, &by, &is_new);

    if (by != NULL)
        r->by = by->text;
    if (code == SQLITE_OK &&
        (query_text_at(q, 10, in->arena, &r->reference) != 0 ||
            query_text_at(q, 11, in->arena, &r->note) != 0))
        return SQLITE_NOMEM;
    return code;
}

/* --- records -------------------------------------------------------------- */

static enum meter
meter_at(const struct query *q, int column)
{
    const char *text = (const char *)sqlite3_column_text(q->statement, column);

    if (text == NULL)
        return METER_NONE;
    return strcmp(text, query_meter_word(METER_HOURS)) == 0 ? METER_HOURS
                                                            : METER_DISTANCE;
}

/* Fill in @r from the row at hand: a result code of SQLite. */
static int
take_row(struct record_reader *in, const struct query *q, struct record *r)
{
    r->id = query_int_at(q, 0);
    r->day = query_day_at(q, 4);
    if (r->day == DAY_NONE)
        return SQLITE_CORRUPT; /* the table's own checks were passed by */
    r->kind = (enum record_kind)query_kind_at(q, 1);
    r->until = query_day_at(q, 5);
    r->meter = meter_at(q, 6);
    r->reading = query_null_at(q, 7) ? -1 : query_int_at(q, 7);
    r->entered = query_int_at(q, 8);
    r->about = query_int_at(q, 13);
    int code = take_ids(in, q, r);
    if (code == SQLITE_OK)
        code = take_texts(in, q, r);
    return code;
}

struct record *
record_reader_add(struct record_reader *in, struct fault *f)
{
    if (in->n == in->room) {
        size_t room = in->room == 0 ? 256 : 2 * in->room;
        void *grown = arena_grow(
            in->arena, in->records, in->n, room, sizeof *in->records);
        if (grown == NULL) {
            query_fault(in->ledger, SQLITE_NOMEM, f);
            return NULL;
        }
        in->records = grown;
        in->room = room;
    }
    return &in->records[in->n++];
}

struct record *
record_reader_take(
    struct record_reader *in, const struct query *q, struct fault *f)
{
    struct record *r = record_reader_add(in, f);

    if (r == NULL)
        return NULL;
    if (query_kind_at(q, 1) < 0) {
        fault_fill(f, EX_CONFIG,
            "%s: record %lld is of a kind that this program does not know: "
            "install the newer ostler that wrote it",
            in->ledger->path, (long long)query_int_at(q, 0));
        return NULL;
    }
    int code = take_row(in, q, r);
    if (code != SQLITE_OK) {
        query_fault(in->ledger, code, f);
        return NULL;
    }
    if (!query_null_at(q, 14) && body_read(q, 14, in->arena, r, f) != 0)
        return NULL;
    return r;
}

int
record_reader_take_all(
    struct record_reader *in, struct query *q, struct fault *f)
{
    int row;

    while ((row = query_row(q, f)) > 0)
        if (record_reader_take(in, q, f) == NULL) {
            query_end(q);
            return -1;
        }
    return row;
}

/* --- what it needs at hand ------------------------------------------------ */

static int
get_ready(struct record_reader *in, const struct fleet *fleet)
{
    in->subjects =
        (struct ids){lookup_new(fleet->n_subjects), string_pool_new(in->arena)};
    in->jobs =
        (struct ids){lookup_new(fleet->n_jobs), string_pool_new(in->arena)};
    in->people = string_pool_new(in->arena);
    if (!in->subjects.known || !in->subjects.seen || !in->jobs.known ||
        !in->jobs.seen || !in->people)
        return -1;
    for (size_t i = 0; i < fleet->n_subjects; i++)
        lookup_add(
            in->subjects.known, fleet->subjects[i].id, &fleet->subjects[i]);
    for (size_t i = 0; i < fleet->n_jobs; i++)
        lookup_add(in->jobs.known, fleet->jobs[i].id, &fleet->jobs[i]);
    return 0;
}

/* Room for all records there are, by the number of the last: what is not used
 * of it is never touched and costs nothing. */
static int
take_room(struct record_reader *in, struct fault *f)
{
    struct query q = query_start(in->ledger, RECORD_LAST);
    int row = query_row(&q, f);

    if (row <= 0)
        return row;
    int64_t last = query_int_at(&q, 0);
    query_end(&q);
    in->room = last > FIRST_ROOM ? FIRST_ROOM : (size_t)last;
    in->records = arena_take(in->arena, in->room * sizeof *in->records);
    return in->records ? 0 : query_fault(in->ledger, SQLITE_NOMEM, f);
}

int
record_reader_start(struct record_reader *in, struct ledger *l,
    const struct fleet *fleet, struct arena *a, struct fault *f)
{
    *in = (struct record_reader){.ledger = l, .arena = a};
    return get_ready(in, fleet) == 0 ? take_room(in, f)
                                     : query_fault(l, SQLITE_NOMEM, f);
}

void
record_reader_end(struct record_reader *in)
{
    lookup_free(in->subjects.known);
    string_pool_free(in->subjects.seen);
    lookup_free(in->jobs.known);
    string_pool_free(in->jobs.seen);
    string_pool_free(in->people);
}
