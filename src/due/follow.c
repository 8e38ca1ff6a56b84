#include "follow.h"

#include "compute.h"
#include "reasons.h"

#include <stdio.h>

static int
answers(const struct completion *answer, const struct completion *call)
{
    if (answer->also)
        return 0;
    if (answer->day != call->day)
        return answer->day > call->day;
    /* What the fleet file states of a day has no place among its records. */
    return call->record > 0 && answer->record > call->record;
}

const struct completion *
follow_answer(const struct calc_context *r, const struct completion *call)
{
    for (size_t i = 0; i < r->n_answers; i++)
        if (answers(&r->answers[i], call))
            return &r->answers[i];
    return NULL;
}

struct calc_context
follow_only(const struct calc_context *r, const struct completion *call)
{
    struct calc_context only = *r;

    only.done = call;
    only.n_done = 1;
    only.why = NULL;
    only.calm = NULL;
    only.planned = NULL;
    only.unread = METER_NONE;
    return only;
}

/* What @call comes to; returns the meter that cannot tell, or METER_NONE. */
static enum meter
reckon(const struct calc_context *r, const struct completion *call,
    struct due *out)
{
    struct calc_context only = follow_only(r, call);
    struct decision all = {.unknown = METER_NONE};

    if (!compute_due(&only, out, &all))
        out->deadline = DAY_NONE;
    return all.unknown;
}

/*
 * That is the oldest call, unless a meter knows better: the oldest may have
 * been made before a long rest.
 */
size_t
follow_choose(struct calc_context *r)
{
    const struct completion *first = NULL;
    enum meter unread = METER_NONE;
    day_t earliest = DAY_NONE;
    size_t open = 0;

    for (size_t i = 0; i < r->n_called; i++) {
        struct due d;
        if (follow_answer(r, &r->called[i]) != NULL)
            continue;
        enum meter unknown = reckon(r, &r->called[i], &d);
        if (unread == METER_NONE)
            unread = unknown;
        if (open++ == 0 ||
            (d.deadline != DAY_NONE &&
                (earliest == DAY_NONE || d.deadline < earliest))) {
            first = &r->called[i];
            earliest = d.deadline;
        }
    }
    if (open == 0)
        return 0;
    r->done = first;
    r->n_done = 1;
    r->unread = unread;
    return open;
}

static void
say_open(const struct calc_context *r, const struct completion *call)
{
    char how[40] = "by the fleet file";
    char by[40] = "by a day that none can tell";
    char day[DAY_WORDS];
    struct due d;

    reckon(r, call, &d);
    if (call->record > 0)
        snprintf(how, sizeof how, "record %lld", (long long)call->record);
    if (d.no_return)
        snprintf(by, sizeof by, "before it returns");
    else if (d.deadline != DAY_NONE)
        snprintf(by, sizeof by, "by %s", day_words(d.deadline, day));
    reasons_add(r->why, REASON_NOTE, DAY_NONE, DAY_NONE,
        "open as well: after %s of %s (%s), %s", call->job->title,
        day_words(call->day, day), how, by);
}

void
follow_say_others(const struct calc_context *r)
{
    size_t others = 0;

    if (r->why == NULL)
        return;
    for (size_t i = 0; i < r->n_called; i++)
        if (&r->called[i] != r->done && follow_answer(r, &r->called[i]) == NULL)
            others++;
    if (others == 0)
        return;
    reasons_add(r->why, REASON_NOTE, DAY_NONE, DAY_NONE,
        "called for %zu times and not done since, each with a deadline of its "
        "own: this is the first",
        others + 1);
    for (size_t i = 0; i < r->n_called; i++)
        if (&r->called[i] != r->done && follow_answer(r, &r->called[i]) == NULL)
            say_open(r, &r->called[i]);
}
