#ifndef READING_DAY_H
#define READING_DAY_H

#include "record.h"

/*
 * The early day on which @meter of @s, a vehicle, shows @reading, in its unit:
 * one in ten chances that it does so sooner, by the forecast of usage.h from
 * the readings of @facts.  @day is DAY_NONE when it shows as much already or
 * nothing is known of its use.  0, or -1 when memory is out.
 */
int reading_day_early(const struct facts *facts, const struct subject *s,
    enum meter meter, int64_t reading, day_t *day);

#endif
