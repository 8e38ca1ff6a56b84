#ifndef SHOWN_FORECAST_H
#define SHOWN_FORECAST_H

#include "calm.h"
#include "fault.h"

struct ledger;

/*
 * The forecasts that calendars and mail go by, kept from one pass to the next.
 */

/* Add them all to @c.  Returns 0 or -1. */
int shown_forecast_read(struct ledger *l, struct calm *c, struct fault *f);

/* Keep what has changed in @c, all of it or nothing, and drop what is of cycles
 * that are over; nothing is written when nothing has changed.  Returns 0 or -1.
 */
int shown_forecast_write(
    struct ledger *l, const struct calm *c, struct fault *f);

#endif
