#include "clock.h"

#include <libical/ical.h>
#include <stdio.h>
#include <sysexits.h>
#include <time.h>

int
clock_read(const char *time_zone, struct moment *out, struct fault *f)
{
    icaltimezone *zone = icaltimezone_get_builtin_timezone(time_zone);
    time_t now = time(NULL);

    if (zone == NULL)
        return fault_set(f, EX_CONFIG,
            "time zone '%s' is not known here: is the package tzdata "
            "installed?",
            time_zone);
    struct icaltimetype t = icaltime_from_timet_with_zone(now, 0, zone);
    *out = (struct moment){now, day_of(t.year, t.month, t.day)};
    if (out->today == DAY_NONE)
        return fault_set(f, EX_OSERR,
            "the clock shows the year %d: set it, or state --today", t.year);
    return 0;
}

int64_t
clock_now(void)
{
    return time(NULL);
}

int64_t
clock_ticks(void)
{
    struct timespec t;

    (void)clock_gettime(CLOCK_MONOTONIC, &t);
    return (int64_t)t.tv_sec * 1000 + t.tv_nsec / 1000000;
}

day_t
clock_day(const char *time_zone, int64_t when)
{
    icaltimezone *zone = icaltimezone_get_builtin_timezone(time_zone);
    struct icaltimetype t =
        icaltime_from_timet_with_zone((time_t)when, 0, zone);

    return day_of(t.year, t.month, t.day);
}

/* What clocks there show at @when, as seconds since 1970 in a zone without an
 * offset. */
static int64_t
shown(icaltimezone *zone, int64_t when)
{
    struct icaltimetype t =
        icaltime_from_timet_with_zone((time_t)when, 0, zone);

    return (int64_t)day_of(t.year, t.month, t.day) * 86400 +
           INT64_C(60) * (60 * t.hour + t.minute) + t.second;
}

int64_t
clock_at(const char *time_zone, day_t day, int minute)
{
    icaltimezone *zone = icaltimezone_get_builtin_timezone(time_zone);
    int64_t wanted = (int64_t)day * 86400 + (int64_t)minute * 60;
    /* No zone is further than this from UTC, nor changes twice in between. */
    int64_t before = wanted - 86400;
    int64_t after = wanted + 86400;
    int64_t early = wanted - (shown(zone, before) - before);
    int64_t late = wanted - (shown(zone, after) - after);

    if (early > late) {
        int64_t other = early;
        early = late;
        late = other;
    }
    if (shown(zone, early) == wanted)
        return early;
    if (shown(zone, late) == wanted)
        return late;
    /* It is skipped: look for the moment at which clocks jump over it. */
    while (early < late) {
        int64_t middle = early + (late - early) / 2;
        if (shown(zone, middle) < wanted)
            early = middle + 1;
        else
            late = middle;
    }
    return early;
}

int
clock_minute(const char *time_zone, int64_t when)
{
    icaltimezone *zone = icaltimezone_get_builtin_timezone(time_zone);
    int64_t seconds = shown(zone, when) % 86400;

    return (int)((seconds < 0 ? seconds + 86400 : seconds) / 60);
}

const char *
clock_words(const char *time_zone, int64_t when, char out[CLOCK_WORDS])
{
    icaltimezone *zone = icaltimezone_get_builtin_timezone(time_zone);
    struct icaltimetype t =
        icaltime_from_timet_with_zone((time_t)when, 0, zone);
    char day[DAY_WORDS];

    snprintf(out, CLOCK_WORDS, "%s %02u:%02u",
        day_words(day_of(t.year, t.month, t.day), day), (unsigned)t.hour % 24,
        (unsigned)t.minute % 60);
    return out;
}

struct moment
clock_fixed(day_t today)
{
    return (struct moment){(int64_t)today * 86400, today};
}
