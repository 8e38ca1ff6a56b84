#include "bounds.h"

#include "kind.h"
#include "value.h"

int
bounds_is_length(const struct interval *i)
{
    return i->span.n > 0 && !kind_is_calendar_rule(i);
}

int
bounds_is_count(const struct interval *i)
{
    return bounds_is_length(i) && i->amount > 0;
}

const struct interval *
bounds_calendar_rule(const struct rule *rule)
{
    for (int i = 0; i < rule->n_every; i++)
        if (kind_is_calendar_rule(&rule->every[i]))
            return &rule->every[i];
    return NULL;
}

const struct interval *
bounds_length(const struct rule *rule)
{
    const struct interval *found = NULL;

    for (int i = 0; i < rule->n_every; i++) {
        const struct interval *every = &rule->every[i];
        if (bounds_is_length(every) && !bounds_is_count(every) &&
            (found == NULL ||
                value_span_size(every->span) < value_span_size(found->span)))
            found = every;
    }
    return found;
}

const struct interval *
bounds_metered(const struct rule *rule, enum meter meter)
{
    for (int i = 0; i < rule->n_every; i++)
        if (kind_meter(&rule->every[i]) == meter)
            return &rule->every[i];
    return NULL;
}

int
bounds_ever_due(const struct rule *rule)
{
    for (int i = 0; i < rule->n_every; i++)
        if (rule->every[i].span.n > 0 || kind_meter(&rule->every[i]) ||
            kind_is_calendar_rule(&rule->every[i]))
            return 1;
    return 0;
}

int
bounds_keeps_first(const struct rule *rule)
{
    return rule->ends != ENDS_MONTH_END;
}
