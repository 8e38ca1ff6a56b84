#include "outbox.h"

#include "ledger.h"
#include "rows.h"

#include <sysexits.h>

static int
add_message(struct ledger *l, const struct outbox_message *m, struct fault *f)
{
    struct query q = query_start(l, OUTBOX_ADD);

    query_text(&q, m->person);
    query_text(&q, m->message_id);
    query_text(&q, m->recipient);
    query_bytes(&q, m->bytes, m->len);
    query_int(&q, m->created);
    return query_run(&q, f);
}

static int
add_told(struct ledger *l, const struct sent_reminder *t, int64_t message,
    struct fault *f)
{
    struct query q = query_start(l, TOLD_ADD);

    query_text(&q, t->subject);
    query_text(&q, t->job);
    query_text(&q, t->cycle);
    query_text(&q, t->person);
    query_text(&q, t->stage);
    query_day(&q, t->deadline);
    query_int(&q, message);
    return query_run(&q, f);
}

static int
add_all(struct ledger *l, const struct outbox_message *m,
    const struct sent_reminder *told, size_t n_told, struct fault *f)
{
    if (add_message(l, m, f) != 0)
        return -1;
    int64_t message = sqlite3_last_insert_rowid(l->db);
    for (size_t i = 0; i < n_told; i++)
        if (add_told(l, &told[i], message, f) != 0)
            return -1;
    return 0;
}

int
outbox_add(struct ledger *l, const struct outbox_message *m,
    const struct sent_reminder *told, size_t n_told, struct fault *f)
{
    if (ledger_begin(l, f) != 0)
        return -1;
    if (add_all(l, m, told, n_told, f) == 0)
        return ledger_commit(l, f);
    ledger_rollback(l);
    return -1;
}

static int
take_message(const struct query *q, struct arena *a, void *at)
{
    struct outbox_message *m = at;

    m->id = query_int_at(q, 0);
    m->len = (size_t)sqlite3_column_bytes(q->statement, 4);
    m->created = query_int_at(q, 5);
    m->attempts = (int)query_int_at(q, 6);
    m->tried = query_int_at(q, 7);
    m->next_try = query_int_at(q, 9);
    m->gave_up = query_int_at(q, 10);
    m->dropped = query_int_at(q, 11);
    if (query_text_at(q, 1, a, &m->person) != 0 ||
        query_text_at(q, 2, a, &m->message_id) != 0 ||
        query_text_at(q, 3, a, &m->recipient) != 0 ||
        query_text_at(q, 4, a, &m->bytes) != 0 ||
        query_text_at(q, 8, a, &m->error) != 0 ||
        query_text_at(q, 12, a, &m->note) != 0)
        return -1;
    return 1;
}

/* All rows of @which in @a. */
static int
take_all(struct ledger *l, enum statement which, struct arena *a,
    struct outbox_message **out, size_t *n, struct fault *f)
{
    struct query q = query_start(l, which);
    struct rows rows;
    int rc = rows_take(&q, a, sizeof **out, take_message, &rows, f);

    *out = rows.items;
    *n = rows.n;
    return rc;
}

int
outbox_open(struct ledger *l, struct arena *a, struct outbox_message **out,
    size_t *n, struct fault *f)
{
    return take_all(l, OUTBOX_OPEN, a, out, n, f);
}

int
outbox_dropped(struct ledger *l, struct arena *a, struct outbox_message **out,
    size_t *n, struct fault *f)
{
    return take_all(l, OUTBOX_DROPPED, a, out, n, f);
}

/* Run what returns the id of the one message it changed. */
static int
change_one(struct ledger *l, struct query *q, int64_t id, struct fault *f)
{
    int row = query_row(q, f);

    if (row == 0)
        return fault_set(f, EX_DATAERR,
            "%s: there is no message %lld that is neither sent nor dropped",
            l->path, (long long)id);
    return row < 0 ? -1 : query_run(q, f);
}

int
outbox_try(struct ledger *l, int64_t id, int64_t when, int64_t next,
    const char *if_lost, struct fault *f)
{
    struct query q = query_start(l, OUTBOX_TRY);

    query_int(&q, id);
    query_int(&q, when);
    query_int(&q, next);
    query_text(&q, if_lost);
    return change_one(l, &q, id, f);
}

int
outbox_sent(struct ledger *l, int64_t id, int64_t when, struct fault *f)
{
    struct query q = query_start(l, OUTBOX_SENT);

    query_int(&q, id);
    query_int(&q, when);
    return query_run(&q, f);
}

int
outbox_failed(struct ledger *l, int64_t id, const char *error, struct fault *f)
{
    struct query q = query_start(l, OUTBOX_FAILED);

    query_int(&q, id);
    query_text(&q, error);
    return query_run(&q, f);
}

int
outbox_give_up(struct ledger *l, int64_t id, int64_t when, const char *error,
    struct fault *f)
{
    struct query q = query_start(l, OUTBOX_GIVE_UP);

    query_int(&q, id);
    query_int(&q, when);
    query_text(&q, error);
    return query_run(&q, f);
}

int
outbox_drop(struct ledger *l, int64_t id, int64_t when, const char *note,
    struct fault *f)
{
    struct query q = query_start(l, OUTBOX_DROP);

    query_int(&q, id);
    query_int(&q, when);
    query_text(&q, note);
    return change_one(l, &q, id, f);
}
