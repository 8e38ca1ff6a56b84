#include "due.h"

#include "span.h"

#include <stdio.h>
#include <string.h>

day_t
due_forecast_day(enum forecast_day which, const struct forecast *f)
{
    switch (which) {
    case FORECAST_EARLY:
        return f->early;
    case FORECAST_LIKELY:
        return f->likely;
    case FORECAST_LATE:
        return f->late;
    }
    return DAY_NONE;
}

day_t
due_day(const struct due *d)
{
    return d->plan_day != DAY_NONE ? d->plan_day : d->deadline;
}

const char *
due_state_word(enum due_state state)
{
    static const char *const words[] = {"failed", "no-record", "overdue",
        "needs-reading", "before-return", "due", "ahead"};

    return words[state];
}

const char *
due_step_word(enum reason_step step)
{
    static const char *const words[] = {"start", "interval", "date-kept", "age",
        "first-to-come", "forecast", "off-road", "working-day", "planned",
        "lead-time", "note"};

    return words[step];
}

const char *
due_warning_word(enum due_warning warning)
{
    switch (warning) {
    case WARN_PLAN_PASSED:
        return "plan-day-passed";
    case WARN_BOOK_NOW:
        return "book-now";
    case WARN_NO_WORKING_DAY:
        return "no-working-day";
    case WARN_HOLIDAYS_UNKNOWN:
        return "holidays-unknown";
    case WARN_OLD_READING:
        return "old-reading";
    case WARN_STATED_USE:
        return "stated-use";
    case WARN_OUT_OF_RANGE:
        return "out-of-range";
    case WARN_DONE_LATER:
        return "done-later";
    case WARN_BEFORE_RETURN:
        return "before-return";
    case WARN_BOOKED_LATE:
        return "booked-late";
    case WARN_BOOKED_PASSED:
        return "booked-day-passed";
    }
    return "";
}

/* How much time is left of a plan day that has passed. */
static void
plan_passed_text(const struct due *d, day_t today, char *out, size_t size)
{
    int left = work_calendar_between(
        d->task->calendar, step_days(today, -1), d->deadline);

    if (left > 0)
        snprintf(out, size,
            "not done on its plan day; %d working day%s left, today included, "
            "before the deadline",
            left, left == 1 ? "" : "s");
    else
        snprintf(out, size,
            "not done on its plan day, and no working day is left before the "
            "deadline");
}

const char *
due_booked_text(const struct due *d, unsigned warnings, char *out, size_t size)
{
    char day[DAY_WORDS];

    snprintf(out, size, "booked for %s%s%s", day_words(d->booked, day),
        warnings & WARN_BOOKED_LATE ? ", after the deadline" : "",
        warnings & WARN_BOOKED_PASSED ? ", which has passed" : "");
    return out;
}

/* How much time is left to book it anew; overdue says more than that. */
static void
booked_passed_text(const struct due *d, day_t today, char *out, size_t size)
{
    int left = work_calendar_between(
        d->task->calendar, step_days(today, -1), d->deadline);

    due_booked_text(d, WARN_BOOKED_PASSED, out, size);
    size_t len = strlen(out);
    if (d->deadline < today || d->no_return)
        return;
    if (left > 0)
        snprintf(out + len, size - len,
            "; %d working day%s left, today included, before the deadline",
            left, left == 1 ? " is" : "s are");
    else
        snprintf(out + len, size - len,
            "; no working day is left before the deadline");
}

static void
old_reading_text(const struct due *d, char *out, size_t size)
{
    const char *meter =
        d->to_read == METER_HOURS ? "the hour meter" : "the odometer";
    char age[SPAN_TEXT];
    char day[DAY_WORDS];

    if (d->newest_reading == DAY_NONE)
        snprintf(out, size, "there is no reading of %s: take one", meter);
    else
        snprintf(out, size,
            "the newest reading of %s, %s, is more than %s old: take a new one",
            meter, day_words(d->newest_reading, day),
            span_text(d->task->rule->reading_within, age));
}

static void
before_return_text(const struct due *d, char *out, size_t size)
{
    char day[DAY_WORDS];

    if (d->back == DAY_NONE)
        snprintf(out, size,
            "off the road with no return known: to be done before it returns");
    else
        snprintf(out, size,
            "off the road until %s: to be done before it returns",
            day_words(d->back, day));
}

const char *
due_warning_text(const struct due *d, enum due_warning warning, day_t today,
    char *out, size_t size)
{
    char day[DAY_WORDS];

    switch (warning) {
    case WARN_PLAN_PASSED:
        plan_passed_text(d, today, out, size);
        break;
    case WARN_BOOK_NOW:
        snprintf(out, size, "to be booked by %s", day_words(d->book_by, day));
        break;
    case WARN_NO_WORKING_DAY:
        snprintf(out, size, "no working day lies before the deadline");
        break;
    case WARN_HOLIDAYS_UNKNOWN:
        snprintf(out, size,
            "the holidays around the deadline are not "
            "published yet");
        break;
    case WARN_OLD_READING:
        old_reading_text(d, out, size);
        break;
    case WARN_STATED_USE:
        snprintf(out, size, "forecast from the stated use, not from readings");
        break;
    case WARN_OUT_OF_RANGE:
        snprintf(out, size,
            "no further deadline can be told: the rule has ended, or the "
            "day lies after 2199-12-31");
        break;
    case WARN_DONE_LATER:
        snprintf(out, size,
            "it cannot have been done on %s, which is still to come: correct "
            "that day, or the clock",
            day_words(d->last_done, day));
        break;
    case WARN_BEFORE_RETURN:
        before_return_text(d, out, size);
        break;
    case WARN_BOOKED_LATE:
        due_booked_text(d, WARN_BOOKED_LATE, out, size);
        break;
    case WARN_BOOKED_PASSED:
        booked_passed_text(d, today, out, size);
        break;
    }
    return out;
}

const char *
due_cycle_text(const struct cycle *c, char out[CYCLE_TEXT])
{
    char start[24] = "none";
    char day[DAY_TEXT];

    if (c->record != 0)
        snprintf(start, sizeof start, "r%lld", (long long)c->record);
    else if (c->start != DAY_NONE)
        snprintf(start, sizeof start, "d%s", day_text(c->start, day));
    if (c->ahead > 0)
        snprintf(out, CYCLE_TEXT, "%s+%d", start, c->ahead);
    else
        snprintf(out, CYCLE_TEXT, "%s", start);
    return out;
}
