#ifndef USAGE_H
#define USAGE_H

#include "day.h"

#include <stddef.h>
#include <stdint.h>

/* No reading. */
#define USAGE_UNKNOWN INT64_MIN

/* What a meter showed on a day.  Readings of a meter that was replaced are
 * given as the present one would have shown them, which may be less than 0. */
struct reading {
    day_t day;
    int64_t value;
};

/* How sure a forecast is of itself. */
enum forecast_basis {
    FORECAST_NONE,     /* nothing to go by */
    FORECAST_STATED,   /* only the stated yearly use */
    FORECAST_READINGS, /* a rate from the readings */
    FORECAST_REACHED   /* a reading already shows the due reading */
};

/* When a due reading will be reached. */
struct forecast {
    enum forecast_basis basis;
    day_t early; /* 10 %: one chance in ten that it comes before */
    day_t likely;
    day_t late; /* 90 % */
};

/* What is known of one meter of one subject. */
struct usage {
    const struct reading *readings; /* in order of day */
    size_t n;
    int64_t yearly; /* stated use a year, 0 for unknown */
};

/*
 * When the meter will show @due.  @from is where the meter stood when the
 * cycle began: used with the stated yearly use when there is no reading.
 * Days that would lie outside the range of days are DAY_NONE.
 */
struct forecast usage_forecast(
    const struct usage *u, struct reading from, int64_t due);

/*
 * What the meter showed on @d, by straight line between the readings on
 * either side, or the nearest one's rate beyond them.  USAGE_UNKNOWN when there
 * is no reading to go by.
 */
int64_t usage_at(const struct usage *u, day_t d);

#endif
