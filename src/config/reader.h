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

#define READER_FAULT 160

/*
 * Refuse what is not text: bytes that are not UTF-8 (RFC 3629), and control
 * characters but for the tab.  Returns 0, or -1 and writes what is wrong, and
 * what to do, into @fault.
 */
int reader_check_text(const char *text, size_t len, char fault[READER_FAULT]);

#endif
