#ifndef LINE_H
#define LINE_H

#include <stddef.h>

/* What a line of a fleet file is. */
enum line_kind {
    LINE_NOTHING, /* blank, or a comment */
    LINE_SECTION, /* [kind name] */
    LINE_KEY,     /* key = value */
    LINE_MORE     /* indented: goes on with the value above */
};

/* The longest line, its newline included, and the longest text between the
 * brackets of a section: inih cuts both in silence beyond. */
#define LINE_MOST 199
#define LINE_SECTION_MOST 49

#define LINE_FAULT 160

/* The kind of the @len bytes at @text, which hold no newline. */
enum line_kind line_kind_of(const char *text, size_t len);

/*
 * Refuse what inih would cut, merge or overlook, and what is not text.
 * Returns 0, or -1 and writes what is wrong, and what to do, into @fault.
 */
int line_check(
    enum line_kind kind, const char *text, size_t len, char fault[LINE_FAULT]);

#endif
