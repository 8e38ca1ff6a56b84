#ifndef DIGEST_CALENDAR_H
#define DIGEST_CALENDAR_H

#include "due.h"
#include "run_context.h"

/*
 * Put into @out the @n dues as a file of events to go with a message; nothing
 * when none of them has a day.  The events are those of the feeds, under the
 * same UIDs, and the file has neither METHOD nor a name: with the one, readers
 * take it for an invitation, with the other, Outlook for a calendar to add
 * beside the user's own.  Returns 0, or -1 with @f set.
 */
int digest_calendar(const struct run_context *p, const struct due *const *dues,
    size_t n, struct buf *out, struct fault *f);

#endif
