#ifndef ROWS_H
#define ROWS_H

#include "query.h"

struct arena;

/* Columns of the row: NULL is 0, DAY_NONE or a NULL text. */
int64_t query_int_at(const struct query *q, int column);
day_t query_day_at(const struct query *q, int column);
int query_kind_at(const struct query *q, int column); /* or -1 */
int query_null_at(const struct query *q, int column);

/* Copy a text or bytes, always with a NUL behind it, into @a: 0 and sets
 * @out, which is NULL for NULL, or -1 when memory is out. */
int query_text_at(
    const struct query *q, int column, struct arena *a, const char **out);

/* The rows of a query as a list of items; NULL when there is none. */
struct rows {
    void *items;
    size_t n;
};

/* Fill in the item @at from the row at hand, its texts in @a: 1, 0 to leave
 * that row out, or -1 when memory is out. */
typedef int rows_item(const struct query *q, struct arena *a, void *at);

/* Take what is left of @q, each row an item of @size bytes, into a list in @a:
 * 0 or -1. */
int rows_take(struct query *q, struct arena *a, size_t size, rows_item *take,
    struct rows *out, struct fault *f);

#endif
