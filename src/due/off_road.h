#ifndef OFF_ROAD_H
#define OFF_ROAD_H

#include "calc_context.h"
#include "list.h"

/* Inside the due layer only: when a subject was off the road. */
struct spells {
    LIST(struct spell);
};

/* Add those among the records from @k up to @end, as far as they lie from @from
 * to @to, DAY_NONE for no end: 0, or -1 when memory is out. */
int off_road_add(struct spells *s, const struct record *k,
    const struct record *end, day_t from, day_t to);

/* Put them in order and join those that overlap or touch, so that no day
 * counts twice. */
void off_road_join(struct spells *s);

#endif
