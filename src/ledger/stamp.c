#include "stamp.h"

#include "query.h"

static struct query
start(struct ledger *l, enum statement s, const struct stamp_of *e)
{
    struct query q = query_start(l, s);

    query_text(&q, e->feed);
    query_text(&q, e->uid);
    query_bytes(&q, e->hash, STAMP_HASH);
    return q;
}

/* Take the stamp that the query answers with: as query_row(). */
static int
take_stamp(struct query *q, struct stamp *out, struct fault *f)
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
stamp_event(struct ledger *l, const struct stamp_of *e, int64_t now,
    struct stamp *out, struct fault *f)
{
    struct query same = start(l, PUBLISHED_SAME, e);
    int row = take_stamp(&same, out, f);

    if (row != 0)
        return row > 0 ? 0 : -1;
    struct query change = start(l, PUBLISHED_CHANGE, e);
    query_day(&change, e->day);
    query_int(&change, now);
    return take_stamp(&change, out, f) > 0 ? 0 : -1;
}

int
stamp_day(struct ledger *l, const char *feed, const char *uid, day_t *out,
    struct fault *f)
{
    struct query q = query_start(l, PUBLISHED_DAY);

    *out = DAY_NONE;
    query_text(&q, feed);
    query_text(&q, uid);
    int row = query_row(&q, f);
    if (row <= 0)
        return row;
    *out = query_day_at(&q, 0);
    return query_run(&q, f);
}

int
stamp_learn(struct ledger *l, const struct stamp_of *e,
    const struct stamp *seen, struct fault *f)
{
    struct query q = start(l, PUBLISHED_LEARN, e);

    query_day(&q, e->day);
    query_int(&q, seen->sequence);
    query_int(&q, seen->modified);
    return query_run(&q, f);
}
