#include "trouble.h"

#include "arena.h"
#include "query.h"

static int
take(const struct query *q, struct arena *a, struct trouble *t)
{
    t->told = query_day_at(q, 2);
    return query_text_at(q, 0, a, &t->about) || query_text_at(q, 1, a, &t->says)
               ? -1
               : 0;
}

int
trouble_list(struct ledger *l, struct arena *a, struct trouble **out, size_t *n,
    struct fault *f)
{
    struct query q = query_start(l, TROUBLES);
    struct trouble *list = NULL;
    size_t had = 0;
    int row;

    while ((row = query_row(&q, f)) > 0) {
        /* At 0, 1, 2, 4, 8 ... it is full. */
        if ((had & (had - 1)) == 0)
            list =
                arena_grow(a, list, had, had == 0 ? 1 : 2 * had, sizeof *list);
        if (list == NULL || take(&q, a, &list[had]) != 0) {
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
