#include "compute.h"

#include "decide.h"
#include "isoweek.h"
#include "length.h"
#include "reasons.h"
#include "span.h"

static int
never_due(const struct rule *rule)
{
    return rule->n_every == 1 && rule->every[0].kind == &kind_needed;
}

static const struct spell *
spell_on(const struct reckoning *r, day_t d)
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
 * day of the spell; with no return known there is no such day, and no plan.
 */
static void
wait_for_return(const struct reckoning *r, struct due *d)
{
    const struct spell *s =
        d->deadline == DAY_NONE ? NULL : spell_on(r, d->deadline);

    if (s == NULL)
        return;
    if (s->until == DAY_NONE)
        reasons_add(r->why, REASON_OFF_ROAD, d->deadline, DAY_NONE,
            "off the road since %s with no return known: to be done before "
            "it returns",
            day_words(s->from, (char[DAY_WORDS]){0}));
    else
        reasons_add(r->why, REASON_OFF_ROAD, d->deadline, s->until,
            "off the road from %s to %s: to be done before it returns",
            day_words(s->from, (char[DAY_WORDS]){0}),
            day_words(s->until, (char[DAY_WORDS]){0}));
    d->state = DUE_BEFORE_RETURN;
    d->deadline = s->until;
}

/* Why nothing can be done on @day, in a few words. */
static const char *
closed_words(const struct task *t, day_t day)
{
    const char *name = workcal_why(t->calendar, day);

    return name != NULL ? name : "not a working day";
}

/* Name every holiday passed over between the two days, at most a few. */
static void
say_roll(const struct reckoning *r, day_t from, day_t to)
{
    int step = to < from ? -1 : 1;
    int said = 0;

    if (r->why == NULL || from == to)
        return;
    for (day_t d = from; d != to; d += step) {
        const char *name = workcal_why(r->task->calendar, d);
        if ((name == NULL && d != from) || said++ > 3)
            continue;
        reasons_add(r->why, REASON_NOTE, from, from, "%s: %s",
            day_words(d, (char[DAY_WORDS]){0}), closed_words(r->task, d));
    }
    reasons_add(r->why, REASON_ROLL, from, to, "%s working day %s",
        step < 0 ? "the last" : "the first",
        step < 0 ? "before that" : "after that");
}

/* Following and nearest move the deadline itself, where the class is not law
 * and the rule asks for it. */
static void
roll_deadline(const struct reckoning *r, struct due *d)
{
    const struct task *t = r->task;
    day_t rolled = d->deadline;

    if (d->deadline == DAY_NONE || t->job->class == CLASS_LAW)
        return;
    if (t->rule->roll == ROLL_FOLLOWING)
        rolled = workcal_following(t->calendar, d->deadline);
    else if (t->rule->roll == ROLL_NEAREST)
        rolled = workcal_nearest(t->calendar, d->deadline);
    if (rolled == DAY_NONE)
        return;
    say_roll(r, d->deadline, rolled);
    d->deadline = rolled;
}

static void
choose_plan_day(const struct reckoning *r, struct due *d)
{
    day_t plan = workcal_preceding(r->task->calendar, d->deadline);
    day_t earliest = r->n_done ? d->cycle.start : DAY_NONE;

    if (d->deadline == DAY_NONE)
        return;
    if (plan == DAY_NONE || plan < earliest) {
        d->warnings |= WARN_NO_WORKING_DAY;
        return;
    }
    say_roll(r, d->deadline, plan);
    d->plan_day = plan;
}

static void
choose_book_by(const struct reckoning *r, struct due *d)
{
    const struct lead *lead = &r->task->rule->lead;
    const struct workcal *calendar = r->task->calendar;
    char text[SPAN_TEXT];

    if (d->plan_day == DAY_NONE || lead->span.n == 0)
        return;
    if (lead->working)
        d->book_by = workcal_add(calendar, d->plan_day, -lead->span.n);
    else
        d->book_by = workcal_preceding(
            calendar, step_span(d->plan_day, lead->span, -1, MONTH_END_CLAMP));
    reasons_add(r->why, REASON_LEAD, d->plan_day, d->book_by,
        "to be booked %s%s ahead", span_text(lead->span, text),
        lead->working ? " of work" : "");
}

static void
warn_of_holidays(const struct reckoning *r, struct due *d)
{
    day_t until = workcal_known_until(r->task->calendar);

    if (until == DAY_NONE || d->deadline == DAY_NONE || d->deadline <= until)
        return;
    d->warnings |= WARN_HOLIDAYS_UNKNOWN;
    reasons_add(r->why, REASON_NOTE, d->deadline, d->deadline,
        "the holidays are known only to %s: check that day nearer the time",
        day_words(until, (char[DAY_WORDS]){0}));
}

static struct cycle
cycle_of(const struct reckoning *r)
{
    const struct completion *last = r->n_done ? &r->done[r->n_done - 1] : NULL;
    day_t origin = length_origin(r->task, r->task->rule->first.origin);

    if (last != NULL)
        return (struct cycle){last->record, last->day, 0};
    if (r->task->baseline.deadline != DAY_NONE)
        origin = r->task->baseline.deadline;
    return (struct cycle){0, origin, 0};
}

static void
take_meter(const struct decision *all, struct due *d)
{
    for (int i = 0; i < all->n; i++)
        if (d->due_reading < 0 && all->each[i].forecast.basis)
            d->forecast = all->each[i].forecast;
    for (int i = 0; i < all->n; i++)
        if (all->each[i].due_reading >= 0)
            d->due_reading = all->each[i].due_reading;
    if (d->forecast.basis == FORECAST_STATED)
        d->warnings |= WARN_STATED_USE;
}

int
compute_due(const struct reckoning *r, struct due *out)
{
    struct decision all;

    if (never_due(r->task->rule))
        return 0;
    *out = (struct due){.task = r->task,
        .cycle = cycle_of(r),
        .state = DUE_AHEAD,
        .deadline = DAY_NONE,
        .plan_day = DAY_NONE,
        .book_by = DAY_NONE,
        .last_done = DAY_NONE,
        .due_reading = -1,
        .forecast = {FORECAST_NONE, DAY_NONE, DAY_NONE, DAY_NONE}};
    decide_limits(r, &all);
    take_meter(&all, out);
    if (all.decides >= 0)
        out->deadline = all.each[all.decides].deadline;
    if (all.meter_unknown)
        out->state = DUE_NEEDS_READING;
    else if (all.decides < 0 && r->n_done == 0)
        out->state = DUE_NO_RECORD;
    else if (all.decides < 0)
        out->warnings |= WARN_OUT_OF_RANGE;
    wait_for_return(r, out);
    roll_deadline(r, out);
    warn_of_holidays(r, out);
    choose_plan_day(r, out);
    choose_book_by(r, out);
    return 1;
}

static void
warn_of_old_reading(const struct reckoning *r, day_t today, struct due *d)
{
    const struct usage *u =
        r->hours.n > 0 && r->distance.n == 0 ? &r->hours : &r->distance;
    struct span within = r->task->rule->reading_within;

    if (d->due_reading < 0 && d->forecast.basis == FORECAST_NONE)
        return;
    if (within.n == 0 || u->n == 0 ||
        step_span(u->readings[u->n - 1].day, within, 1, MONTH_END_CLAMP) >=
            today)
        return;
    d->warnings |= WARN_OLD_READING;
    if (d->state == DUE_AHEAD)
        d->state = DUE_NEEDS_READING;
}

static int
by_this_week(day_t d, day_t today)
{
    return d != DAY_NONE && d <= isoweek_last(today);
}

void
compute_state(const struct reckoning *r, day_t today, struct due *d)
{
    /* Overdue says more than either of these. */
    int ahead = d->deadline != DAY_NONE && d->deadline >= today;
    if (ahead && d->plan_day != DAY_NONE && d->plan_day < today)
        d->warnings |= WARN_PLAN_PASSED;
    else if (ahead && d->book_by != DAY_NONE && d->book_by <= today)
        d->warnings |= WARN_BOOK_NOW;
    warn_of_old_reading(r, today, d);
    if (d->deadline != DAY_NONE && d->deadline < today)
        d->state = DUE_OVERDUE;
    else if (d->state == DUE_AHEAD && (by_this_week(d->plan_day, today) ||
                                          by_this_week(d->deadline, today)))
        d->state = DUE_NOW;
}
