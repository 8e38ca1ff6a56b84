#ifndef IMPORT_ROW_H
#define IMPORT_ROW_H

#include "import_day.h"
#include "import_map.h"
#include "record.h"

/* Turning the rows of a sheet into records, one at a time. */
struct import_rows;

/* What a row turned out to be. */
enum import_row { ROW_EMPTY, ROW_RECORD, ROW_BAD };

/* What @i asks for of the rows under @map, whose days are in @order: all three
 * must outlive the result.  NULL when memory is out.  Free with
 * import_rows_free(). */
struct import_rows *import_rows_new(struct invocation *i,
    const struct run_context *p, const struct import_map *map,
    enum day_order order);

/* Free @rows; NULL is ignored. */
void import_rows_free(struct import_rows *rows);

/* From here on a bad row need not say what its words were meant to be: looking
 * for the nearest known one takes long, and it is only counted. */
void import_rows_hush(struct import_rows *rows);

/*
 * Turn the row at hand in @sheet into @r, whose texts are valid until the next
 * row is read.  A bad row sets the fault of the invocation.  What the row says
 * is not yet held against other records.
 */
enum import_row import_row_read(
    struct import_rows *rows, const struct csv *sheet, struct record *r);

#endif
