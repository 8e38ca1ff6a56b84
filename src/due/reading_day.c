#include "reading_day.h"

#include "task_facts.h"

/* From the newest reading on: nothing was done there from which to count, but
 * the forecast of a reading does not ask that. */
int
reading_day_early(const struct facts *facts, const struct subject *s,
    enum meter meter, int64_t reading, day_t *day)
{
    struct task_facts *g = task_facts_new(facts);
    int rc = g != NULL ? task_facts_subject(g, s) : -1;

    *day = DAY_NONE;
    if (rc == 0) {
        const struct usage u = task_facts_usage(g, meter);
        if (u.n > 0 && u.readings[u.n - 1].value < reading)
            *day = usage_forecast(&u, u.readings[u.n - 1], reading).early;
    }
    task_facts_free(g);
    return rc;
}
