#ifndef BODY_H
#define BODY_H

#include "query.h"

/*
 * The body of a record: what SQL is never asked for, as one JSON object with
 * its keys in order, of integers, texts and lists of texts, none twice, and no
 * more than 64 KiB; none for nothing.  Which keys a kind has, and of what type
 * each is, stands in the table of kinds.  For this layer only.
 */

/* Sets @out, to be freed by the caller, to the body of @r, which fits its kind,
 * or to NULL when it has none: 0, or -1 with EX_DATAERR when it is too long or
 * no UTF-8. */
int body_make(const struct ledger *l, const struct record *r, char **out,
    struct fault *f);

/*
 * Put the values of the body in that column into @r, in @a.  One that
 * body_make() would write otherwise is refused with EX_DATAERR, one with a key
 * that the kind does not have with EX_CONFIG: a newer program wrote it.
 */
int body_read(const struct query *q, int column, struct arena *a,
    struct record *r, struct fault *f);

#endif
