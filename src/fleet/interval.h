#ifndef INTERVAL_H
#define INTERVAL_H

#include "step.h"

#include <stdint.h>

/* What a reading counts. */
enum meter { METER_NONE, METER_DISTANCE, METER_HOURS };

#define METERS (METER_HOURS + 1)

enum distance_unit { UNIT_KM, UNIT_MILES };

struct recur;

/* Defined by the table of kinds, in the layer that calculates. */
struct interval_kind;

/*
 * One limit on how long a job may wait.  Which members mean something is the
 * kind's business; a job has several of these and the first to come decides.
 */
struct interval {
    const struct interval_kind *kind;
    struct span span;        /* a length of time */
    struct span apart;       /* the most between two of a count; n is 0 for
                                any */
    int64_t amount;          /* a distance or running hours; a count */
    enum distance_unit unit; /* of the distance */
    int month;               /* a date in each year */
    int day;
    const char *recurrence; /* an RFC 5545 RRULE value */
    day_t from;             /* its DTSTART */
    const struct recur *recur;
    const char *text; /* as written in the fleet file */
};

#endif
