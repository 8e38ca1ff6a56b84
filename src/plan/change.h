#ifndef CHANGE_H
#define CHANGE_H

#include "fleet.h"

/*
 * What if: a change to what the fleet file says, for one plan.
 */

enum change_kind {
    CHANGE_VEHICLES, /* a place takes so many vehicles a day, 0 for any */
    CHANGE_MINUTES,  /* a place does so much work a day, 0 for any */
    CHANGE_AWAY,     /* so many of a limit may be away */
    CHANGE_SOLD,     /* a subject is there no more, nor what it carries */
    CHANGE_SHUT,     /* a place is shut on some days */
    CHANGE_HOLIDAY   /* all places are */
};

struct change {
    enum change_kind kind;
    int amount;
    const struct workplace *place;
    const struct away_limit *limit;
    const struct subject *subject;
    day_t from;
    day_t to;
};

#define CHANGES_MOST 16
#define CHANGE_FAULT 240

/*
 * Read changes from @text, separated by commas: "place PLACE N", "hours PLACE
 * HOURS", "away LIMIT N", "sold SUBJECT", "shut PLACE DAY[..DAY]", "holiday
 * DAY[..DAY]".  Sets @n; -1 with what is wrong in @fault.
 */
int change_read(const struct fleet *f, const char *text,
    struct change out[CHANGES_MOST], size_t *n, char fault[CHANGE_FAULT]);

#endif
