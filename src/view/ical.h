#ifndef ICAL_H
#define ICAL_H

#include "due.h"
#include "fault.h"

#include <stddef.h>
#include <stdint.h>

struct buf;

/*
 * Calendar feeds (RFC 5545, RFC 7986): one all-day event a due, on its plan
 * day.  The same input gives the same bytes; nothing in them depends on the
 * clock or on today, except whether a due is overdue, or its newest reading
 * too old.
 */

/* What a feed shows. */
struct ical_feed {
    const char *site;  /* its name, which is part of every UID */
    const char *id;    /* of the feed */
    const char *title; /* the calendar's name; a comma, semicolon or
                          backslash in it becomes a blank, because readers
                          differ in how they take these in a name */
    const struct due *const *dues;
    size_t n;
};

/*
 * When an event's content last changed, and how often: DTSTAMP, LAST-MODIFIED
 * and SEQUENCE.  They are state, and kept by the caller.
 */
struct ical_stamp {
    int sequence;     /* 0 for a new event */
    int64_t modified; /* seconds since 1970-01-01T00:00:00Z */
};

#define ICAL_UID_TEXT 37

/*
 * Nonzero when @d has a day, and so an event.  A due with no record, without
 * a reading or of a subject with no known return may have none.
 */
int ical_has_event(const struct due *d);

/*
 * The UID of the event of @d: name-based UUIDs, version 5 of RFC 9562, of the
 * site, the subject, the job and the cycle, each in the namespace that the one
 * before it makes.  It stays the same when the day moves.
 */
void ical_uid(const char *site, const struct due *d, char out[ICAL_UID_TEXT]);

/* The UID of the event that stands in the feed @feed when it shows no due. */
void ical_empty_uid(
    const char *site, const char *feed, char out[ICAL_UID_TEXT]);

/*
 * Append the event of @d, which must have one, without DTSTAMP, LAST-MODIFIED
 * and SEQUENCE: a digest of it tells whether the content has changed.  Returns
 * 0, or -1 when memory is out.
 */
int ical_content(const char *site, const struct due *d, struct buf *out);

/*
 * The same for the event that stands in an empty feed, also without its day,
 * which is the day of its stamp: stamp it anew when a feed becomes empty.
 */
int ical_empty_content(const char *site, const char *feed, struct buf *out);

/* How many events the feed has: one for each due with a day, and at least
 * one, because some readers keep old events when a feed is empty. */
size_t ical_events(const struct ical_feed *feed);

/*
 * Append the whole feed.  @stamps has one for each due, in the same order
 * (that of a due without an event is not looked at), and one more at [n] for
 * the event of an empty feed.  Events are in order of day, then of UID.
 * Returns 0, or -1 when memory is out.
 */
int ical_render(const struct ical_feed *feed, const struct ical_stamp *stamps,
    struct buf *out);

/*
 * Read back what is to be published, NUL-terminated after @len bytes: lines of
 * at most 75 octets of UTF-8 that end with CRLF; one VCALENDAR that libical
 * reads without an error; @n_events events with different UIDs, one day long,
 * each with every property that RFC 5545 requires or this module always
 * writes.  Returns 0, or -1 with @f set (EX_SOFTWARE, or EX_OSERR when memory
 * is out).
 */
int ical_check(const char *bytes, size_t len, size_t n_events, struct fault *f);

#endif
