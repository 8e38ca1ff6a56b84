#ifndef PLAN_EXPLAIN_H
#define PLAN_EXPLAIN_H

#include "reassign.h"

/* Inside the plan layer only: why things are as they came out. */

/* Fill in why the booking @b of item @i is on its day; its `with' is then the
 * item, not yet the booking. */
void plan_explain_booking(struct schedule *t, long i, struct plan_booking *b);

/* Fill in what would have given item @i, which is late, a day in time: 0, or -1
 * when memory is out. */
int plan_explain_clash(
    struct schedule *t, struct reassign *r, long i, struct plan_clash *c);

#endif
