#ifndef IMPORT_MAP_H
#define IMPORT_MAP_H

#include "command.h"
#include "csv.h"

/* What a sheet can tell of a record. */
enum import_column {
    COLUMN_SUBJECT,
    COLUMN_JOB,
    COLUMN_DAY,
    COLUMN_READING,
    COLUMN_RESULT,
    COLUMN_BY,
    COLUMN_REFERENCE,
    COLUMN_NOTE,
    IMPORT_COLUMNS
};

/* Where a sheet tells it. */
struct import_map {
    int cell[IMPORT_COLUMNS]; /* the cell of a row, from 0; -1 for none */
    size_t width;             /* how many cells a row has */
    const char *subject;      /* of every row, or NULL */
    const char *job;
};

/*
 * Find the columns in @header, the first record of a sheet, by the options
 * --subject-column and the like or by the words "subject" and the like.
 * Returns 0, or -1 with the fault of @i set: a column is missing, there
 * twice, or told twice.
 */
int import_map_read(
    struct import_map *m, struct invocation *i, const struct csv *header);

/* Append the names of the columns of @header that are not used, with a comma
 * between them. */
void import_map_unused(
    const struct import_map *m, const struct csv *header, struct buf *out);

/*
 * Append the words of a cell, one blank between them and none around: what is
 * written on several lines is then on one.  Any other control character
 * becomes a question mark, and then -1 is returned, else 0.
 */
int import_clean(const char *cell, struct buf *out);

#endif
