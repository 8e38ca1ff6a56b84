#ifndef IMPROVE_H
#define IMPROVE_H

#include "schedule.h"

/*
 * Inside the plan layer only: fewer visits.  Each visit whose works can all be
 * done on other visits of its unit, or on one day with the next visit, goes.
 * Units whose works all stand where an earlier plan had them are left alone.
 * Returns 0, or -1 when memory is out.
 */
int improve_visits(const struct plan_problem *p, struct schedule *t);

#endif
