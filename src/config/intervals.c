#include "intervals.h"

#include "kind.h"
#include "span.h"

const struct interval *
intervals_calendar_rule(const struct rule *rule)
{
    for (int i = 0; i < rule->n_every; i++)
        if (kind_is_calendar_rule(&rule->every[i]))
            return &rule->every[i];
    return NULL;
}

const struct interval *
intervals_length(const struct rule *rule)
{
    const struct interval *found = NULL;

    for (int i = 0; i < rule->n_every; i++) {
        const struct interval *every = &rule->every[i];
        if (kind_is_length(every) && !kind_looks_back(every) &&
            (found == NULL || span_size(every->span) < span_size(found->span)))
            found = every;
    }
    return found;
}

const struct interval *
intervals_metered(const struct rule *rule, enum meter meter)
{
    for (int i = 0; i < rule->n_every; i++)
        if (kind_meter(&rule->every[i]) == meter)
            return &rule->every[i];
    return NULL;
}

int
intervals_keeps_first(const struct rule *rule)
{
    return rule->ends != ENDS_MONTH_END;
}
