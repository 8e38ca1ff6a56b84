#include "records.h"

#include "arena.h"
#include "lookup.h"
#include "query.h"
#include "words.h"

#include <string.h>

/* More records than that at once, and the list grows by doubling. */
#define FIRST_ROOM (1 << 20)

/* Ids as they are written in the ledger, with what they stand for. */
struct ids {
    struct lookup *known; /* by the fleet file */
    struct words *seen;
};

/* Reading all records: what it needs at hand, and what it has so far. */
struct reader {
    struct ledger *ledger;
    struct arena *arena;
    struct ids subjects;
    struct ids jobs;
    struct words *people;
    struct query rows;
    struct query voidings; /* by the record that they void */
    int64_t voided;        /* the next of these, or 0 */
    struct record *records;
    size_t n;
    size_t room;
};

/* --- texts ---------------------------------------------------------------- */

/* The word in that column, NULL for NULL: a result code of SQLite. */
static int
word_at(const struct query *q, int column, struct words *words,
    struct word **out, int *is_new)
{
    const void *bytes = sqlite3_column_blob(q->statement, column);

    *out = NULL;
    *is_new = 0;
    if (bytes == NULL && query_null_at(q, column))
        return SQLITE_OK;
    size_t n = (size_t)sqlite3_column_bytes(q->statement, column);
    if (bytes != NULL || n == 0)
        *out = words_get(words, bytes ? bytes : "", n, is_new);
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
take_ids(struct reader *in, struct record *r)
{
    const void *subject = NULL;
    const void *other = NULL;
    const void *job = NULL;
    int code = id_at(&in->rows, 2, &in->subjects, &r->subject_id, &subject);

    if (code == SQLITE_OK)
        code = id_at(&in->rows, 3, &in->jobs, &r->job_id, &job);
    if (code == SQLITE_OK)
        code = id_at(&in->rows, 12, &in->subjects, &r->other_id, &other);
    r->subject = subject;
    r->other = other;
    r->job = job;
    return code;
}

static int
take_texts(struct reader *in, struct record *r)
{
    struct word *by;
    int is_new;
    int code = word_at(&in->rows, 9, in->people, &by, &is_new);

    if (by != NULL)
        r->by = by->text;
    if (code == SQLITE_OK &&
        (query_text_at(&in->rows, 10, in->arena, &r->reference) != 0 ||
            query_text_at(&in->rows, 11, in->arena, &r->note) != 0))
        return SQLITE_NOMEM;
    return code;
}

/* --- records -------------------------------------------------------------- */

static int
kind_at(const struct query *q, int column)
{
    const char *text = (const char *)sqlite3_column_text(q->statement, column);

    for (int i = 0; text != NULL && i < RECORD_KINDS; i++)
        if (strcmp(record_kind_word((enum record_kind)i), text) == 0)
            return i;
    return -1;
}

static enum meter
meter_at(const struct query *q, int column)
{
    const char *text = (const char *)sqlite3_column_text(q->statement, column);

    if (text == NULL)
        return METER_NONE;
    return strcmp(text, query_meter_word(METER_HOURS)) == 0 ? METER_HOURS
                                                            : METER_DISTANCE;
}

/* Go to the next voiding: 0, or -1 with the fault set. */
static int
next_voiding(struct reader *in, struct fault *f)
{
    int row = query_row(&in->voidings, f);

    in->voided = row > 0 ? query_int_at(&in->voidings, 0) : 0;
    return row < 0 ? -1 : 0;
}

/* Both queries go up by the number of the record, so that one look at a time
 * finds what voids it. */
static int
take_voiding(struct reader *in, struct record *r, struct fault *f)
{
    while (in->voided != 0 && in->voided < r->id)
        if (next_voiding(in, f) != 0)
            return -1;
    if (in->voided != r->id)
        return 0;
    r->voided_by = query_int_at(&in->voidings, 1);
    if (query_text_at(&in->voidings, 2, in->arena, &r->voided_note) != 0)
        return query_fault(in->ledger, SQLITE_NOMEM, f);
    return 0;
}

/* Fill in @r from the row at hand: a result code of SQLite. */
static int
take_row(struct reader *in, struct record *r)
{
    const struct query *q = &in->rows;
    int kind = kind_at(q, 1);

    r->id = query_int_at(q, 0);
    r->day = query_day_at(q, 4);
    if (kind < 0 || r->day == DAY_NONE)
        return SQLITE_CORRUPT; /* the table's own checks were passed by */
    r->kind = (enum record_kind)kind;
    r->until = query_day_at(q, 5);
    r->meter = meter_at(q, 6);
    r->reading = query_null_at(q, 7) ? -1 : query_int_at(q, 7);
    r->entered = query_int_at(q, 8);
    int code = take_ids(in, r);
    return code == SQLITE_OK ? take_texts(in, r) : code;
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
take_record(struct reader *in, struct fault *f)
{
    struct record *r = room_for_one(in);
    int code = r == NULL ? SQLITE_NOMEM : take_row(in, r);

    if (code != SQLITE_OK)
        return query_fault(in->ledger, code, f);
    return take_voiding(in, r, f);
}

/* Take room for all records at once, by the number of the last. */
static int
take_room(struct reader *in, struct fault *f)
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

static int
take_all(struct reader *in, struct fault *f)
{
    int row = -1;

    in->voidings = query_start(in->ledger, VOIDINGS);
    in->rows = query_start(in->ledger, RECORDS_ALL);
    if (next_voiding(in, f) == 0 && take_room(in, f) == 0)
        while ((row = query_row(&in->rows, f)) > 0)
            if (take_record(in, f) != 0)
                break;
    query_end(&in->rows);
    query_end(&in->voidings);
    return row == 0 ? 0 : -1;
}

/* --- what it needs at hand ------------------------------------------------ */

static int
get_ready(struct reader *in, const struct fleet *fleet)
{
    in->subjects =
        (struct ids){lookup_new(fleet->n_subjects), words_new(in->arena)};
    in->jobs = (struct ids){lookup_new(fleet->n_jobs), words_new(in->arena)};
    in->people = words_new(in->arena);
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

static void
put_away(struct reader *in)
{
    lookup_free(in->subjects.known);
    words_free(in->subjects.seen);
    lookup_free(in->jobs.known);
    words_free(in->jobs.seen);
    words_free(in->people);
}

int
records_read(struct ledger *l, const struct fleet *fleet, struct arena *a,
    struct record **out, size_t *n, struct fault *f)
{
    struct reader in = {.ledger = l, .arena = a};
    int result = get_ready(&in, fleet) == 0 ? take_all(&in, f)
                                            : query_fault(l, SQLITE_NOMEM, f);

    *out = in.records;
    *n = in.n;
    put_away(&in);
    return result;
}
