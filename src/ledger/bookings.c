#include "bookings.h"

#include "rows.h"

#include <sysexits.h>

int
bookings_add(
    struct ledger *l, const struct booking *b, int64_t *id, struct fault *f)
{
    struct query q = query_start(l, BOOKING_ADD);

    query_text(&q, b->subject);
    query_text(&q, b->job);
    query_text(&q, b->cycle);
    query_day(&q, b->day);
    query_int(&q, b->entered);
    query_text(&q, b->by);
    query_text(&q, b->note);
    query_int(&q, b->replaces);
    if (query_row(&q, f) <= 0)
        return -1;
    if (id != NULL)
        *id = query_int_at(&q, 0);
    return query_run(&q, f);
}

static int
take_booking(const struct query *q, struct arena *a, void *at)
{
    struct booking *b = at;

    *b = (struct booking){
        .id = query_int_at(q, 0),
        .day = query_day_at(q, 4),
        .entered = query_int_at(q, 5),
        .replaces = query_int_at(q, 8),
    };
    return query_text_at(q, 1, a, &b->subject) ||
                   query_text_at(q, 2, a, &b->job) ||
                   query_text_at(q, 3, a, &b->cycle) ||
                   query_text_at(q, 6, a, &b->by) ||
                   query_text_at(q, 7, a, &b->note)
               ? -1
               : 1;
}

int
bookings_read(struct ledger *l, struct arena *a, struct booking **out,
    size_t *n, struct fault *f)
{
    struct query q = query_start(l, BOOKINGS_STANDING);
    struct rows rows;
    int rc = rows_take(&q, a, sizeof **out, take_booking, &rows, f);

    *out = rows.items;
    *n = rows.n;
    return rc;
}

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
