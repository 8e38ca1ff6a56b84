#include "reasons.h"
#include "reckon.h"
#include "scan.h"

#include <stdio.h>

/* "20000 km", "250 hours": so much use since the job was last done. */

#define MOST 2000000

static int
parse_distance(struct scan *s, struct arena *a, struct interval *out)
{
    static const char *const units[] = {"km", "miles", "mile", NULL};

    (void)a;
    if (!scan_number(s, 1, MOST, &out->amount))
        return -1;
    int unit = scan_choice(s, units);
    out->unit = unit == 0 ? UNIT_KM : UNIT_MILES;
    return unit < 0 ? -1 : 0;
}

static int
parse_hours(struct scan *s, struct arena *a, struct interval *out)
{
    static const char *const units[] = {"hours", "hour", NULL};

    (void)a;
    if (!scan_number(s, 1, MOST, &out->amount))
        return -1;
    return scan_choice(s, units) < 0 ? -1 : 0;
}

/* The amount in the unit that the subject's meter counts, rounded down so
 * that the due reading errs early.  A mile is 1.609344 km exactly
 * (international yard, 1959). */
static int64_t
amount_on_meter(const struct interval *every, const struct subject *s)
{
    if (every->kind->meter == METER_HOURS || every->unit == s->unit)
        return every->amount;
    if (s->unit == UNIT_KM)
        return every->amount * 1609344 / 1000000;
    return every->amount * 1000000 / 1609344;
}

/* Where the meter stood when the job was done: as noted then, else from the
 * readings around that day.  What another kind of meter showed is no help. */
static int64_t
reading_at(
    const struct usage *u, const struct completion *done, enum meter meter)
{
    int noted = done->by == NULL || done->by->meter == meter;

    return done->reading != USAGE_UNKNOWN && noted ? done->reading
                                                   : usage_at(u, done->day);
}

static day_t
chosen_day(const struct rule *rule, const struct forecast *f)
{
    switch (rule->forecast) {
    case FORECAST_EARLY:
        return f->early;
    case FORECAST_LIKELY:
        return f->likely;
    case FORECAST_LATE:
        return f->late;
    }
    return DAY_NONE;
}

static void
say_forecast(const struct reckoning *r, const struct interval *every,
    day_t from, const struct limit *l)
{
    static const char *const basis[] = {"", "by the stated yearly use",
        "by the readings", "a reading already shows it"};
    const char *unit = every->kind->meter == METER_HOURS
                           ? "hours"
                           : fleet_unit_word(r->task->subject->unit);
    char at[48] = "the reading then is not known";

    if (r->why == NULL)
        return;
    if (l->deadline == DAY_NONE) {
        reasons_add(r->why, REASON_NOTE, from, from,
            "every %s (%s): no reading and no stated yearly use to go by",
            every->text, fleet_class_word(r->task->job->class));
        return;
    }
    if (l->due_reading >= 0)
        snprintf(
            at, sizeof at, "due at %lld %s", (long long)l->due_reading, unit);
    reasons_add(r->why, REASON_FORECAST, from, l->deadline,
        "every %s (%s): %s, %s between %s and %s, likely %s", every->text,
        fleet_class_word(r->task->job->class), at, basis[l->forecast.basis],
        day_words(l->forecast.early, (char[DAY_WORDS]){0}),
        day_words(l->forecast.late, (char[DAY_WORDS]){0}),
        day_words(l->forecast.likely, (char[DAY_WORDS]){0}));
}

/* Before the first time only the calendar can tell. */
static void
first(const struct reckoning *r, const struct interval *every, struct limit *l)
{
    (void)r;
    (void)every;
    l->deadline = DAY_NONE;
}

static void
next(const struct reckoning *r, const struct interval *every, size_t i,
    struct limit *l)
{
    const struct usage *u =
        every->kind->meter == METER_HOURS ? &r->hours : &r->distance;
    const struct completion *done = &r->done[i];
    int64_t at = reading_at(u, done, every->kind->meter);
    int64_t amount = amount_on_meter(every, r->task->subject);
    struct usage stated = {
        .yearly = u->yearly, .spells = u->spells, .n_spells = u->n_spells};

    /* Where the meter stood is not known: so much use from that day on. */
    if (at == USAGE_UNKNOWN)
        l->forecast =
            usage_forecast(&stated, (struct reading){done->day, 0}, amount);
    else
        l->forecast =
            usage_forecast(u, (struct reading){done->day, at}, at + amount);
    l->due_reading = at == USAGE_UNKNOWN ? -1 : at + amount;
    l->deadline = chosen_day(r->task->rule, &l->forecast);
    if (l->deadline != DAY_NONE)
        l->deadline = day_later(l->deadline, done->day);
    say_forecast(r, every, done->day, l);
}

const struct interval_kind kind_distance = {
    .form = "N km|miles",
    .meter = METER_DISTANCE,
    .parse = parse_distance,
    .first = first,
    .next = next,
};

const struct interval_kind kind_hours = {
    .form = "N hours",
    .meter = METER_HOURS,
    .parse = parse_hours,
    .first = first,
    .next = next,
};
