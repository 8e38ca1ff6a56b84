#include "told.h"

#include "query.h"

/* The values by which all of these statements find their rows. */
static struct query
about(struct ledger *l, enum statement s, const struct told *t)
{
    struct query q = query_start(l, s);

    query_text(&q, t->subject);
    query_text(&q, t->job);
    query_text(&q, t->cycle);
    query_text(&q, t->person);
    return q;
}

int
told_has(struct ledger *l, const struct told *t, struct fault *f)
{
    struct query q = about(l, TOLD_HAS, t);

    query_text(&q, t->stage);
    int row = query_row(&q, f);
    query_end(&q);
    return row;
}

int
told_of_deadline(struct ledger *l, const struct told *t, struct fault *f)
{
    struct query q = about(l, TOLD_OF_DEADLINE, t);

    query_day(&q, t->deadline);
    query_text(&q, t->stage);
    int row = query_row(&q, f);
    query_end(&q);
    return row;
}

int
told_anything(struct ledger *l, const char *person, struct fault *f)
{
    struct query q = query_start(l, TOLD_ANY);

    query_text(&q, person);
    int row = query_row(&q, f);
    query_end(&q);
    return row;
}

int
told_last_deadline(
    struct ledger *l, const struct told *t, day_t *deadline, struct fault *f)
{
    struct query q = about(l, TOLD_DEADLINE, t);
    int row = query_row(&q, f);

    if (row < 0)
        return -1;
    *deadline = row > 0 ? query_day_at(&q, 0) : DAY_NONE;
    query_end(&q);
    return 0;
}
