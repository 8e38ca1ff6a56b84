#include "sent_reminder.h"

#include "query.h"
#include "rows.h"

/* The values by which all of these statements find their rows. */
static struct query
about(struct ledger *l, enum statement s, const struct sent_reminder *t)
{
    struct query q = query_start(l, s);

    query_text(&q, t->subject);
    query_text(&q, t->job);
    query_text(&q, t->cycle);
    query_text(&q, t->person);
    return q;
}

int
sent_reminder_has(
    struct ledger *l, const struct sent_reminder *t, struct fault *f)
{
    struct query q = about(l, TOLD_HAS, t);

    query_text(&q, t->stage);
    int row = query_row(&q, f);
    query_end(&q);
    return row;
}

int
sent_reminder_of_deadline(
    struct ledger *l, const struct sent_reminder *t, struct fault *f)
{
    struct query q = about(l, TOLD_OF_DEADLINE, t);

    query_day(&q, t->deadline);
    query_text(&q, t->stage);
    int row = query_row(&q, f);
    query_end(&q);
    return row;
}

int
sent_reminder_any(struct ledger *l, const char *person, struct fault *f)
{
    struct query q = query_start(l, TOLD_ANY);

    query_text(&q, person);
    int row = query_row(&q, f);
    query_end(&q);
    return row;
}

int
sent_reminder_last_deadline(struct ledger *l, const struct sent_reminder *t,
    day_t *deadline, struct fault *f)
{
    struct query q = about(l, TOLD_DEADLINE, t);
    int row = query_row(&q, f);

    if (row < 0)
        return -1;
    *deadline = row > 0 ? query_day_at(&q, 0) : DAY_NONE;
    query_end(&q);
    return 0;
}
