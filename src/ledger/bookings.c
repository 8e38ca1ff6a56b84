#include "bookings.h"

#include "arena.h"
#include "query.h"

#include <sysexits.h>

#define FIRST_ROOM 64

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

/* Room for one more of @n items: the list, moved when it has to grow. */
static void *
room(struct arena *a, void *list, size_t n, size_t *size, size_t each)
{
    if (n < *size)
        return list;
    size_t more = *size ? *size * 2 : FIRST_ROOM;
    void *grown = arena_grow(a, list, n, more, each);
    if (grown != NULL)
        *size = more;
    return grown;
}

static int
no_memory(struct query *q, struct fault *f)
{
    query_end(q);
    return fault_set(f, EX_OSERR, "out of memory");
}

static int
take_booking(const struct query *q, struct arena *a, struct booking *b)
{
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
               : 0;
}

int
bookings_read(struct ledger *l, struct arena *a, struct booking **out,
    size_t *n, struct fault *f)
{
    struct query q = query_start(l, BOOKINGS_STANDING);
    size_t size = 0;
    int row;

    *out = NULL;
    *n = 0;
    while ((row = query_row(&q, f)) > 0) {
        struct booking *grown = room(a, *out, *n, &size, sizeof **out);
        if (grown == NULL || take_booking(&q, a, &grown[*n]))
            return no_memory(&q, f);
        *out = grown;
        ++*n;
    }
    return row;
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

int
planned_read(struct ledger *l, struct arena *a, struct planned **out, size_t *n,
    struct fault *f)
{
    struct query q = query_start(l, PLANNED_ALL);
    size_t size = 0;
    int row;

    *out = NULL;
    *n = 0;
    while ((row = query_row(&q, f)) > 0) {
        struct planned *grown = room(a, *out, *n, &size, sizeof **out);
        if (grown == NULL || query_text_at(&q, 0, a, &grown[*n].subject) ||
            query_text_at(&q, 1, a, &grown[*n].job))
            return no_memory(&q, f);
        grown[*n].day = query_day_at(&q, 2);
        *out = grown;
        ++*n;
    }
    return row;
}
