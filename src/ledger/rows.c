#include "rows.h"

#include "arena.h"

int
rows_take(struct query *q, struct arena *a, size_t size, rows_item *take,
    struct rows *out, struct fault *f)
{
    int row;

    *out = (struct rows){NULL, 0};
    while ((row = query_row(q, f)) > 0) {
        out->items = arena_one_more(a, out->items, out->n, size);
        int taken =
            out->items ? take(q, a, (char *)out->items + out->n * size) : -1;
        if (taken < 0) {
            query_end(q);
            return query_fault(q->ledger, SQLITE_NOMEM, f);
        }
        out->n += (size_t)taken;
    }
    return row;
}
