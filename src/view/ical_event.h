#ifndef ICAL_EVENT_H
#define ICAL_EVENT_H

#include "ical.h"

#include <libical/ical.h>

/*
 * Append the event of a due, or the one of an empty feed, as folded lines.
 * Without a @stamp (NULL) its content alone.  Returns 0, or -1 when memory is
 * out.
 */
int ical_event_due(const char *site, const struct due *d,
    const struct ical_stamp *stamp, struct buf *out);
int ical_event_empty(const char *site, const char *feed,
    const struct ical_stamp *stamp, struct buf *out);

/*
 * Building a component with libical begins with ical_start() and ends with
 * ical_finish() of what it was written as, NULL or not: 0, or -1 when libical
 * met with an error on the way, which it does not always say otherwise.
 */
void ical_start(void);
int ical_finish(const char *text);

/*
 * Give @c the property @p, or the X- property of that name: 0, or -1 when
 * memory is out, which a NULL @p means.
 */
int ical_add(icalcomponent *c, icalproperty *p);
int ical_add_x(icalcomponent *c, const char *name, const char *value);

#endif
