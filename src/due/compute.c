#include "compute.h"

#include "booked.h"
#include "calendar_interval.h"
#include "earliest_limit.h"
#include "early.h"
#include "isoweek.h"
#include "kind.h"
#include "reasons.h"
#include "span.h"

#include <stdio.h>
#include <string.h>

static const struct spell *
spell_on(const struct calc_context *r, day_t d)
{
    for (size_t i = 0; i < r->n_spells; i++) {
        const struct spell *s = &r->spells[i];
        if (s->from <= d && (s->until == DAY_NONE || s->until >= d))
            return s;
    }
    return NULL;
}

/*
 * A deadline in a spell off the road is due before the return, so by the last
 * day of the spell.  With no return known the deadline stays to be seen.
 */
static void
wait_for_return(const struct calc_context *r, struct due *d)
{
    const struct spell *s =
        d->deadline == DAY_NONE ? NULL : spell_on(r, d->deadline);

    if (s == NULL)
        return;
    if (s->until == DAY_NONE)
        reasons_add(r->why, REASON_OFF_ROAD, d->deadline, d->deadline,
            "off the road from %s with no return known: to be done before it "
            "returns, if that is later",
            day_words(s->from, (char[DAY_WORDS]){0}));
    else
        reasons_add(r->why, REASON_OFF_ROAD, d->deadline, s->until,
            "off the road from %s to %s: to be done before it returns",
            day_words(s->from, (char[DAY_WORDS]){0}),
            day_words(s->until, (char[DAY_WORDS]){0}));
    d->state = DUE_BEFORE_RETURN;
    d->no_return = s->until == DAY_NONE;
    if (!d->no_return)
        d->deadline = s->until;
}

/* The last day from @d on, in steps of @step, that is closed for the same
 * reason; days that only the week closes go along. */
static day_t
same_closure(const struct work_calendar *c, day_t d, day_t to, int step)
{
    const char *name = work_calendar_why(c, d);
    day_t last = d;

    for (day_t next = d + step; next != to; next += step) {
        const char *other = work_calendar_why(c, next);
        if (other != NULL && (name == NULL || strcmp(other, name) != 0))
            break;
        if (other != NULL)
            last = next;
    }
    return last;
}

static void
say_closed(const struct calc_context *r, day_t at, day_t first, day_t last)
{
    const char *name = work_calendar_why(r->task->calendar, first);
    char a[DAY_WORDS];
    char b[DAY_WORDS];

    day_words(first < last ? first : last, a);
    day_words(first < last ? last : first, b);
    if (first == last)
        reasons_add(r->why, REASON_NOTE, at, at, "%s: %s", a,
            name ? name : "not a working day");
    else
        reasons_add(r->why, REASON_NOTE, at, at, "%s to %s: %s", a, b, name);
}

/* Name every holiday and closure that was passed over. */
static void
say_roll(const struct calc_context *r, day_t from, day_t to)
{
    const struct work_calendar *c = r->task->calendar;
    int step = to < from ? -1 : 1;

    if (r->why == NULL || from == to)
        return;
    for (day_t d = from; d != to; d += step) {
        if (work_calendar_why(c, d) == NULL && d != from)
            continue;
        day_t last = same_closure(c, d, to, step);
        say_closed(r, from, d, last);
        d = last;
    }
    reasons_add(r->why, REASON_ROLL, from, to, "%s working day %s",
        step < 0 ? "the last" : "the first",
        step < 0 ? "before that" : "after that");
}

/* Nonzero when the subject is off the road on a day from @from to @to. */
static int
is_off_between(const struct calc_context *r, day_t from, day_t to)
{
    for (size_t i = 0; i < r->n_spells; i++) {
        const struct spell *s = &r->spells[i];
        if (s->from <= to && (s->until == DAY_NONE || s->until >= from))
            return 1;
    }
    return 0;
}

/* Following and nearest move the deadline itself, where the class is not law
 * and the rule asks for it; but never past a return to the road, and not into
 * a spell off it, where the deadline would be put off until the return. */
static void
roll_deadline(const struct calc_context *r, struct due *d)
{
    const struct task *t = r->task;
    day_t rolled = d->deadline;

    if (d->deadline == DAY_NONE || t->job->class == CLASS_LAW)
        return;
    if (t->rule->roll == ROLL_FOLLOWING)
        rolled = work_calendar_following(t->calendar, d->deadline);
    else if (t->rule->roll == ROLL_NEAREST)
        rolled = work_calendar_nearest(t->calendar, d->deadline);
    if (rolled == DAY_NONE)
        return;
    if (rolled > d->deadline && is_off_between(r, d->deadline, rolled)) {
        reasons_add(r->why, REASON_NOTE, d->deadline, d->deadline,
            "not rolled to %s, for it is off the road between",
            day_words(rolled, (char[DAY_WORDS]){0}));
        return;
    }
    say_roll(r, d->deadline, rolled);
    d->deadline = rolled;
}

/* The last working day that is not after the deadline: never a later one, even
 * where there is none. */
static void
choose_plan_day(
    const struct calc_context *r, const struct decision *all, struct due *d)
{
    day_t plan = work_calendar_preceding(r->task->calendar, d->deadline);

    if (d->deadline == DAY_NONE)
        return;
    /* On a day before that, the work would be done and still be due. */
    if (plan == DAY_NONE || plan < early_counts(r, all, d)) {
        d->warnings |= WARN_NO_WORKING_DAY;
        return;
    }
    say_roll(r, d->deadline, plan);
    d->plan_day = plan;
}

/* A plan has it done earlier; never after the deadline. */
static void
follow_plan(const struct calc_context *r, struct due *d)
{
    const char *why = "";
    day_t last = d->plan_day;

    if (r->planned == NULL || last == DAY_NONE || d->booked != DAY_NONE)
        return;
    day_t day = r->planned(r->planned_with, r->task, d->deadline, &why);
    if (day == DAY_NONE || day == last || day > d->deadline)
        return;
    reasons_add(r->why, REASON_PLAN, last, day, "by the plan: %s", why);
    d->plan_day = day;
}

/*
 * What somebody booked is so, whatever else is wished.  After the deadline it
 * moves no day beyond that: the deadline stays the last day, and is said.
 */
static void
follow_booking(const struct calc_context *r, struct due *d)
{
    const struct booked *b =
        booked_for(r, r->now ? r->now : &d->cycle, d->deadline);
    char text[64];

    if (b == NULL)
        return;
    d->booked = b->day;
    d->booking = b->id;
    int late = !d->no_return && d->deadline != DAY_NONE && b->day > d->deadline;
    if (late)
        d->warnings |= WARN_BOOKED_LATE;
    day_t before = d->plan_day != DAY_NONE ? d->plan_day : d->deadline;
    d->plan_day = late ? d->deadline : b->day;
    reasons_add(r->why, REASON_PLAN, before, d->plan_day, "%s%s%s%s%s%s",
        due_booked_text(d, d->warnings, text, sizeof text),
        b->by ? ", by " : "", b->by ? b->by : "", b->note ? " (" : "",
        b->note ? b->note : "", b->note ? ")" : "");
}

/* A day that is booked needs no more arranging. */
static void
choose_book_by(const struct calc_context *r, struct due *d)
{
    const struct lead *lead = &r->task->rule->lead;
    const struct work_calendar *calendar = r->task->calendar;
    char text[SPAN_TEXT];

    if (d->plan_day == DAY_NONE || d->booked != DAY_NONE || lead->span.n == 0)
        return;
    if (lead->working)
        d->book_by = work_calendar_add(calendar, d->plan_day, -lead->span.n);
    else
        d->book_by = work_calendar_preceding(
            calendar, step_span(d->plan_day, lead->span, -1, MONTH_END_CLAMP));
    if (r->why == NULL)
        return;
    if (lead->working)
        snprintf(text, sizeof text, "%d working day%s", lead->span.n,
            lead->span.n == 1 ? "" : "s");
    else
        span_text(lead->span, text);
    reasons_add(r->why, REASON_LEAD, d->plan_day, d->book_by,
        "to be booked %s ahead", text);
}

static void
warn_of_holidays(const struct calc_context *r, struct due *d)
{
    day_t until = work_calendar_known_until(r->task->calendar);

    if (until == DAY_NONE || d->deadline == DAY_NONE || d->deadline <= until)
        return;
    d->warnings |= WARN_HOLIDAYS_UNKNOWN;
    reasons_add(r->why, REASON_NOTE, d->deadline, d->deadline,
        "the holidays are known only to %s: check that day nearer the time",
        day_words(until, (char[DAY_WORDS]){0}));
}

/* Named after the work that it runs from.   Before any work it is named after
 * the day it counts from, so that the name stays while that does. */
static struct cycle
cycle_of(const struct calc_context *r, const struct decision *all)
{
    size_t from = all->decides < 0 ? r->n_done : all->each[all->decides].from;
    day_t origin =
        calendar_interval_origin(r->task, r->task->rule->first.origin);

    if (from > 0)
        return (struct cycle){
            r->done[from - 1].record, r->done[from - 1].day, 0};
    if (r->task->baseline.deadline != DAY_NONE)
        origin = r->task->baseline.deadline;
    return (struct cycle){0, origin, 0};
}

static day_t
newest_reading(const struct calc_context *r, enum meter meter)
{
    const struct usage *u = meter == METER_HOURS ? &r->hours : &r->distance;

    return u->n > 0 ? u->readings[u->n - 1].day : DAY_NONE;
}

/* The due asks for a reading of @meter first of all. */
static void
need_reading(const struct calc_context *r, enum meter meter, struct due *d)
{
    d->state = DUE_NEEDS_READING;
    d->to_read = meter;
    d->newest_reading = newest_reading(r, meter);
}

/* What the meter says: for the limit that decides when it goes by one, else
 * for the first that does. */
static void
take_meter(
    const struct calc_context *r, const struct decision *all, struct due *d)
{
    const struct limit *by = NULL;

    for (int i = 0; i < all->n; i++) {
        const struct limit *l = &all->each[i];
        int metered = l->due_reading >= 0 || l->forecast.basis;
        if (metered && (by == NULL || i == all->decides))
            by = l;
    }
    if (by == NULL)
        return;
    d->meter = r->task->rule->every[by - all->each].kind->meter;
    d->forecast = by->forecast;
    d->due_reading = by->due_reading;
    d->newest_reading = newest_reading(r, d->meter);
    if (d->forecast.basis == FORECAST_STATED)
        d->warnings |= WARN_STATED_USE;
}

static struct due
undated(const struct calc_context *r)
{
    return (struct due){.task = r->task,
        .state = DUE_AHEAD,
        .besides = DUE_AHEAD,
        .deadline = DAY_NONE,
        .plan_day = DAY_NONE,
        .booked = DAY_NONE,
        .book_by = DAY_NONE,
        .back = DAY_NONE,
        .last_done = DAY_NONE,
        .due_reading = -1,
        .newest_reading = DAY_NONE,
        .forecast = {.basis = FORECAST_NONE,
            .early = DAY_NONE,
            .likely = DAY_NONE,
            .late = DAY_NONE},
        .failed = r->failed};
}

void
compute_undated(const struct calc_context *r, struct due *out)
{
    /* What a follow-on runs from is what called for it, not its own past. */
    int follows = r->task->job->n_follows > 0;
    const struct completion *done = follows ? r->answers : r->done;
    size_t n = follows ? r->n_answers : r->n_done;

    *out = undated(r);
    /* It stays the same, however often it fails, until it is done. */
    out->cycle = (struct cycle){0, DAY_NONE, 0};
    if (n > 0)
        out->cycle = (struct cycle){done[n - 1].record, done[n - 1].day, 0};
    earliest_limit_say_failed(r, DAY_NONE);
}

/* First the deadline and where it comes from, then what moves it, then the days
 * that depend on it.   While the return is not known there is nothing to
 * plan. */
int
compute_due(const struct calc_context *r, struct due *out, struct decision *all)
{
    if (kind_never_due(r->task->rule))
        return 0;
    *out = undated(r);
    earliest_limit_find(r, all);
    out->cycle = cycle_of(r, all);
    take_meter(r, all, out);
    if (all->decides >= 0)
        out->deadline = all->each[all->decides].deadline;
    if (all->unknown != METER_NONE)
        need_reading(r, all->unknown, out);
    else if (r->unread != METER_NONE)
        need_reading(r, r->unread, out);
    else if (all->decides < 0 && r->n_done == 0)
        out->state = DUE_NO_RECORD;
    else if (all->decides < 0)
        out->warnings |= WARN_OUT_OF_RANGE;
    wait_for_return(r, out);
    if (!out->no_return) {
        roll_deadline(r, out);
        warn_of_holidays(r, out);
        choose_plan_day(r, all, out);
    }
    follow_booking(r, out);
    if (out->no_return)
        return 1;
    follow_plan(r, out);
    choose_book_by(r, out);
    return 1;
}

/* The first meter that @r's rule goes by and whose newest reading is older than
 * the rule tolerates, as one that was never read always is; or METER_NONE. */
static enum meter
old_meter(const struct calc_context *r, day_t today)
{
    const struct rule *rule = r->task->rule;
    struct span within = rule->reading_within;

    for (int i = 0; i < rule->n_every && within.n > 0; i++) {
        enum meter meter = rule->every[i].kind->meter;
        if (meter == METER_NONE)
            continue;
        day_t day = newest_reading(r, meter);
        if (day == DAY_NONE ||
            step_span(day, within, 1, MONTH_END_CLAMP) < today)
            return meter;
    }
    return METER_NONE;
}

static void
warn_of_old_reading(const struct calc_context *r, day_t today, struct due *d)
{
    if (d->due_reading < 0 && d->forecast.basis == FORECAST_NONE)
        return;
    enum meter old = old_meter(r, today);
    if (old == METER_NONE)
        return;
    d->warnings |= WARN_OLD_READING;
    d->to_read = old;
    d->newest_reading = newest_reading(r, old);
    if (d->state == DUE_AHEAD)
        d->state = DUE_NEEDS_READING;
}

/* What was overdue before the spell stays so, and is due before the return. */
static void
warn_of_return(const struct calc_context *r, day_t today, struct due *d)
{
    const struct spell *s = spell_on(r, today);

    if (s == NULL || d->deadline == DAY_NONE || d->deadline >= today)
        return;
    d->warnings |= WARN_BEFORE_RETURN;
    d->back = s->until;
}

static int
by_this_week(day_t d, day_t today)
{
    return d != DAY_NONE && d <= isoweek_end(today);
}

/* By the days alone, whatever failed. */
static void
state_by_days(const struct calc_context *r, day_t today, struct due *d)
{
    /* Overdue says more than either of these. */
    int ahead = d->deadline != DAY_NONE && d->deadline >= today;
    if (d->booked != DAY_NONE && d->booked < today)
        d->warnings |= WARN_BOOKED_PASSED;
    else if (ahead && d->plan_day != DAY_NONE && d->plan_day < today)
        d->warnings |= WARN_PLAN_PASSED;
    else if (ahead && d->book_by != DAY_NONE && d->book_by <= today)
        d->warnings |= WARN_BOOK_NOW;
    if (d->last_done != DAY_NONE && d->last_done > today)
        d->warnings |= WARN_DONE_LATER;
    warn_of_old_reading(r, today, d);
    if (d->no_return)
        return;
    warn_of_return(r, today, d);
    if (d->deadline != DAY_NONE && d->deadline < today)
        d->state = DUE_OVERDUE;
    else if (d->state == DUE_AHEAD && (by_this_week(d->plan_day, today) ||
                                          by_this_week(d->deadline, today)))
        d->state = DUE_NOW;
}

void
compute_state(const struct calc_context *r, day_t today, struct due *d)
{
    state_by_days(r, today, d);
    d->besides = d->state;
    if (d->failed != NULL)
        d->state = DUE_FAILED;
}
