#include "edition.h"

#include "query.h"

int
edition_find(
    struct ledger *l, const char *feed, struct edition *e, struct fault *f)
{
    struct query q = query_start(l, EDITION_FIND);

    query_text(&q, feed);
    query_bytes(&q, e->hash, EDITION_HASH);
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
edition_keep(struct ledger *l, const char *feed, const struct edition *e,
    struct fault *f)
{
    struct query q = query_start(l, EDITION_KEEP);

    query_text(&q, feed);
    query_bytes(&q, e->hash, EDITION_HASH);
    query_int(&q, e->dues);
    query_int(&q, e->left_out);
    query_int(&q, e->size);
    query_int(&q, e->written);
    return query_run(&q, f);
}
