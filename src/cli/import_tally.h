#ifndef IMPORT_TALLY_H
#define IMPORT_TALLY_H

#include "record.h"

struct buf;

/* What became of the rows of a sheet. */
struct import_tally {
    int64_t added[RECORD_READING + 1]; /* by kind */
    int64_t there;                     /* the ledger has them already */
    int64_t twice;                     /* the sheet had them already */
    int64_t empty;
    int64_t bad;
    day_t first; /* of what is added */
    day_t last;
    struct buf *rows; /* the first of them in words */
};

/* Nothing yet: 0, or -1 when memory is out.  Free with import_tally_free(). */
int import_tally_start(struct import_tally *t);
void import_tally_free(struct import_tally *t);

/* Count @r, of @line, as added. */
void import_tally_add(struct import_tally *t, int line, const struct record *r);

/* How many were added, of any kind. */
int64_t import_tally_added(const struct import_tally *t);

/*
 * Append what became of the rows of @sheet.  @unused names the columns that
 * were passed over; @trial is nonzero when nothing was really added, and then
 * the first rows are shown.
 */
void import_tally_report(const struct import_tally *t, const char *sheet,
    const char *unused, int trial, struct buf *out);

#endif
