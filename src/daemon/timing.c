#include "timing.h"

#include "clock.h"

static int64_t
earlier(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

/* The zone of the depot at @i, or after the last, of the site; NULL then. */
static const char *
zone_at(const struct fleet *f, size_t i)
{
    if (i < f->n_depots)
        return f->depots[i].time_zone;
    return i == f->n_depots ? f->site.time_zone : NULL;
}

/* A day has begun since the last round, or the clock was set back to another.
 */
static int
is_another_day(const struct timing *a, int64_t now)
{
    const char *zone;

    for (size_t i = 0; (zone = zone_at(a->fleet, i)) != NULL; i++)
        if (clock_day(zone, now) != clock_day(zone, a->passed))
            return 1;
    return 0;
}

static int64_t
remind_at(const struct timing *a, day_t day)
{
    const struct site *site = &a->fleet->site;

    return clock_at(site->time_zone, day, (int)site->server.remind_at);
}

unsigned
timing_due(const struct timing *a, int64_t now)
{
    day_t today = clock_day(a->fleet->site.time_zone, now);
    unsigned due = 0;

    if (is_another_day(a, now))
        due |= WORK_PASS;
    if (a->reminded != today && now >= remind_at(a, today))
        due |= WORK_REMIND;
    if (now >= a->send)
        due |= WORK_SEND;
    return due;
}

int64_t
timing_next(const struct timing *a, int64_t now)
{
    day_t today = clock_day(a->fleet->site.time_zone, now);
    int64_t next = remind_at(a, today);
    const char *zone;

    if (next <= now)
        next = remind_at(a, today + 1);
    for (size_t i = 0; (zone = zone_at(a->fleet, i)) != NULL; i++)
        next = earlier(next, clock_at(zone, clock_day(zone, now) + 1, 0));
    if (a->send > now)
        next = earlier(next, a->send);
    return next;
}
