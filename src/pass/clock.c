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
