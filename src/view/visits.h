#ifndef VISITS_H
#define VISITS_H

#include "fleet_plan.h"

/* Bookings of one unit on one day at one place: how people see a plan.  What
 * found no day is in none. */
struct visit {
    day_t day;
    size_t unit;  /* of the problem */
    size_t place; /* the same */
    int stays;    /* all of it is done while the unit stays in use */
    int minutes;  /* of work */
    int late;     /* some of it */
    int fixed;    /* the same */
    const struct plan_booking *const *bookings;
    size_t n;
};

struct visits {
    struct visit *list; /* in order of day, place and unit */
    size_t n;
    const struct plan_booking **bookings;
};

/* The visits of a plan: 0, or -1 when memory is out.  Give back with
 * visits_free(). */
int visits_make(const struct fleet_plan *a, struct visits *out);

void visits_free(struct visits *v);

#endif
