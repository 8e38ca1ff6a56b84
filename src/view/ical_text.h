#ifndef ICAL_TEXT_H
#define ICAL_TEXT_H

#include "ical.h"

struct buf;

/*
 * The words of an item, appended to @out as clean text that is not yet
 * escaped: its summary, and its description of several lines, to which only
 * the caution is to be added.
 */
void ical_summary(const struct ical_item *item, struct buf *out);
void ical_description(const struct ical_item *item, struct buf *out);

/*
 * The value of CATEGORIES, and the name of a calendar: clean, and with a blank
 * for each comma, semicolon and backslash in a name.
 */
void ical_categories(const struct ical_item *item, struct buf *out);
void ical_calendar_name(const char *title, struct buf *out);

/* The first of the categories says what an item is; these are those of items
 * without a day of their own, and of those that are not dues. */
#define ICAL_UNDATED "Undated"
#define ICAL_CATEGORY_NOTHING "Nothing"
#define ICAL_CATEGORY_DONE "Done"
#define ICAL_CATEGORY_END "End"

#endif
