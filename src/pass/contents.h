#ifndef CONTENTS_H
#define CONTENTS_H

#include "evidence.h"
#include "feed_version.h"
#include "ical.h"
#include "run_context.h"
#include "snapshot.h"

/* All that a feed is to show, in the order in which it does. */
struct contents {
    const struct feed *feed;
    struct ical_feed form;
    const struct defect **defects; /* that stop something, or are put off: by
                                      number, and never left out */
    size_t n_defects;
    const struct due **dues; /* by day, those without a day first */
    size_t n_dues;
    size_t n_must; /* of them, those up to the last that is overdue or has no
                      day, which are never left out */
    const struct proof **done; /* the newest first */
    size_t n_done;
    struct evidence **evidence; /* that the done ones are from */
    size_t n_evidence;
    unsigned char hash[FEED_VERSION_HASH]; /* of all that decides its bytes but
                                         the stamps */
};

/*
 * Choose the contents of @feed from @s, which reaches its horizon, into @out;
 * both must outlive it.  Returns 0, or -1 with @f set.  Give it back with
 * contents_drop() in either case.
 */
int contents_choose(const struct run_context *p, const struct snapshot *s,
    const struct feed *feed, struct contents *out, struct fault *f);

/* One of its defects as an item. */
struct ical_item contents_defect(
    const struct run_context *p, const struct defect *d);

/* How many of its dues have room among the events it may hold. */
size_t contents_room(const struct contents *c);

void contents_drop(struct contents *c);

#endif
