#ifndef CSV_H
#define CSV_H

#include "fault.h"

#include <stddef.h>
#include <stdio.h>

/*
 * Reading a table as spreadsheets write it (RFC 4180), record by record, in
 * memory that does not grow with the file.  Lines end with LF or CRLF, a field
 * may stand in quotes and then hold separators, line breaks and doubled
 * quotes.  Text is UTF-8, a byte order mark before it is passed over.
 */
struct csv;

#define CSV_FIELDS_MOST 1024
#define CSV_FIELD_MOST 65535 /* bytes */

enum csv_got {
    CSV_END,    /* there is no further record */
    CSV_RECORD, /* its fields are at hand */
    CSV_BAD,    /* this record cannot be used; the next one may be */
    CSV_BROKEN  /* nothing from here on can be read */
};

/*
 * Read from @from, which stays the caller's and must outlive the reader.
 * @separator is a comma, semicolon or tab, or 0 for the one of them that is in
 * the first line most often.  NULL when memory is out.
 */
struct csv *csv_new(FILE *from, char separator);

/* Free @c; NULL is ignored. */
void csv_free(struct csv *c);

/*
 * Take the next record.  After CSV_BAD and CSV_BROKEN @f says what is wrong
 * with it, without its line: EX_DATAERR, for a failed reading EX_IOERR, or
 * EX_OSERR when memory is out.  Bad is a stray quote, a NUL byte, and what is
 * not UTF-8.
 */
enum csv_got csv_next(struct csv *c, struct fault *f);

/* The line on which the record at hand begins; the first is 1. */
int csv_line(const struct csv *c);

/* How many fields the record at hand has: at least 1, an empty line too. */
size_t csv_count(const struct csv *c);

/* The field at @n, from 0, without its quotes.  Valid until the next record is
 * taken. */
const char *csv_field(const struct csv *c, size_t n);

#endif
