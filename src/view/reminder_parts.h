#ifndef REMINDER_PARTS_H
#define REMINDER_PARTS_H

#include "reminder_mail.h"

/*
 * Inside the views only: what the text and the HTML of a letter share, so that
 * they say the same.
 */

/* The headings, the most urgent first. */
enum reminder_group {
    REMINDER_FAILED,
    REMINDER_NO_RECORD,
    REMINDER_OVERDUE,
    REMINDER_NEEDS_READING,
    REMINDER_BEFORE_RETURN,
    REMINDER_THIS_WEEK,
    REMINDER_BOOK_NOW,
    REMINDER_COMING,
    REMINDER_GROUPS
};

enum reminder_group reminder_group(const struct due *d);

/* "Overdue", "Book now" */
const char *reminder_heading(enum reminder_group g);

/* How many items of @l are in the group. */
size_t reminder_count(const struct reminder_mail *l, enum reminder_group g);

/* Append "1 overdue, 3 coming" for the items, or nothing without any. */
void reminder_summary(const struct reminder_mail *l, struct buf *out);

/*
 * The lines below the title of an item: each is a label, such as "Deadline",
 * and what goes with it.
 */
typedef void reminder_line(void *to, const char *label, const char *text);

/* Hand every line of the item to @line, but for the commands; -1 when memory
 * is out. */
int reminder_lines(const struct reminder_mail *l,
    const struct reminder_item *item, reminder_line *line, void *to);

/* The same for what to type when it is done. */
int reminder_commands(const struct due *d, reminder_line *line, void *to);

/* Append "K7 Annual test, deadline Tue 12 Jan 2027 (law)". */
void reminder_short(const struct due *d, struct buf *out);

/* Append what @write makes of @l, cleaned as mail wants it: 0 or -1. */
typedef int reminder_writer(const struct reminder_mail *l, struct buf *out);
int reminder_clean(
    const struct reminder_mail *l, reminder_writer *write, struct buf *out);

/* The sentences above the two short lists. */
extern const char reminder_first_text[];
void reminder_outlook(const struct reminder_mail *l, struct buf *out);

#endif
