#ifndef READER_H
#define READER_H

#include "document.h"

/* The largest fleet file, in bytes. */
#define READER_MOST ((size_t)1 << 20)

/*
 * Read one file of the fleet, as problems_file() numbers it, into @d.  What is
 * wrong with its lines becomes problems, and the lines are passed over.
 * Returns 0, or -1 when the file could not be read, which is a problem too.
 */
int reader_read(struct document *d, int file);

#endif
