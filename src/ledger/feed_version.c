#include "feed_version.h"

#include "query.h"
#include "rows.h"

int
feed_version_find(
    struct ledger *l, const char *feed, struct feed_version *e, struct fault *f)
{
    struct query q = query_start(l, FEED_VERSION_FIND);

    query_text(&q, feed);
    query_bytes(&q, e->hash, FEED_VERSION_HASH);
    int row = query_row(&q, f);
    if (row <= 0)
        return row;
    e->same = query_int_at(&q, 0) != 0;
    e->dues = query_int_at(&q, 1);
    e->left_out = query_int_at(&q, 2);
    e->size = query_int_at(&q, 3);
    e->written = query_int_at(&q, 4);
    return query_run(&q, f) == 0 ? 1 : -1;
}

int
feed_version_keep(struct ledger *l, const char *feed,
    const struct feed_version *e, struct fault *f)
{
    struct query q = query_start(l, FEED_VERSION_KEEP);

    query_text(&q, feed);
    query_bytes(&q, e->hash, FEED_VERSION_HASH);
    query_int(&q, e->dues);
    query_int(&q, e->left_out);
    query_int(&q, e->size);
    query_int(&q, e->written);
    return query_run(&q, f);
}
