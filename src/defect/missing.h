#ifndef MISSING_H
#define MISSING_H

#include "defects.h"

/*
 * What a move of equipment brings with it (rule 7): what is missing where it
 * was, and what is missing no more where it came to.  Whoever enters the move
 * enters these with it, in the same transaction.
 */
struct move_brings {
    /* An arrival of that day that stands in for it: the cause of the move; or
     * 0. */
    int64_t excused_by;
    /* The vehicle and the item of its sheet that is missing from then on,
     * to be reported as one that stops, at some time of that day, with the move
     * as its cause; NULL for none. */
    const struct subject *lacking;
    const struct check_item *item;
    /* What was missing and is so no more: its report is to be voided, with the
     * move as its cause; or NULL. */
    const struct defect *found;
};

/* Of the move @e, which may be entered. */
struct move_brings missing_by_move(
    const struct defects *ds, const struct defect_event *e);

#endif
