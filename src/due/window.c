#include "window.h"

/* The first day from @from on, at the latest the deadline, from which the
 * window reaches @reach. */
static day_t
first_to_reach(const struct rule *rule, day_t from, day_t deadline, day_t reach)
{
    while (from != DAY_NONE && from < deadline &&
           step_span(from, rule->window, 1, MONTH_END_CLAMP) < reach)
        from = step_days(from, 1);
    return from;
}

/*
 * At the ends of short months the days counted back from the deadline and
 * those counted on to it differ.  "Two months or less before" is counted on
 * from the work: from 30 November they end on 30 January, and a deadline of
 * the 31st is further off (Dodds v Walker [1981] 1 WLR 1027).  "Up to a month,
 * less a day, before" has two readings: the day after the deadline less a
 * month, and the first day from which a month reaches beyond the deadline.
 */
day_t
window_opening(const struct rule *rule, day_t deadline)
{
    day_t same = step_span(deadline, rule->window, -1, MONTH_END_CLAMP);

    switch (rule->window_opens) {
    case WINDOW_SAME_DAY:
        return first_to_reach(rule, same, deadline, deadline);
    case WINDOW_DAY_AFTER:
        return step_days(same, 1);
    case WINDOW_SAFER:
        break;
    }
    return first_to_reach(
        rule, step_days(same, 1), deadline, step_days(deadline, 1));
}
