#ifndef CLEAN_H
#define CLEAN_H

#include <stddef.h>

struct buf;

/* Whether line feeds stay.  In one line, white space that follows white space
 * is left out: folded, a run of it would fill a line of its own, and there some
 * readers of calendars end the property.  In a name, commas, semicolons and
 * backslashes count as white space too. */
enum clean { CLEAN_LINE, CLEAN_LINES, CLEAN_NAME };

/*
 * Append the @len bytes at @text to @out as valid UTF-8 that no reader can
 * take for anything but text:
 *
 * - what separates lines or words (tab, LF, VT, FF, U+0085, U+2028, U+2029)
 *   becomes a blank; with CLEAN_LINES, LF stays;
 * - what is no character (each byte that is not UTF-8, the noncharacters of
 *   Unicode) becomes U+FFFD;
 * - all other control characters (C0, DEL, C1) and those that turn the
 *   direction of writing (U+061C, U+200E, U+200F, U+202A to U+202E, U+2066 to
 *   U+2069) are left out.
 */
void clean_add(struct buf *out, enum clean how, const char *text, size_t len);

#endif
