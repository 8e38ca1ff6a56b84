#include "event_version.h"

#include "query.h"
#include "rows.h"

static struct query
start(struct ledger *l, enum statement s, const struct event_version_of *e)
{
    struct query q = query_start(l, s);

    query_text(&q, e->feed);
    query_text(&q, e->uid);
    query_bytes(&q, e->hash, EVENT_VERSION_HASH);
    return q;
}

/* Take the stamp that the query answers with: as query_row(). */
static int
take_stamp(struct query *q, struct event_version *out, struct fault *f)
{
    int row = query_row(q, f);

    if (row > 0) {
        out->sequence = query_int_at(q, 0);
        out->modified = query_int_at(q, 1);
        row = query_run(q, f) == 0 ? 1 : -1;
    }
    return row;
}

int
event_version_next(struct ledger *l, const struct event_version_of *e,
    int64_t now, struct event_version *out, struct fault *f)
{
    struct query same = start(l, PUBLISHED_SAME, e);
    int row = take_stamp(&same, out, f);

    if (row != 0)
        return row > 0 ? 0 : -1;
    struct query change = start(l, PUBLISHED_CHANGE, e);
    query_int(&change, now);
    return take_stamp(&change, out, f) > 0 ? 0 : -1;
}

int
event_version_learn(struct ledger *l, const struct event_version_of *e,
    const struct event_version *seen, struct fault *f)
{
    struct query q = start(l, PUBLISHED_LEARN, e);

    query_int(&q, seen->sequence);
    query_int(&q, seen->modified);
    return query_run(&q, f);
}
