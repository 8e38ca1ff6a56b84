#ifndef LETTER_PARTS_H
#define LETTER_PARTS_H

#include "letter.h"

/*
 * Inside the views only: what the text and the HTML of a letter share, so that
 * they say the same.
 */

/* The headings, the most urgent first. */
enum letter_group {
    LETTER_FAILED,
    LETTER_NO_RECORD,
    LETTER_OVERDUE,
    LETTER_NEEDS_READING,
    LETTER_BEFORE_RETURN,
    LETTER_THIS_WEEK,
    LETTER_BOOK_NOW,
    LETTER_COMING,
    LETTER_GROUPS
};

enum letter_group letter_group(const struct due *d);

/* "Overdue", "Book now" */
const char *letter_heading(enum letter_group g);

/* How many items of @l are in the group. */
size_t letter_count(const struct letter *l, enum letter_group g);

/* Append "1 overdue, 3 coming" for the items, or nothing without any. */
void letter_summary(const struct letter *l, struct buf *out);

/*
 * The lines below the title of an item: each is a label, such as "Deadline",
 * and what goes with it.
 */
typedef void letter_line(void *to, const char *label, const char *text);

/* Hand every line of the item to @line, but for the commands; -1 when memory
 * is out. */
int letter_lines(const struct letter *l, const struct letter_item *item,
    letter_line *line, void *to);

/* The same for what to type when it is done. */
int letter_commands(const struct due *d, letter_line *line, void *to);

/* Append "K7 Annual test, deadline Tue 12 Jan 2027 (law)". */
void letter_short(const struct due *d, struct buf *out);

/* Append what @write makes of @l, cleaned as mail wants it: 0 or -1. */
typedef int letter_writer(const struct letter *l, struct buf *out);
int letter_clean(const struct letter *l, letter_writer *write, struct buf *out);

/* The sentences above the two short lists. */
extern const char letter_first_text[];
void letter_outlook(const struct letter *l, struct buf *out);

#endif
