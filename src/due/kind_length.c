#include "buf.h"
#include "calc_context.h"
#include "calendar_interval.h"
#include "fixed_series.h"
#include "reasons.h"
#include "span.h"
#include "window.h"

/* "6 weeks", "12 months": a length of time on the calendar. */

static int
parse(struct scan *s, struct arena *a, struct interval *out)
{
    (void)a;
    return span_scan(s, &out->span) && out->span.n > 0 ? 0 : -1;
}

static void
print(const struct interval *every, struct buf *out)
{
    buf_text(out, span_text(every->span, (char[SPAN_TEXT]){0}));
}

static const char *
ends_words(enum ends ends)
{
    static const char *const words[] = {"", ", to the day before",
        ", to the end of the month", ", to the end of the ISO week"};

    return words[ends];
}

/* Working from a deadline keeps its end of the month, and nothing else of the
 * kind of end: the deadline already is one. */
static enum ends
ends_from_deadline(const struct rule *rule)
{
    return rule->ends == ENDS_MONTH_END ? ENDS_MONTH_END : ENDS_SAME_DAY;
}

/* How many days of @s lie after @from, up to and including @to. */
static int64_t
overlap(const struct spell *s, day_t from, day_t to)
{
    day_t first = day_later(s->from, from + 1);
    day_t last = s->until == DAY_NONE ? to : s->until;

    return last < first || first > to ? 0 : (int64_t)last - first + 1;
}

/*
 * A waiting job does not count the days off the road.  A closed spell counts
 * whole once it begins before the deadline, which it then pushes past itself;
 * an open one is left to the step that says "before return".
 */
static day_t
lengthened_by_spells(const struct calc_context *r, day_t anchor, day_t deadline)
{
    if (r->task->rule->off_road != OFF_ROAD_WAITS)
        return deadline;
    for (size_t i = 0; i < r->n_spells && deadline != DAY_NONE; i++) {
        const struct spell *s = &r->spells[i];
        int64_t days = s->until == DAY_NONE ? 0 : overlap(s, anchor, deadline);
        if (days == 0)
            continue;
        day_t later = step_days(deadline, days);
        reasons_add(r->why, REASON_OFF_ROAD, deadline, later,
            "off the road from %s to %s: the job waits for those %d days",
            day_words(s->from, (char[DAY_WORDS]){0}),
            day_words(s->until, (char[DAY_WORDS]){0}), (int)days);
        deadline = later;
    }
    return deadline;
}

/* The shorter interval of an age, which waits as the longer one does. */
static day_t
shorter_end(const struct calc_context *r, day_t anchor, struct span every,
    enum ends ends)
{
    struct calc_context silent = *r;

    silent.why = NULL;
    return lengthened_by_spells(&silent, anchor,
        calendar_interval_end(anchor, every, ends, r->task->rule->month_end));
}

/*
 * From an age on a shorter interval holds, but not before the birthday, which
 * is a day of the calendar and waits for nothing.  Of several, each is looked
 * at in the order of age.
 */
static day_t
shortened_by_age(
    const struct calc_context *r, day_t anchor, day_t deadline, enum ends ends)
{
    const struct rule *rule = r->task->rule;
    day_t origin = calendar_interval_origin(r->task, rule->age_from);
    char age[SPAN_TEXT];
    char every[SPAN_TEXT];

    for (int i = 0; i < rule->n_ages && deadline != DAY_NONE; i++) {
        const struct age_step *step = &rule->ages[i];
        day_t birthday = step_span(origin, step->age, 1, MONTH_END_CLAMP);
        day_t shorter =
            day_later(birthday, shorter_end(r, anchor, step->every, ends));
        if (birthday == DAY_NONE || shorter >= deadline)
            continue;
        reasons_add(r->why, REASON_AGE, deadline, shorter,
            "%s old on %s: every %s from then on", span_text(step->age, age),
            day_words(birthday, (char[DAY_WORDS]){0}),
            span_text(step->every, every));
        deadline = shorter;
    }
    return deadline;
}

static day_t
changed(
    const struct calc_context *r, day_t anchor, day_t deadline, enum ends ends)
{
    return shortened_by_age(
        r, anchor, lengthened_by_spells(r, anchor, deadline), ends);
}

/* So many months, or 0 for a length of days or weeks, of which any day may be
 * the anchor. */
static int64_t
months_of(struct span length)
{
    switch (length.unit) {
    case STEP_MONTHS:
        return length.n;
    case STEP_YEARS:
        return (int64_t)length.n * 12;
    case STEP_DAYS:
    case STEP_WEEKS:
        break;
    }
    return 0;
}

/*
 * Begin a series with @l's deadline, which came to be @length after @anchor.
 * Where it is the corresponding date, the series is counted from the anchor: a
 * short month must not cost the later ones their day.
 */
static void
begin_series(const struct interval *every, day_t anchor, struct span length,
    int corresponds, struct limit *l)
{
    int64_t months = months_of(length);
    int counts = corresponds && months > 0 && months_of(every->span) > 0;

    l->base = counts ? anchor : l->deadline;
    l->ahead = counts ? months : 0;
    l->steps = 0;
}

static day_t
day_of_series(
    const struct interval *every, enum month_end rule, const struct limit *l)
{
    if (l->ahead == 0)
        return step_span(l->base, every->span, l->steps, rule);
    return step_months(
        l->base, l->ahead + l->steps * months_of(every->span), rule);
}

/* Start afresh from the day of a completion. */
static void
restart(const struct calc_context *r, const struct interval *every,
    day_t anchor, struct limit *l)
{
    const struct rule *rule = r->task->rule;
    day_t deadline =
        calendar_interval_end(anchor, every->span, rule->ends, rule->month_end);

    reasons_add(r->why, REASON_INTERVAL, anchor, deadline, "every %s%s (%s)",
        every->text, ends_words(rule->ends),
        fleet_class_word(r->task->job->class));
    l->previous = anchor;
    l->deadline = changed(r, anchor, deadline, rule->ends);
    begin_series(every, anchor, every->span,
        rule->ends == ENDS_SAME_DAY && l->deadline == deadline, l);
}

/* Step from one deadline to the next, anchored at the first. */
static void
step_deadline(
    const struct calc_context *r, const struct interval *every, struct limit *l)
{
    const struct rule *rule = r->task->rule;
    enum ends ends = ends_from_deadline(rule);
    day_t from = l->deadline;

    l->steps++;
    day_t plain = day_of_series(every, rule->month_end, l);
    if (ends == ENDS_MONTH_END)
        plain = step_month_last(plain);
    reasons_add(r->why, REASON_INTERVAL, from, plain,
        "every %s from that deadline (%s)", every->text,
        fleet_class_word(r->task->job->class));
    l->deadline = changed(r, from, plain, ends);
    if (l->deadline != plain)
        begin_series(every, from, every->span, 0, l);
}

/* Of all the steps to the next deadline only the last is explained. */
static void
run_on(const struct calc_context *r, const struct interval *every, day_t day,
    struct limit *l)
{
    struct calc_context silent = *r;

    silent.why = NULL;
    struct limit before =
        fixed_series_complete(&silent, every, day, step_deadline, l);
    if (l->extra) {
        reasons_add(r->why, REASON_KEPT, day, l->deadline,
            "an extra: too early to count for the next deadline, which "
            "stands");
        return;
    }
    if (r->why == NULL)
        return;
    reasons_add(r->why, REASON_KEPT, day, before.deadline,
        "runs from the last deadline, whenever it was done");
    step_deadline(r, every, &before);
}

/* Completed in its window, or late where that keeps the date as well.  Each
 * kept date runs from the one before, and not from where they all began: after
 * 29 February and a 28th it stays the 28th. */
static void
keep_date(const struct calc_context *r, const struct interval *every, day_t day,
    struct limit *l)
{
    const struct rule *rule = r->task->rule;
    struct calc_context silent = *r;
    int late = day > l->deadline;
    struct limit before;
    int too_short;

    silent.why = NULL;
    begin_series(every, l->deadline, every->span, 0, l);
    do {
        before = *l;
        step_deadline(&silent, every, l);
        too_short =
            rule->shortest.n > 0 && day > before.deadline &&
            l->deadline <= step_span(day, rule->shortest, 1, MONTH_END_CLAMP);
    } while (l->deadline != DAY_NONE && (l->deadline <= day || too_short));
    reasons_add(r->why, REASON_KEPT, day, before.deadline,
        late ? "completed late, and the date is kept all the same"
             : "completed within its window, so the date is kept");
    if (r->why != NULL)
        step_deadline(r, every, &before);
}

/* A first deadline that was only counted, from registration say, is no
 * certificate; one that the subject states is. */
static int
is_nothing_to_keep(const struct calc_context *r, const struct limit *l)
{
    return l->from == 0 && !r->task->rule->first_kept &&
           r->task->baseline.deadline == DAY_NONE;
}

static void
keep_or_restart(const struct calc_context *r, const struct interval *every,
    day_t day, struct limit *l)
{
    const struct rule *rule = r->task->rule;
    day_t pending = l->deadline;

    if (pending == DAY_NONE) {
        restart(r, every, day, l);
        return;
    }
    if (is_nothing_to_keep(r, l)) {
        reasons_add(r->why, REASON_KEPT, day, day,
            "done for the first time, and the first deadline is no date to "
            "keep");
        restart(r, every, day, l);
        return;
    }
    day_t opens = rule->window.n > 0 ? window_opening(rule, pending) : pending;
    int late = day > pending;
    if (late ? rule->late == LATE_KEEPS_DATE : day >= opens) {
        keep_date(r, every, day, l);
        return;
    }
    reasons_add(r->why, REASON_KEPT, day, day,
        late ? "completed after %s, so it runs afresh"
             : "completed before its window opened on %s, so it runs afresh",
        day_words(late ? pending : opens, (char[DAY_WORDS]){0}));
    restart(r, every, day, l);
}

/* By the shortest interval that holds at that age: what is too old for it is
 * too old for a longer one. */
static day_t
before(
    const struct calc_context *r, const struct interval *every, day_t deadline)
{
    const struct rule *rule = r->task->rule;
    day_t origin = calendar_interval_origin(r->task, rule->age_from);
    day_t day = step_span(deadline, every->span, -1, rule->month_end);

    for (int i = 0; i < rule->n_ages; i++) {
        const struct age_step *step = &rule->ages[i];
        day_t birthday = step_span(origin, step->age, 1, MONTH_END_CLAMP);
        if (birthday != DAY_NONE && birthday <= deadline)
            day = day_later(
                day, step_span(deadline, step->every, -1, rule->month_end));
    }
    /* An interval shorter than a month may begin and end in the same one. */
    day_t last = step_month_last(day);
    return rule->ends == ENDS_MONTH_END && last < deadline ? last : day;
}

static void
first(
    const struct calc_context *r, const struct interval *every, struct limit *l)
{
    const struct rule *rule = r->task->rule;
    day_t from = calendar_interval_first_from(r->task);
    day_t day = calendar_interval_first(r);

    l->deadline =
        from == DAY_NONE ? day : changed(r, from, day, rule->first_ends);
    l->previous = from;
    begin_series(every, from, rule->first.after,
        from != DAY_NONE && rule->first_ends == ENDS_SAME_DAY &&
            l->deadline == day,
        l);
}

static void
next(const struct calc_context *r, const struct interval *every, size_t i,
    struct limit *l)
{
    day_t day = r->done[i].day;

    switch (r->task->rule->runs_from) {
    case FROM_COMPLETION:
        restart(r, every, day, l);
        return;
    case FROM_DEADLINE:
        if (l->deadline == DAY_NONE)
            restart(r, every, day, l);
        else
            run_on(r, every, day, l);
        return;
    case KEEPS_DATE:
        keep_or_restart(r, every, day, l);
        return;
    }
}

const struct interval_kind kind_length = {
    .form = "N days|weeks|months|years",
    .by_length = 1,
    .needs_history = 1,
    .parse = parse,
    .print = print,
    .before = before,
    .first = first,
    .next = next,
};
