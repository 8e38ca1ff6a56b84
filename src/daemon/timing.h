#ifndef TIMING_H
#define TIMING_H

#include "day.h"
#include "fleet.h"

#include <stdint.h>

/* What there may be to do: bits. */
enum timed_work {
    WORK_PASS = 1 << 0,   /* a day has begun: bring the feeds up to date */
    WORK_REMIND = 1 << 1, /* tell people */
    WORK_SEND = 1 << 2,   /* try the mail that waits */
    WORK_FLEET = 1 << 3   /* read the fleet file, which no clock asks for */
};

#define TIMING_NEVER INT64_MAX

/*
 * When there is something to do.  It holds no timer: everything follows from
 * the present moment and from what was done, so a clock that was set, a night
 * that was slept through and an hour that is missing or comes twice are all the
 * same to it.  Moments are seconds since 1970.
 */
struct timing {
    const struct fleet *fleet; /* its zones, and the hour of the reminders */
    int64_t passed;            /* when the last round was made */
    day_t reminded; /* of which day of the site people were told, or NONE */
    int64_t send;   /* when mail is to be tried, or NEVER */
};

/* What is to be done at @now, as bits. */
unsigned timing_due(const struct timing *a, int64_t now);

/* When timing_due() may say more than at @now. */
int64_t timing_next(const struct timing *a, int64_t now);

#endif
