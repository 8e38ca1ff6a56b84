#ifndef DIGEST_H
#define DIGEST_H

#include "run_context.h"
#include "sent_reminder.h"
#include "stage.h"

/* A due that one person is to hear of, and why. */
struct digest_item {
    const struct due *due;
    struct stage stage;   /* of its deadline; by its name it is told once */
    struct stage missing; /* the same for want of a record or a reading, */
    struct stage failed;  /* and that it failed; any of these may have no name,
                             and is not told then */
    char cycle[CYCLE_TEXT];
    day_t moved_from; /* the deadline last told, if it has moved, else
                         DAY_NONE */
    int is_old;       /* reached before the first message to them */
};

/* What one person is to hear of today; see remind.h for who decides. */
struct digest {
    const struct run_context *run;
    const struct snapshot *of;
    const struct person *person;
    int only_failed; /* the rest waits for its hour */
    day_t until;     /* up to when they hear today; DAY_NONE on a quiet day */
    struct digest_item *items; /* in the order of the snapshot */
    size_t n;
    day_t outlook; /* the day whose outlook it gives, or DAY_NONE */
};

/* How it is kept that the person heard of @stage, one of those of @item,
 * whose texts it borrows. */
struct sent_reminder digest_told(const struct digest *g,
    const struct digest_item *item, const struct stage *stage);

/*
 * How it is kept that @person had the outlook of @day: as a thing told of no
 * subject, in no cycle.  Its name is written into @stage, which must last as
 * long.
 */
struct sent_reminder digest_outlook(
    const struct person *person, day_t day, char stage[STAGE_TEXT]);

/* Nonzero when there is something to say. */
int digest_says(const struct digest *g);

/*
 * Compose the message and put it into the ledger's outbox, together with the
 * note of what it tells: a crash loses neither.  Returns 0, or -1 with @f set.
 */
int digest_put(const struct digest *g, struct fault *f);

/*
 * Append what digest_put() would send to whom, and why, for people to read:
 * a line, and one more for each due.  Returns 0, or -1 with @f set.
 */
int digest_show(const struct digest *g, struct buf *out, struct fault *f);

#endif
