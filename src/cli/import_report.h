#ifndef IMPORT_REPORT_H
#define IMPORT_REPORT_H

#include "record.h"

struct buf;

/* What became of the rows of a sheet. */
struct import_report {
    int64_t added[RECORD_KINDS]; /* by kind */
    int64_t there;               /* the ledger has them already */
    int64_t twice;               /* the sheet had them already */
    int64_t empty;
    int64_t bad;
    day_t first; /* of what is added */
    day_t last;
    struct buf *rows; /* the first of them in words */
};

/* Nothing yet: 0, or -1 when memory is out.  Free with import_report_free(). */
int import_report_start(struct import_report *t);
void import_report_free(struct import_report *t);

/* Count @r, of @line, as added. */
void import_report_add(
    struct import_report *t, int line, const struct record *r);

/* How many were added, of any kind. */
int64_t import_report_added(const struct import_report *t);

/*
 * Append what became of the rows of @sheet.  @unused names the columns that
 * were passed over; @trial is nonzero when nothing was really added, and then
 * the first rows are shown.
 */
void import_report_report(const struct import_report *t, const char *sheet,
    const char *unused, int trial, struct buf *out);

#endif
