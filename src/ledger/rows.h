#ifndef ROWS_H
#define ROWS_H

#include "query.h"

struct arena;

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
