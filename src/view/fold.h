#ifndef FOLD_H
#define FOLD_H

struct buf;

/* Append an iCalendar line, of its name with the colon and its value, ended by
 * CRLF and folded: at most 75 octets a line without its CRLF (RFC 5545, 3.1),
 * never inside a UTF-8 character.  The value is clean and escaped. */
void fold_line(const char *name, const char *value, struct buf *out);

#endif
