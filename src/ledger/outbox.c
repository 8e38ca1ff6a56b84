#include "outbox.h"

#include "arena.h"
#include "query.h"

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
add_told(
    struct ledger *l, const struct told *t, int64_t message, struct fault *f)
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
    const struct told *told, size_t n_told, struct fault *f)
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
    const struct told *told, size_t n_told, struct fault *f)
{
    if (ledger_begin(l, f) != 0)
        return -1;
    if (add_all(l, m, told, n_told, f) == 0)
        return ledger_commit(l, f);
    ledger_rollback(l);
    return -1;
}

/* Fill in @m from the row at hand: 0, or -1 when memory is out. */
static int
take_message(const struct query *q, struct arena *a, struct outbox_message *m)
{
    m->id = query_int_at(q, 0);
    m->len = (size_t)sqlite3_column_bytes(q->statement, 4);
    m->created = query_int_at(q, 5);
    m->attempts = (int)query_int_at(q, 6);
    m->tried = query_int_at(q, 7);
    if (query_text_at(q, 1, a, &m->person) != 0 ||
        query_text_at(q, 2, a, &m->message_id) != 0 ||
        query_text_at(q, 3, a, &m->recipient) != 0 ||
        query_text_at(q, 4, a, &m->bytes) != 0)
        return -1;
    return query_text_at(q, 8, a, &m->error);
}

int
outbox_waiting(struct ledger *l, struct arena *a, struct outbox_message **out,
    size_t *n, struct fault *f)
{
    struct query q = query_start(l, OUTBOX_WAITING);
    struct outbox_message *list = NULL;
    size_t had = 0;
    int row;

    while ((row = query_row(&q, f)) > 0) {
        /* At 0, 1, 2, 4, 8 ... it is full. */
        if ((had & (had - 1)) == 0)
            list =
                arena_grow(a, list, had, had == 0 ? 1 : 2 * had, sizeof *list);
        if (list == NULL || take_message(&q, a, &list[had]) != 0) {
            query_end(&q);
            return query_fault(l, SQLITE_NOMEM, f);
        }
        had++;
    }
    *out = list;
    *n = had;
    return row;
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
outbox_failed(struct ledger *l, int64_t id, int64_t when, const char *error,
    struct fault *f)
{
    struct query q = query_start(l, OUTBOX_FAILED);

    query_int(&q, id);
    query_int(&q, when);
    query_text(&q, error);
    return query_run(&q, f);
}
