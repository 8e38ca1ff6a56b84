#include "trouble.h"

#include "rows.h"

static int
take(const struct query *q, struct arena *a, void *at)
{
    struct trouble *t = at;

    t->told = query_day_at(q, 2);
    return query_text_at(q, 0, a, &t->about) || query_text_at(q, 1, a, &t->says)
               ? -1
               : 1;
}

int
trouble_list(struct ledger *l, struct arena *a, struct trouble **out, size_t *n,
    struct fault *f)
{
    struct query q = query_start(l, TROUBLES);
    struct rows rows;
    int rc = rows_take(&q, a, sizeof **out, take, &rows, f);

    *out = rows.items;
    *n = rows.n;
    return rc;
}

int
trouble_keep(struct ledger *l, const struct trouble *t, struct fault *f)
{
    struct query q = query_start(l, TROUBLE_KEEP);

    query_text(&q, t->about);
    query_text(&q, t->says);
    query_day(&q, t->told);
    return query_run(&q, f);
}

int
trouble_drop(struct ledger *l, const char *about, struct fault *f)
{
    struct query q = query_start(l, TROUBLE_DROP);

    query_text(&q, about);
    return query_run(&q, f);
}
