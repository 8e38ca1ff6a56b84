#ifndef CAUSE_H
#define CAUSE_H

#include "room.h"

/* Inside the plan layer only: why things are as they came out. */

/* Fill in why the booking @b of item @i is on its day; its `with' is then the
 * item, not yet the booking. */
void cause_of(struct timetable *t, long i, struct plan_booking *b);

/* Fill in what would have given item @i, which is late, a day in time: 0, or -1
 * when memory is out. */
int cause_cure(
    struct timetable *t, struct room *r, long i, struct plan_clash *c);

#endif
