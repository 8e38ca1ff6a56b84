#ifndef CSV_WRITE_H
#define CSV_WRITE_H

#include "day.h"

struct buf;

/* Append one field of a CSV line, after a comma when it is not the first and
 * in quotes when it has to be (RFC 4180); NULL is empty. */
void csv_write_field(const char *text, struct buf *out);

/* The same for a day, empty for DAY_NONE. */
void csv_write_day(day_t d, struct buf *out);

#endif
