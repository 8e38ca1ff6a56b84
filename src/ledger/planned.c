#include "planned.h"

#include "ledger.h"
#include "rows.h"

static int
write_days(
    struct ledger *l, const struct planned *days, size_t n, struct fault *f)
{
    struct query q = query_start(l, PLANNED_CLEAR);

    if (query_run(&q, f))
        return -1;
    for (size_t i = 0; i < n; i++) {
        q = query_start(l, PLANNED_ADD);
        query_text(&q, days[i].subject);
        query_text(&q, days[i].job);
        query_day(&q, days[i].day);
        if (query_run(&q, f))
            return -1;
    }
    return 0;
}

int
planned_write(
    struct ledger *l, const struct planned *days, size_t n, struct fault *f)
{
    if (ledger_begin(l, f))
        return -1;
    if (write_days(l, days, n, f) == 0)
        return ledger_commit(l, f);
    ledger_rollback(l);
    return -1;
}

static int
take_day(const struct query *q, struct arena *a, void *at)
{
    struct planned *p = at;

    p->day = query_day_at(q, 2);
    return query_text_at(q, 0, a, &p->subject) ||
                   query_text_at(q, 1, a, &p->job)
               ? -1
               : 1;
}

int
planned_read(struct ledger *l, struct arena *a, struct planned **out, size_t *n,
    struct fault *f)
{
    struct query q = query_start(l, PLANNED_ALL);
    struct rows rows;
    int rc = rows_take(&q, a, sizeof **out, take_day, &rows, f);

    *out = rows.items;
    *n = rows.n;
    return rc;
}
