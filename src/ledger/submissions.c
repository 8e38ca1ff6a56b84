#include "submissions.h"

#include "query.h"
#include "rows.h"

int
submissions_find(
    struct ledger *l, const char *token, int64_t *record, struct fault *f)
{
    struct query q = query_start(l, FORM_FIND);

    query_text(&q, token);
    int row = query_row(&q, f);
    if (row <= 0)
        return row;
    *record = query_int_at(&q, 0);
    query_end(&q);
    return 1;
}

int
submissions_keep(
    struct ledger *l, const char *token, int64_t record, struct fault *f)
{
    struct query q = query_start(l, FORM_KEEP);

    query_text(&q, token);
    query_int(&q, record);
    return query_run(&q, f);
}
