#include "stamp.h"

#include "query.h"

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
stamp_event(struct ledger *l, const char *uid,
    const unsigned char hash[STAMP_HASH], int64_t now, struct stamp *out,
    struct fault *f)
{
    struct query same = query_start(l, PUBLISHED_SAME);

    query_text(&same, uid);
    query_bytes(&same, hash, STAMP_HASH);
    int row = take_stamp(&same, out, f);
    if (row != 0)
        return row > 0 ? 0 : -1;
    struct query change = query_start(l, PUBLISHED_CHANGE);
    query_text(&change, uid);
    query_bytes(&change, hash, STAMP_HASH);
    query_int(&change, now);
    return take_stamp(&change, out, f) > 0 ? 0 : -1;
}
