#include "buf.h"
#include "calc_context.h"
#include "calm.h"
#include "reasons.h"
#include "scan.h"
#include "span.h"

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

static void
print(const struct interval *every, struct buf *out)
{
    buf_print(out, "%lld %s", (long long)every->amount,
        every->kind->meter == METER_HOURS ? "hours"
                                          : fleet_unit_word(every->unit));
}

/* The amount in the unit that the subject's meter counts, without its fraction
 * so that the due reading errs early. */
static int64_t
amount_on_meter(const struct interval *every, const struct subject *s)
{
    if (every->kind->meter == METER_HOURS)
        return every->amount;
    return fleet_in_unit(every->amount, every->unit, s->unit);
}

/* Nonzero when the meter showed less than @value after @day. */
static int
is_lower_later(const struct usage *u, day_t day, int64_t value)
{
    for (size_t i = u->n; i > 0 && u->readings[i - 1].day > day; i--)
        if (u->readings[i - 1].value < value)
            return 1;
    return 0;
}

/* Where the meter stood when the job was done: as noted then, else from the
 * readings around that day.  These also tell which is wrong when a later one
 * is lower: a slip of the pen would put off what is due for years.  With no
 * reading on one side it is guessed, which sets @guessed. */
static int64_t
reading_at(const struct usage *u, const struct completion *done,
    enum meter meter, int *guessed)
{
    int64_t noted = done->reading[meter];

    *guessed = 0;
    if (noted != USAGE_UNKNOWN && !is_lower_later(u, done->day, noted))
        return noted;
    int64_t around = usage_at(u, done->day);
    if (noted != USAGE_UNKNOWN && around >= noted)
        return noted;
    *guessed = !usage_is_between(u, done->day);
    return around;
}

/* The cycle that runs from the completion at @i, named as its due is.  Where
 * none has happened yet only the number counts. */
static struct cycle
cycle_from(const struct calc_context *r, size_t i)
{
    int ahead = 0;

    for (; i > 0 && r->done[i].assumed; i--)
        ahead++;
    if (r->done[i].assumed)
        return (struct cycle){0, DAY_NONE, ahead + 1};
    return (struct cycle){r->done[i].record, r->done[i].day, ahead};
}

/* The forecast of @l under the name by which it is held. */
static struct held
held_of(const struct calc_context *r, const struct interval *every, size_t i,
    const struct limit *l, char cycle[CYCLE_TEXT])
{
    struct cycle c = cycle_from(r, i);

    return (struct held){.subject = r->task->subject->id,
        .job = r->task->job->id,
        .cycle = due_cycle_text(&c, cycle),
        .meter = every->kind->meter,
        .forecast = l->forecast};
}

/* Go by what calendars show, where that is asked for. */
static void
settle(const struct calc_context *r, const struct interval *every, size_t i,
    struct limit *l)
{
    char cycle[CYCLE_TEXT];

    if (r->calm == NULL)
        return;
    struct held h = held_of(r, every, i, l, cycle);
    calm_settle(r->calm, r->task->rule->forecast, &h);
    l->forecast = h.forecast;
}

static void
say_kept(const struct calc_context *r, const struct interval *every, size_t i,
    const struct limit *l)
{
    char cycle[CYCLE_TEXT];
    char off[SPAN_TEXT];

    if (r->calm == NULL || r->why == NULL || l->deadline == DAY_NONE)
        return;
    struct held h = held_of(r, every, i, l, cycle);
    day_t kept = calm_kept(r->calm, r->task->rule->forecast, &h);
    if (kept != DAY_NONE)
        reasons_add(r->why, REASON_NOTE, l->deadline, l->deadline,
            "calendars and mail keep %s until it is %s later",
            day_words(kept, (char[DAY_WORDS]){0}),
            span_text(calm_length(r->calm), off));
}

/* What else the readings told, which calendars would only waver with. */
static void
say_readings(const struct calc_context *r, const struct limit *l)
{
    size_t n = l->forecast.left_out;

    if (calm_settles(r->calm) || l->forecast.basis != FORECAST_READINGS)
        return;
    if (n > 0)
        reasons_add(r->why, REASON_NOTE, l->deadline, l->deadline,
            "%zu reading%s cannot be right beside the others and %s left out",
            n, n == 1 ? "" : "s", n == 1 ? "is" : "are");
    if (l->forecast.seasonal)
        reasons_add(r->why, REASON_NOTE, l->deadline, l->deadline,
            "the use of each time of the year is counted");
}

/* Where the meter will stand when the job has been done is itself foretold, and
 * moves with every reading: calendars would waver with it. */
static void
say_due_reading(const struct completion *done, const struct limit *l,
    const char *unit, char *out, size_t size)
{
    if (done->assumed)
        out[0] = '\0';
    else if (l->due_reading < 0)
        snprintf(out, size, "the reading then is not known, ");
    else
        snprintf(
            out, size, "due at %lld %s, ", (long long)l->due_reading, unit);
}

static void
say_forecast(const struct calc_context *r, const struct interval *every,
    const struct completion *done, const struct limit *l)
{
    static const char *const basis[] = {"", "by the stated yearly use",
        "by the readings", "a reading already shows it"};
    const char *unit = fleet_meter_word(r->task->subject, every->kind->meter);
    day_t from = done->day;
    char at[48];

    if (r->why == NULL)
        return;
    if (l->deadline == DAY_NONE) {
        reasons_add(r->why, REASON_NOTE, from, from,
            "every %s (%s): no reading and no stated yearly use to go by",
            every->text, fleet_class_word(r->task->job->class));
        return;
    }
    say_due_reading(done, l, unit, at, sizeof at);
    reasons_add(r->why, REASON_FORECAST, from, l->deadline,
        "every %s (%s): %s%s between %s and %s, likely %s", every->text,
        fleet_class_word(r->task->job->class), at, basis[l->forecast.basis],
        day_words(l->forecast.early, (char[DAY_WORDS]){0}),
        day_words(l->forecast.late, (char[DAY_WORDS]){0}),
        day_words(l->forecast.likely, (char[DAY_WORDS]){0}));
    say_readings(r, l);
}

/* Before the first time only the calendar can tell. */
static void
first(
    const struct calc_context *r, const struct interval *every, struct limit *l)
{
    (void)r;
    (void)every;
    l->deadline = DAY_NONE;
}

static void
next(const struct calc_context *r, const struct interval *every, size_t i,
    struct limit *l)
{
    const struct usage *u =
        every->kind->meter == METER_HOURS ? &r->hours : &r->distance;
    const struct completion *done = &r->done[i];
    int guessed;
    int64_t at = reading_at(u, done, every->kind->meter, &guessed);
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
    /* A day may go by a guess, but no reading is shown that nobody took. */
    l->due_reading = at == USAGE_UNKNOWN || guessed ? -1 : at + amount;
    settle(r, every, i, l);
    l->deadline = due_forecast_day(r->task->rule->forecast, &l->forecast);
    if (l->deadline != DAY_NONE)
        l->deadline = day_later(l->deadline, done->day);
    say_forecast(r, every, done, l);
    say_kept(r, every, i, l);
}

const struct interval_kind kind_distance = {
    .form = "N km|miles",
    .meter = METER_DISTANCE,
    .parse = parse_distance,
    .print = print,
    .first = first,
    .next = next,
};

const struct interval_kind kind_hours = {
    .form = "N hours",
    .meter = METER_HOURS,
    .parse = parse_hours,
    .print = print,
    .first = first,
    .next = next,
};
