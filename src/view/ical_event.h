#ifndef ICAL_EVENT_H
#define ICAL_EVENT_H

#include "ical.h"

struct buf;

/* What is at hand while the items of a feed are written. */
struct ical {
    const struct ical_feed *feed;
    struct buf *summary; /* the words of the item at hand */
    struct buf *description;
    struct buf *categories;
    struct buf *escaped;           /* the value of the line at hand */
    const struct subject *subject; /* whose UUID is kept below */
    enum ical_kind kind;
    unsigned char uuid[16];
};

/* Append the component of an item whose words are in @c, as folded lines
 * without a stamp.  Returns 0, or -1 when memory is out. */
int ical_event(struct ical *c, const struct ical_item *item, const char *uid,
    struct buf *out);

/* Append DTSTART and DTEND of an event that takes all of @day. */
void ical_event_day(day_t day, struct buf *out);

/* The length of the first two lines, BEGIN and UID, after which the stamp
 * belongs. */
size_t ical_event_opening(enum feed_form form);

#endif
