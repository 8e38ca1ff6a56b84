#ifndef REMINDER_MAIL_H
#define REMINDER_MAIL_H

#include "due.h"

#include <stddef.h>

struct buf;

/*
 * What one message says to one person: its subject, its text for a phone and
 * for a screen reader, and the same as HTML.  Nothing in the HTML is fetched
 * from elsewhere.
 */

/* A due, and the deadline that the person was last told of it when that has
 * moved, or DAY_NONE. */
struct reminder_item {
    const struct due *due;
    day_t moved_from;
};

struct reminder_mail {
    const char *site; /* its name */
    day_t today;
    const struct reminder_item *items; /* in the order of a snapshot */
    size_t n;
    const struct due *const *under_way; /* in a first message: reminded of
                                           before, and only named */
    size_t n_under_way;
    day_t outlook; /* the last day of the outlook, or DAY_NONE: there is none */
    const struct due *const *coming; /* what lies in it besides the items */
    size_t n_coming;
};

/* How many characters a subject has at most. */
#define REMINDER_SUBJECT_MOST 59

/*
 * Append the subject, the worst thing first: "K7 Annual test overdue since Mon
 * 23 Nov, 4 more".  It is one line of clean text, at most REMINDER_SUBJECT_MOST
 * characters, for which a long title is cut.  Returns 0, or -1 when memory is
 * out.
 */
int reminder_subject(const struct reminder_mail *l, struct buf *out);

/* Append the text, clean, each line ended by LF.  Returns 0 or -1. */
int reminder_text(const struct reminder_mail *l, struct buf *out);

/* Append the page, clean likewise.  Returns 0 or -1. */
int reminder_html(const struct reminder_mail *l, struct buf *out);

#endif
