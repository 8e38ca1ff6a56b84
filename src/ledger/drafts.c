#include "drafts.h"

#include "query.h"
#include "rows.h"

#include <sysexits.h>

static struct query
start(struct ledger *l, enum statement statement, const struct draft *d)
{
    struct query q = query_start(l, statement);

    query_text(&q, d->subject);
    query_text(&q, d->sheet);
    query_text(&q, d->who);
    return q;
}

int
drafts_find(struct ledger *l, struct arena *a, struct draft *d, struct fault *f)
{
    struct query q = start(l, DRAFT_FIND, d);
    int row = query_row(&q, f);

    if (row <= 0)
        return row;
    d->opened = query_int_at(&q, 0);
    d->sent = query_int_at(&q, 1);
    int rc = query_text_at(&q, 2, a, &d->reading) ||
             query_text_at(&q, 3, a, &d->answers);
    query_end(&q);
    return rc ? fault_set(f, EX_OSERR, "out of memory") : 1;
}

int
drafts_keep(struct ledger *l, const struct draft *d, struct fault *f)
{
    struct query q = start(l, DRAFT_KEEP, d);

    query_int(&q, d->opened);
    query_id(&q, d->sent);
    query_text(&q, d->reading);
    query_text(&q, d->answers);
    return query_run(&q, f);
}

int
drafts_drop(struct ledger *l, const struct draft *d, struct fault *f)
{
    struct query q = start(l, DRAFT_DROP, d);

    return query_run(&q, f);
}

int
drafts_drop_old(struct ledger *l, int64_t when, struct fault *f)
{
    struct query q = query_start(l, DRAFT_DROP_OLD);

    query_int(&q, when);
    return query_run(&q, f);
}
