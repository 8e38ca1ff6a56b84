#ifndef ICAL_ITEM_H
#define ICAL_ITEM_H

#include "defects.h"
#include "evidence.h"

struct buf;

/* What one event or to-do of a feed tells of, and its words. */

enum ical_kind {
    ICAL_DUE,
    ICAL_DEFECT,  /* one that stops something, or was put off */
    ICAL_DONE,    /* what was done, on its day */
    ICAL_END,     /* stands where a feed ends early */
    ICAL_NOTHING, /* stands in a feed without dues, because some readers keep
                     old events when there is none */
};

/* What one event tells of. */
struct ical_item {
    enum ical_kind kind;
    const struct due *due;       /* of an ICAL_DUE */
    const struct proof *proof;   /* of an ICAL_DONE */
    day_t day;                   /* of an ICAL_END */
    const struct defect *defect; /* of an ICAL_DEFECT, as the next */
    int stops;                   /* it does, on the day of the feed */
};

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
#define ICAL_CATEGORY_DEFECT "Defect"
#define ICAL_CATEGORY_END "End"

/* The day on which the event of @d stands: of one that failed, that on which it
 * did; else its plan day or deadline, or DAY_NONE. */
day_t ical_due_day(const struct due *d);

/* The day of an item, or DAY_NONE when it has none of its own. */
day_t ical_day(const struct ical_item *item);

/* Nonzero when the day of @d is an estimate and may still move. */
int ical_is_tentative(const struct due *d);

#endif
