#ifndef ICAL_H
#define ICAL_H

#include "fault.h"
#include "ical_item.h"

#include <stddef.h>
#include <stdint.h>

struct buf;

/*
 * Calendar feeds (RFC 5545, RFC 7986): one all-day event a due, on its plan
 * day or on that on which it failed, or one to-do.  The same input gives the
 * same bytes; nothing in them depends on the clock or on today, except whether
 * a due is overdue, or its newest reading too old.
 *
 * A feed is written one item at a time: ical_begin(), then for each item
 * ical_content() and ical_stamped(), then ical_end().  Whoever writes it may
 * empty the buffer in between, so that a feed of any length takes the same
 * memory.
 */
struct ical;

/* Changes when what is written for the same dues does. */
#define ICAL_FORM 3

/* How a feed is written. */
struct ical_feed {
    const char *site;  /* its name, which is part of every UID */
    const char *id;    /* of the feed */
    const char *title; /* the calendar's name; a comma, semicolon or
                          backslash in it becomes a blank, because readers
                          differ in how they take these in a name; or NULL in
                          a file of events that nobody subscribes to, which has
                          no name and is not asked for again */
    const char *url;   /* of the page where the dues are, or NULL; whoever
                          sets it has checked that it is a URL */
    enum feed_form form;
    struct span alarm; /* so long before the day, at nine; n below 0 for no
                          alarm */
};

/*
 * When an event's content last changed, and how often: DTSTAMP, LAST-MODIFIED
 * and SEQUENCE.  They are state, and kept by the caller.
 */
struct ical_stamp {
    int64_t sequence; /* 0 for a new event */
    int64_t modified; /* seconds since 1970-01-01T00:00:00Z */
};

#define ICAL_UID_TEXT 37

/* A writer of @feed, which must outlive it, or NULL when memory is out.  Free
 * with ical_free(). */
struct ical *ical_new(const struct ical_feed *feed);

/* Free @c; NULL is ignored. */
void ical_free(struct ical *c);

/*
 * The UID of @item: name-based UUIDs, version 5 of RFC 9562, of the site, the
 * subject, the job and the cycle or the day it was done, each in the namespace
 * that the one before it makes.  It stays the same when the day moves.
 */
void ical_uid(
    struct ical *c, const struct ical_item *item, char out[ICAL_UID_TEXT]);

/*
 * Append all that decides what ical_uid() and ical_content() give for @item,
 * in a form of its own, several times as fast: when the outlines of a feed's
 * items are the same as before, so is the feed.  Returns 0 or -1.
 */
int ical_outline(struct ical *c, const struct ical_item *item, struct buf *out);

/* Append what comes before the first item.  Returns 0, or -1 when memory is
 * out, as the next two. */
int ical_begin(struct ical *c, struct buf *out);

/*
 * Append the event of @item without DTSTAMP, LAST-MODIFIED and SEQUENCE, and
 * without its day when it has none of its own: a digest of it tells whether
 * the content has changed.
 */
int ical_content(struct ical *c, const struct ical_item *item, struct buf *out);

/*
 * Append the whole event, from what ical_content() gave for @item.  Where the
 * item has no day of its own, an event stands on the day of its stamp: on that
 * on which it was last news.
 */
int ical_stamped(struct ical *c, const struct ical_item *item,
    const struct buf *content, const struct ical_stamp *stamp, struct buf *out);

/* Append what comes after the last item. */
void ical_end(struct buf *out);

/*
 * Read back what is to be published as @feed, the @len bytes at @bytes: lines
 * of at most 75 octets of UTF-8 that end with CRLF; one VCALENDAR that libical
 * reads without an error; @n_items events or to-dos, with different UIDs, each
 * with every property that RFC 5545 requires or this module always writes,
 * events one day long.  Returns 0, or -1 with @f set (EX_SOFTWARE, or EX_OSERR
 * when memory is out).
 */
int ical_check(const char *bytes, size_t len, const struct ical_feed *feed,
    size_t n_items, struct fault *f);

#endif
