#ifndef ICAL_TEXT_H
#define ICAL_TEXT_H

#include "due.h"

struct buf;

/*
 * The words of an event, appended to @out as clean text that is not yet
 * escaped: its summary, and its description of several lines.
 */
void ical_summary(const struct due *d, struct buf *out);
void ical_description(const struct due *d, struct buf *out);

/*
 * The value of CATEGORIES, and the name of a calendar: clean, and with a blank
 * for each comma, semicolon and backslash in a name.
 */
void ical_categories(const struct due *d, struct buf *out);
void ical_calendar_name(const char *title, struct buf *out);

/* Nonzero when the day of @d is an estimate and may still move. */
int ical_is_tentative(const struct due *d);

#endif
