#include "records.h"

#include "record_reader.h"
#include "rows.h"

#include <stdlib.h>

/* Reading all records, each with what voids it. */
struct history {
    struct record_reader in;
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
    struct record *r = record_reader_take(&h->in, &h->rows, f);

    return r == NULL ? -1 : take_voiding(h, r, f);
}

static int
take_all(struct history *h, struct query rows, struct fault *f)
{
    int row = -1;

    h->voidings = query_start(h->in.ledger, VOIDINGS);
    h->rows = rows;
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
    int result = record_reader_start(&h.in, l, fleet, a, f);

    if (result == 0)
        result = take_all(&h, query_start(l, RECORDS_ALL), f);
    *out = h.in.records;
    *n = h.in.n;
    record_reader_end(&h.in);
    return result;
}

static int
in_order_of_entry(const void *left, const void *right)
{
    const struct record *a = left;
    const struct record *b = right;

    return (a->id > b->id) - (a->id < b->id);
}

int
records_of_kinds(struct ledger *l, const struct fleet *fleet, unsigned kinds,
    struct arena *a, struct record **out, size_t *n, struct fault *f)
{
    struct history h = {.voided = 0};
    int result = record_reader_start(&h.in, l, fleet, a, f);

    for (int k = 0; result == 0 && k < RECORD_KINDS; k++) {
        if (!(kinds & RECORD_BIT(k)))
            continue;
        struct query rows = query_start(l, RECORDS_WITH_VOIDED);
        query_text(&rows, record_kind_word((enum record_kind)k));
        result = take_all(&h, rows, f);
    }
    if (result == 0 && h.in.n > 1)
        qsort(h.in.records, h.in.n, sizeof *h.in.records, in_order_of_entry);
    *out = h.in.records;
    *n = h.in.n;
    record_reader_end(&h.in);
    return result;
}

/* What dues follow from has indexes of its own, and is not in that of all other
 * kinds. */
static int
take_kind(struct record_reader *in, enum record_kind kind,
    const char *subject_id, struct fault *f)
{
    struct query q =
        query_start(in->ledger, record_kind(kind)->is_due ? RECORDS_OF_KIND
                                : subject_id != NULL      ? RECORDS_OTHER_OF
                                                          : RECORDS_OTHER);

    query_text(&q, record_kind_word(kind));
    if (record_kind(kind)->is_due || subject_id != NULL)
        query_text(&q, subject_id);
    return record_reader_take_all(in, &q, f);
}

int
records_standing(struct ledger *l, const struct fleet *fleet, unsigned kinds,
    const char *subject_id, struct arena *a, struct record **out, size_t *n,
    struct fault *f)
{
    struct record_reader in;
    int result = record_reader_start(&in, l, fleet, a, f);

    for (int k = 0; result == 0 && k < RECORD_KINDS; k++)
        if (kinds & RECORD_BIT(k))
            result = take_kind(&in, (enum record_kind)k, subject_id, f);
    if (result == 0 && in.n > 1)
        qsort(in.records, in.n, sizeof *in.records, in_order_of_entry);
    *out = in.records;
    *n = in.n;
    record_reader_end(&in);
    return result;
}

int
records_newest_checks(struct ledger *l, const struct fleet *fleet,
    struct arena *a, struct record **out, size_t *n, struct fault *f)
{
    struct record_reader in;
    int result = record_reader_start(&in, l, fleet, a, f);

    for (size_t i = 0; result == 0 && i < fleet->n_subjects; i++) {
        if (fleet->subjects[i].first_use != FIRST_USE_CHECK)
            continue;
        struct query q = query_start(l, RECORDS_NEWEST_OF);
        query_text(&q, record_kind_word(RECORD_CHECKED));
        query_text(&q, fleet->subjects[i].id);
        result = record_reader_take_all(&in, &q, f);
    }
    *out = in.records;
    *n = in.n;
    record_reader_end(&in);
    return result;
}
