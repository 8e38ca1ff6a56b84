#ifndef CLOCK_H
#define CLOCK_H

#include "day.h"
#include "fault.h"

/* A moment, read once a run and handed to whoever needs to know. */
struct moment {
    int64_t now; /* seconds since 1970-01-01T00:00:00Z */
    day_t today; /* the civil day in the zone it was read for */
};

/*
 * The present moment with its day in the IANA zone @time_zone: the only place
 * that reads the clock.  Returns 0, or -1 when the zone is not known or the
 * clock shows a day out of range.
 */
int clock_read(const char *time_zone, struct moment *out, struct fault *f);

/* The present moment, seconds since 1970-01-01T00:00:00Z. */
int64_t clock_now(void);

/* Milliseconds by a clock that nobody sets, to tell how long something takes.
 */
int64_t clock_ticks(void);

/* The civil day in that zone at @when, seconds since 1970. */
day_t clock_day(const char *time_zone, int64_t when);

/*
 * The first moment at which clocks in that zone show @minute, minutes after
 * midnight, on @day; where they skip it in spring, the one at which they go on.
 * An hour that comes twice counts the first time.
 */
int64_t clock_at(const char *time_zone, day_t day, int minute);

/* What clocks in that zone show at @when, in minutes after midnight: on the
 * days on which they are changed not how long ago midnight was. */
int clock_minute(const char *time_zone, int64_t when);

#define CLOCK_WORDS 21 /* room for "Wed 2026-12-02 04:17" and a NUL */

/* The minute of @when, seconds since 1970, as people in that zone write it;
 * returns @out. */
const char *clock_words(
    const char *time_zone, int64_t when, char out[CLOCK_WORDS]);

/* The start of @today, as if the clock showed it. */
struct moment clock_fixed(day_t today);

#endif
