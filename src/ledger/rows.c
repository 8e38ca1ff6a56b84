#include "rows.h"

#include "arena.h"

int64_t
query_int_at(const struct query *q, int column)
{
    return sqlite3_column_int64(q->statement, column);
}

day_t
query_day_at(const struct query *q, int column)
{
    int64_t n = query_int_at(q, column);

    if (query_null_at(q, column) || n < DAY_FIRST || n > DAY_LAST)
        return DAY_NONE;
    return (day_t)n;
}

int
query_kind_at(const struct query *q, int column)
{
    const char *text = (const char *)sqlite3_column_text(q->statement, column);

    return text != NULL ? record_kind_find(text) : -1;
}

int
query_null_at(const struct query *q, int column)
{
    return sqlite3_column_type(q->statement, column) == SQLITE_NULL;
}

int
query_text_at(
    const struct query *q, int column, struct arena *a, const char **out)
{
    const void *bytes = sqlite3_column_blob(q->statement, column);

    *out = NULL;
    if (bytes == NULL && query_null_at(q, column))
        return 0;
    int n = sqlite3_column_bytes(q->statement, column);
    if (bytes == NULL && n > 0)
        return -1;
    *out = arena_text(a, bytes, (size_t)n);
    return *out == NULL ? -1 : 0;
}

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
