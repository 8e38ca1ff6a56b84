#include "records.h"

#include "intake.h"

/* Reading all records, each with what voids it. */
struct history {
    struct intake in;
    struct query rows;
    struct query voidings; /* by the record that they void */
    int64_t voided;        /* the next of these, or 0 */
};

/* Go to the next voiding: 0, or -1 with the fault set. */
static int
next_voiding(struct history *h, struct fault *f)
{
    int row = query_row(&h->voidings, f);

    h->voided = row > 0 ? query_int_at(&h->voidings, 0) : 0;
    return row < 0 ? -1 : 0;
}

/* Both queries go up by the number of the record, so that one look at a time
 * finds what voids it. */
static int
take_voiding(struct history *h, struct record *r, struct fault *f)
{
    while (h->voided != 0 && h->voided < r->id)
        if (next_voiding(h, f) != 0)
            return -1;
    if (h->voided != r->id)
        return 0;
    r->voided_by = query_int_at(&h->voidings, 1);
    if (query_text_at(&h->voidings, 2, h->in.arena, &r->voided_note) != 0)
        return query_fault(h->in.ledger, SQLITE_NOMEM, f);
    return 0;
}

static int
take_record(struct history *h, struct fault *f)
{
    struct record *r = intake_take(&h->in, &h->rows, f);

    return r == NULL ? -1 : take_voiding(h, r, f);
}

static int
take_all(struct history *h, struct fault *f)
{
    int row = -1;

    h->voidings = query_start(h->in.ledger, VOIDINGS);
    h->rows = query_start(h->in.ledger, RECORDS_ALL);
    if (next_voiding(h, f) == 0)
        while ((row = query_row(&h->rows, f)) > 0)
            if (take_record(h, f) != 0)
                break;
    query_end(&h->rows);
    query_end(&h->voidings);
    return row == 0 ? 0 : -1;
}

int
records_read(struct ledger *l, const struct fleet *fleet, struct arena *a,
    struct record **out, size_t *n, struct fault *f)
{
    struct history h = {.voided = 0};
    int result = intake_start(&h.in, l, fleet, a, f);

    if (result == 0)
        result = take_all(&h, f);
    *out = h.in.records;
    *n = h.in.n;
    intake_end(&h.in);
    return result;
}

int
records_standing(struct ledger *l, const struct fleet *fleet,
    enum record_kind kind, struct arena *a, struct record **out, size_t *n,
    struct fault *f)
{
    struct intake in;
    int result = intake_start(&in, l, fleet, a, f);

    if (result == 0) {
        struct query q = query_start(l, RECORDS_OTHER);
        query_text(&q, record_kind_word(kind));
        result = intake_take_all(&in, &q, f);
    }
    *out = in.records;
    *n = in.n;
    intake_end(&in);
    return result;
}
