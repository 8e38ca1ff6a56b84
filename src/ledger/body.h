#ifndef BODY_H
#define BODY_H

#include "query.h"

/*
 * The body of a record: what SQL is never asked for, as one JSON object with
 * its keys in order, integers and texts alone, none twice, and no more than 64
 * KiB; none for nothing.  A row of the table in body.c for each.  For this
 * layer only.
 */

/* Sets @out, to be freed by the caller, to the body of @r, or to NULL when it
 * has none: 0, or -1 with EX_DATAERR when it is too long or no UTF-8. */
int body_make(const struct ledger *l, const struct record *r, char **out,
    struct fault *f);

/* Put the body in that column into @r, texts in @a.  One that body_make() would
 * write otherwise is refused: a result code of SQLite. */
int body_read(
    const struct query *q, int column, struct arena *a, struct record *r);

#endif
