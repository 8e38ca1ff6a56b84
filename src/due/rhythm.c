#include "rhythm.h"

void
rhythm_complete(const struct reckoning *r, const struct interval *every,
    day_t day, rhythm_step *step, struct limit *l)
{
    if (l->previous != DAY_NONE && day <= l->previous)
        return;
    do {
        l->previous = l->deadline;
        step(r, every, l);
    } while (l->deadline != DAY_NONE && l->deadline <= day);
}
