#include "calendar_interval.h"

#include "isoweek.h"
#include "reasons.h"
#include "span.h"

day_t
calendar_interval_end(
    day_t anchor, struct span length, enum ends ends, enum month_end rule)
{
    switch (ends) {
    case ENDS_SAME_DAY:
        return step_span(anchor, length, 1, rule);
    case ENDS_DAY_BEFORE:
        return step_period_last(anchor, length);
    case ENDS_MONTH_END:
        return step_month_last(step_span(anchor, length, 1, rule));
    case ENDS_WEEK_END:
        return isoweek_last(step_span(anchor, length, 1, rule));
    }
    return DAY_NONE;
}

day_t
calendar_interval_origin(const struct task *t, enum origin origin)
{
    const struct subject *s = t->subject;

    switch (origin) {
    case ORIGIN_REGISTERED:
        return s->registered;
    case ORIGIN_BUILT:
        return s->built;
    case ORIGIN_IN_SERVICE:
        return s->in_service;
    case ORIGIN_EARLIEST:
        return day_earlier(s->registered, day_earlier(s->built, s->in_service));
    case ORIGIN_ON:
        return t->rule->first.on;
    case ORIGIN_NONE:
        break;
    }
    return DAY_NONE;
}

day_t
calendar_interval_first_from(const struct task *t)
{
    enum origin origin = t->rule->first.origin;

    return origin == ORIGIN_ON ? DAY_NONE : calendar_interval_origin(t, origin);
}

static const char *
origin_word(enum origin origin)
{
    static const char *const words[] = {"nothing", "registration",
        "being built", "entering service", "the earliest known day",
        "the stated day"};

    return words[origin];
}

day_t
calendar_interval_first(const struct calc_context *r)
{
    const struct rule *rule = r->task->rule;
    const struct first *first = &rule->first;
    day_t origin = calendar_interval_origin(r->task, first->origin);
    char text[SPAN_TEXT];

    if (origin == DAY_NONE)
        return DAY_NONE;
    if (first->origin == ORIGIN_ON) {
        reasons_add(r->why, REASON_START, DAY_NONE, origin,
            "never done; the fleet file states the first deadline");
        return origin;
    }
    day_t day = calendar_interval_end(
        origin, first->after, rule->first_ends, rule->month_end);
    reasons_add(r->why, REASON_START, DAY_NONE, origin,
        "never done, so it runs from %s", origin_word(first->origin));
    reasons_add(r->why, REASON_INTERVAL, origin, day, "first due %s after %s",
        span_text(first->after, text), origin_word(first->origin));
    return day;
}
