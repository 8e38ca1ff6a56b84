#include "reading_check.h"

#include <stdio.h>
#include <stdlib.h>
#include <sysexits.h>

/* The most that a meter can count in a day, and why. */
struct bound {
    int64_t a_day;
    const char *reason;
};

/*
 * For the odometer our own policy, not a rule of anybody: a day and a night
 * without a stop at the speed of a motorway journey.  For the hours, the day
 * itself.
 */
static struct bound
bound_of(const struct record *r)
{
    static const struct bound km = {
        1500, "1500 km a day, an average of 62 km/h round the clock"};
    static const struct bound miles = {
        950, "950 miles a day, an average of 40 mph round the clock"};
    static const struct bound hours = {24, "24 hours a day"};

    if (r->meter == METER_HOURS)
        return hours;
    return r->subject->unit == UNIT_MILES ? miles : km;
}

/* What @k showed in the unit that the odometer counts now.  Of the day on which
 * that changed only the new meter is known to count it. */
static int64_t
value_now(const struct record *r, const struct known_reading *k)
{
    const struct subject *s = r->subject;
    enum distance_unit unit = s->unit;
    int is_before =
        s->unit_since != DAY_NONE &&
        (k->day < s->unit_since || (k->day == s->unit_since && r->other_unit));

    if (r->meter == METER_HOURS || k->id == 0 || !is_before)
        return k->value;
    return fleet_in_unit(k->value, fleet_other_unit(unit), unit);
}

/* Nonzero when there are more from one reading to the other than can be.  Both
 * days count: the first may have been read in its morning and the other in its
 * evening. */
static int
is_too_fast(const struct record *r, const struct known_reading *k)
{
    int64_t days = llabs((int64_t)r->day - k->day) + 1;

    return llabs(record_reading(r) - value_now(r, k)) >
           days * bound_of(r).a_day;
}

static int
say(struct reading_doubt *s, const char *why)
{
    snprintf(s->why, sizeof s->why, "%s", why);
    return 1;
}

static int
say_too_fast(const struct record *r, struct reading_doubt *s, const char *what)
{
    int64_t days = llabs((int64_t)r->day - s->against.day) + 1;

    snprintf(s->why, sizeof s->why,
        "%s than can be in that time (%lld %s in %lld day%s; at most %s)", what,
        (long long)llabs(record_reading(r) - value_now(r, &s->against)),
        fleet_meter_word(r->subject, r->meter), (long long)days,
        days == 1 ? "" : "s", bound_of(r).reason);
    return 1;
}

/* Nonzero when @r cannot follow the reading @s is set to. */
static int
against_earlier(const struct record *r, struct reading_doubt *s)
{
    const struct known_reading *k = &s->against;

    if (!k->found || r->kind == RECORD_REPLACED)
        return 0;
    int64_t change = record_reading(r) - value_now(r, k);
    /* A vehicle is checked by each of its drivers, so several times a day, and
     * has gone on in between. */
    if (k->day == r->day && change != 0 && !k->fitted &&
        (r->kind != RECORD_CHECKED || change < 0))
        return say(s, "another value for the same day");
    if (change < 0)
        return say(s, "backwards");
    return is_too_fast(r, k) ? say_too_fast(r, s, "more") : 0;
}

/* The same of one that it cannot go before. */
static int
against_later(const struct record *r, struct reading_doubt *s)
{
    const struct known_reading *k = &s->against;

    if (!k->found)
        return 0;
    if (value_now(r, k) < record_reading(r))
        return say(s, "backwards");
    return is_too_fast(r, k) ? say_too_fast(r, s, "less") : 0;
}

/* Take the reading that @t states for the one before, or after, @r, where it
 * is nearer than what is on record. */
static void
take_stated(const struct task *t, const struct record *r,
    struct reading_doubt *before, struct reading_doubt *after)
{
    const struct baseline *b = &t->baseline;
    struct known_reading k = {
        .found = 1, .day = b->last, .value = b->last_reading[r->meter]};
    int is_after = b->last > r->day;
    struct reading_doubt *s = is_after ? after : before;
    const struct known_reading *a = &s->against;
    /* One that was fitted ends what can be compared. */
    int known = a->found || a->fitted;

    if (b->last == DAY_NONE || k.value < 0)
        return;
    if (!known || (is_after ? k.day < a->day : k.day > a->day)) {
        s->against = k;
        s->stated = t;
    }
}

int
reading_check(const struct fleet *fleet, struct ledger *l,
    const struct record *r, struct reading_doubt *out, struct fault *f)
{
    struct reading_doubt before = {0};
    struct reading_doubt after = {0};

    if (records_readings_around(l, r->subject_id, r->meter, r->day,
            &before.against, &after.against, f))
        return -1;
    for (size_t i = 0; i < r->subject->n_tasks; i++)
        take_stated(
            &fleet->tasks[r->subject->first_task + i], r, &before, &after);
    if (against_earlier(r, &before))
        *out = before;
    else if (against_later(r, &after))
        *out = after;
    else
        return 0;
    return 1;
}

static int
refuse_stated(const struct record *r, const struct reading_doubt *s,
    const char *say_sure, struct fault *f)
{
    char day[DAY_WORDS];
    char own[DAY_WORDS];
    const char *job = s->stated->job->id;

    return fault_set(f, EX_DATAERR,
        "%s showed %lld on %s (%s.last-reading in the fleet file), so %lld on "
        "%s is %s; if the fleet file is wrong, correct it; if both are right, "
        "%s; if the meter was replaced: ostler reading %s N --on DAY "
        "--new-meter",
        r->subject->id, (long long)s->against.value,
        day_words(s->against.day, day), job, (long long)r->reading,
        day_words(r->day, own), s->why, say_sure, r->subject->id);
}

int
reading_check_refuse(const struct record *r, const struct reading_doubt *s,
    const char *say_sure, struct fault *f)
{
    const struct known_reading *k = &s->against;
    char day[DAY_WORDS];
    char own[DAY_WORDS];

    if (s->stated != NULL)
        return refuse_stated(r, s, say_sure, f);
    return fault_set(f, EX_DATAERR,
        "%s showed %lld on %s (record %lld), so %lld on %s is %s; if record "
        "%lld is wrong, void it: ostler record --void %lld --note TEXT; if "
        "both are right, %s; if the meter was replaced: ostler reading "
        "%s N --on DAY --new-meter",
        r->subject->id, (long long)k->value, day_words(k->day, day),
        (long long)k->id, (long long)r->reading, day_words(r->day, own), s->why,
        (long long)k->id, (long long)k->id, say_sure, r->subject->id);
}
