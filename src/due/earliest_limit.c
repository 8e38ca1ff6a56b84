#include "earliest_limit.h"

#include "calendar_interval.h"
#include "kind.h"
#include "reasons.h"

#include <stdio.h>

static const struct limit no_limit = {.deadline = DAY_NONE,
    .previous = DAY_NONE,
    .counts_from = DAY_NONE,
    .base = DAY_NONE,
    .due_reading = -1};

static int
is_baseline(const struct calc_context *r, size_t i)
{
    const struct completion *c = &r->done[i];

    return c->by == NULL && !c->assumed && c->job == r->task->job;
}

/* A certificate of that day says when it runs out, whether the completion is
 * on record as well or not, and whatever else was done that day. */
static int
is_certified(const struct calc_context *r, size_t i)
{
    const struct baseline *b = &r->task->baseline;

    return b->deadline != DAY_NONE && r->done[i].day == b->last;
}

static void
say_start(const struct calc_context *r, size_t i)
{
    const struct completion *c = &r->done[i];
    const char *who = c->by && c->by->by ? c->by->by : "";
    const char *with = c->job != r->task->job ? c->job->title : "";
    char how[64] = "by the fleet file";

    if (r->why == NULL)
        return;
    if (c->by != NULL)
        snprintf(how, sizeof how, "record %lld", (long long)c->record);
    else if (c->assumed)
        snprintf(how, sizeof how, "taken as done on its plan day");
    reasons_add(r->why, REASON_START, DAY_NONE, c->day,
        "completed on that day (%s%s%s)%s%s", how, who[0] ? ", by " : "", who,
        with[0] ? " with: " : "", with);
}

/* The date on a certificate is taken as it stands and not worked out again. */
static void
take_stated(const struct calc_context *r, day_t from, struct limit *l)
{
    day_t stated = r->task->baseline.deadline;

    *l = no_limit;
    l->deadline = l->base = stated;
    l->previous = from;
    reasons_add(r->why, from == DAY_NONE ? REASON_START : REASON_INTERVAL, from,
        stated, "the fleet file states this deadline");
}

/* Nonzero when the fleet file names the first deadline as a day of its own, and
 * no day on which it was done. */
static int
states_first(const struct calc_context *r, const struct interval *every)
{
    const struct task *t = r->task;
    int stated =
        t->baseline.deadline != DAY_NONE || t->rule->first.origin == ORIGIN_ON;

    return stated && t->baseline.last == DAY_NONE && t->job->n_follows == 0 &&
           every->kind->before != NULL;
}

/* Who states a day and writes down older work later did not do it for that day:
 * what was done by the deadline before, or in the time of a window after that,
 * is what led to this one. */
static void
count_from_window(
    const struct calc_context *r, const struct interval *every, struct limit *l)
{
    day_t before = every->kind->before(r, every, l->deadline);

    if (before == DAY_NONE)
        return;
    l->previous = day_later(l->previous, before);
    l->counts_from = day_earlier(
        step_span(before, r->task->rule->window, 1, MONTH_END_CLAMP),
        l->deadline);
}

static void
take_first(
    const struct calc_context *r, const struct interval *every, struct limit *l)
{
    int stated = states_first(r, every);

    if (stated && r->task->baseline.deadline != DAY_NONE)
        take_stated(r, DAY_NONE, l);
    else
        every->kind->first(r, every, l);
    if (stated && l->deadline != DAY_NONE)
        count_from_window(r, every, l);
}

/* Work written down twice, or with a wider job on the same day, was still done
 * once. */
static int
is_again(const struct calc_context *r, size_t i, const struct limit *l)
{
    return l->from > 0 && r->done[l->from - 1].day == r->done[i].day;
}

/* Nonzero when the completion at @i would bring a later deadline than @l. */
static int
is_later(const struct calc_context *r, const struct interval *every, size_t i,
    const struct limit *l)
{
    struct calc_context silent = *r;
    struct limit then = *l;

    silent.why = NULL;
    every->kind->next(&silent, every, i, &then);
    return then.deadline > l->deadline;
}

/*
 * Nonzero, and said, when the completion at @i changes nothing.  Work that is
 * too early for the stated deadline never moves it later.  It may move it
 * earlier where it came after the day on which the fleet file has it done: that
 * is newer than what the file says.
 */
static int
is_extra(const struct calc_context *r, const struct interval *every, size_t i,
    const struct limit *l)
{
    day_t day = r->done[i].day;

    if (is_certified(r, i) || is_baseline(r, i))
        return 0;
    if (is_again(r, i, l)) {
        reasons_add(r->why, REASON_KEPT, day, l->deadline,
            "counted already: the same day is on record for it");
        return 1;
    }
    if (day >= l->counts_from || (l->from > 0 && !is_later(r, every, i, l)))
        return 0;
    reasons_add(r->why, REASON_KEPT, day, l->deadline,
        "the fleet file states this deadline, and only what is done from %s on "
        "counts for it",
        day_words(l->counts_from, (char[DAY_WORDS]){0}));
    return 1;
}

/* A certificate in the fleet file states what its own completion came to; no
 * rule is asked then, but a meter is. */
static void
take_next(const struct calc_context *r, const struct interval *every, size_t i,
    struct limit *l)
{
    int stated = is_certified(r, i);

    say_start(r, i);
    l->extra = is_extra(r, every, i, l);
    if (l->extra)
        return;
    /* What was due before the fleet file's own completion is not known. */
    if (is_baseline(r, i))
        *l = no_limit;
    if (stated && every->kind->meter == METER_NONE) {
        take_stated(r, r->done[i].day, l);
        if (every->kind->before != NULL)
            count_from_window(r, every, l);
        l->from = i + 1;
        return;
    }
    every->kind->next(r, every, i, l);
    if (l->extra)
        return;
    l->from = i + 1;
    l->counts_from = DAY_NONE;
}

/* Only the last step is explained; those before it are history. */
static void
walk(const struct calc_context *r, int at, struct limit *l)
{
    const struct interval *every = &r->task->rule->every[at];
    struct calc_context silent = *r;
    int all = kind_runs_on(every, r->task->rule->runs_from);

    silent.why = NULL;
    *l = no_limit;
    if (r->n_done == 0) {
        take_first(r, every, l);
        return;
    }
    size_t i = r->n_done - 1;
    if (all && r->before != NULL)
        *l = r->before->each[at];
    else if (all || states_first(r, every))
        take_first(&silent, every, l);
    if (all && r->before == NULL)
        i = 0;
    /* Newer work than a certificate's may be too early for its deadline. */
    for (size_t k = 0; !all && every->kind->before != NULL && k < i; k++)
        if (is_certified(r, k))
            take_next(&silent, every, k, l);
    for (; i < r->n_done; i++)
        take_next(i + 1 < r->n_done ? &silent : r, every, i, l);
}

void
earliest_limit_say_failed(const struct calc_context *r, day_t at)
{
    const struct record *f = r->failed;

    if (f != NULL)
        reasons_add(r->why, REASON_NOTE, at, at,
            "failed on %s (record %lld): that starts no new cycle",
            day_words(f->day, (char[DAY_WORDS]){0}), (long long)f->id);
}

static void
say_how_much(const struct calc_context *r, day_t decided, day_t other,
    const char *first, const char *second)
{
    int days = other - decided;

    if (days == 0)
        reasons_add(r->why, REASON_FIRST, decided, decided,
            "%s decides, and %s ends on the same day", first, second);
    else
        reasons_add(r->why, REASON_FIRST, decided, decided,
            "%s decides: it comes %d day%s before %s, which would be %s", first,
            days, days == 1 ? "" : "s", second,
            day_words(other, (char[DAY_WORDS]){0}));
}

static void
say_first_to_come(const struct calc_context *r, const struct decision *all)
{
    const struct rule *rule = r->task->rule;
    const char *first = rule->every[all->decides].text;
    day_t decided = all->each[all->decides].deadline;

    for (int i = 0; i < all->n; i++) {
        day_t other = all->each[i].deadline;
        if (i == all->decides)
            continue;
        if (other == DAY_NONE)
            reasons_add(r->why, REASON_NOTE, decided, decided,
                "%s decides, for %s cannot tell a day", first,
                rule->every[i].text);
        else
            say_how_much(r, decided, other, first, rule->every[i].text);
    }
}

/* Every interval is walked in silence first: only that of the one that decides
 * is told, in a second walk. */
void
earliest_limit_find(const struct calc_context *r, struct decision *out)
{
    const struct rule *rule = r->task->rule;
    struct calc_context silent = *r;

    silent.why = NULL;
    *out = (struct decision){.n = rule->n_every,
        .decides = -1,
        .start = r->n_done ? r->done[r->n_done - 1].day : DAY_NONE};
    for (int i = 0; i < out->n; i++) {
        const struct interval *every = &rule->every[i];
        struct limit *l = &out->each[i];
        walk(&silent, i, l);
        if (out->unknown == METER_NONE && r->n_done > 0 &&
            l->forecast.basis == FORECAST_NONE)
            out->unknown = every->kind->meter;
        if (l->deadline != DAY_NONE &&
            (out->decides < 0 ||
                l->deadline < out->each[out->decides].deadline))
            out->decides = i;
    }
    if (r->why == NULL)
        return;
    struct limit again;
    walk(r, out->decides < 0 ? 0 : out->decides, &again);
    earliest_limit_say_failed(
        r, out->decides < 0 ? out->start : again.deadline);
    if (out->decides >= 0)
        say_first_to_come(r, out);
}
