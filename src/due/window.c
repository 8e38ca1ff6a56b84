#include "window.h"

/*
 * Two readings of "up to a month, less a day, before": the day after the
 * deadline less a month, and the first day from which a month reaches beyond
 * the deadline.  They differ at the ends of short months.
 */
day_t
window_opening(const struct rule *rule, day_t deadline)
{
    day_t same = step_span(deadline, rule->window, -1, MONTH_END_CLAMP);

    if (same == DAY_NONE || rule->window_opens == WINDOW_SAME_DAY)
        return same;
    day_t after = step_days(same, 1);
    if (rule->window_opens == WINDOW_DAY_AFTER)
        return after;
    while (after != DAY_NONE && after < deadline &&
           step_span(after, rule->window, 1, MONTH_END_CLAMP) <= deadline)
        after = step_days(after, 1);
    return after;
}
