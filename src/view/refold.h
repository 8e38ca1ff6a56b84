#ifndef REFOLD_H
#define REFOLD_H

struct buf;

/*
 * Append the iCalendar lines at @ical to @out, folded anew: at most 75 octets
 * a line without its CRLF (RFC 5545, 3.1), never inside a UTF-8 character.
 * @ical is what libical wrote from clean text; it is unfolded in place.
 *
 * libical 3.0.16 folds a line together with its CRLF, so that a last piece of
 * 73 octets comes out as CR CR LF blank LF and one of 74 is followed by an
 * empty continuation.  Taking out every CR LF blank restores both.
 */
void refold(char *ical, struct buf *out);

/* Append one line, of its name with the colon and its value, folded. */
void refold_line(const char *name, const char *value, struct buf *out);

#endif
