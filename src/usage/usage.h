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

/* A spell off the road: both days are off.  @until DAY_NONE has no end yet. */
struct spell {
    day_t from;
    day_t until;
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
    day_t late;      /* 90 % */
    int seasonal;    /* nonzero when the time of year was counted */
    size_t left_out; /* readings that were taken for wrong */
};

/* What is known of one meter of one subject. */
struct usage {
    const struct reading *readings; /* in order of day */
    size_t n;
    int64_t yearly;             /* stated use a year, 0 for unknown */
    const struct spell *spells; /* off the road: in order, apart */
    size_t n_spells;
};

/*
 * Not all that was ever read counts: only the readings since the day that is
 * asked for, here the beginning of the cycle, and those of three years up to
 * the newest, with those of USAGE_BEFORE days before them.  The first day of
 * the former two, for @newest and @asked, either of which may be DAY_NONE.
 */
#define USAGE_BEFORE 6
day_t usage_since(day_t newest, day_t asked);

/*
 * When the meter will show @due.  @from is where the meter stood when the
 * cycle began: used with the stated yearly use when there is no reading.
 * Days that would lie outside the range of days are DAY_NONE.
 *
 * Each step is a published method, named in full in its header:
 *
 * 1. Wrong readings are left out: the longest chain is kept that neither falls
 *    nor rises much faster than is usual (outliers.h).  What is usual is the
 *    median of the slopes between pairs of readings, Sen (1968) (theil_sen.h).
 * 2. Days count as far as the vehicle is used on them: not at all off the
 *    road, and by their share of a year's use where two years of readings
 *    agree on one (effective_days.h, seasonality.h).
 * 3. The rate is smoothed exponentially over these days, so that the newest
 *    use counts most, Wright (1986) (rate.h).
 * 4. The early and the late day go by how far such forecasts have missed on
 *    this very meter, Williams and Goodman (1971), and by what is usual while
 *    there are few of them (rate.h).
 *
 * After one more reading on the line to it the likely day is what it was, but
 * for rounding, unless readings that were taken for wrong are believed now or a
 * twelfth of a year is over for the seasons.  The days are never earlier for a
 * greater @due.
 *
 * Arithmetic is in doubles, the answer in whole days: a length that is within
 * a millionth of a day of a whole one is taken for it, so that the last bits of
 * exp() and log() do not show.
 */
struct forecast usage_forecast(
    const struct usage *u, struct reading from, int64_t due);

/*
 * What the meter showed on @d, by straight line between the readings on
 * either side, or the present rate beyond them.  Readings that a forecast
 * leaves out count for nothing; the day asked for is @d.  USAGE_UNKNOWN when
 * there is no reading to go by.
 */
int64_t usage_at(const struct usage *u, day_t d);

/* Nonzero when such readings lie on either side of @d, or on it, so that
 * usage_at() has not to guess. */
int usage_is_between(const struct usage *u, day_t d);

#endif
