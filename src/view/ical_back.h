#ifndef ICAL_BACK_H
#define ICAL_BACK_H

#include "ical.h"

struct buf;

/* Takes apart what ical.h wrote, one event or to-do at a time. */
struct ical_back {
    const char *at; /* what is still to be looked at */
    const char *end;
};

/* An event or to-do of a published feed. */
struct ical_seen {
    const char *text; /* from its BEGIN to its END, */
    size_t len;       /* of so many bytes */
    char uid[ICAL_UID_TEXT];
    struct ical_stamp stamp;
    day_t day;  /* of its own, or DAY_NONE */
    int is_due; /* and not what was done, or what the feed says of itself */
};

/*
 * The next component of the kind @form in @b: 1 and sets its text and length,
 * or 0 when there is no more.
 */
int ical_back_part(
    struct ical_back *b, enum feed_form form, struct ical_seen *out);

/*
 * The next one of which the UID and the stamp can be read: 1 and sets all of
 * @out and puts into @content what ical_content() gave for it, or 0 when there
 * is no more.
 */
int ical_back_next(struct ical_back *b, enum feed_form form,
    struct ical_seen *out, struct buf *content);

#endif
