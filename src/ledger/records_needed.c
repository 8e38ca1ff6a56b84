#include "records.h"

#include "need.h"
#include "record_reader.h"
#include "rows.h"

/* Reading what the dues of a fleet need and nothing else. */
struct needed {
    struct record_reader in;
    const struct fleet *fleet;
    const struct task *only; /* NULL for all */
    struct need_list *list;
};

static int
take_work(struct needed *h, const struct subject *s, const struct job *job,
    enum need need, struct fault *f)
{
    struct query q =
        query_start(h->in.ledger, need == NEED_ALL ? WORK_ALL : WORK_NEWEST);

    query_text(&q, s->id);
    query_text(&q, job->id);
    return record_reader_take_all(&h->in, &q, f);
}

/* Nonzero when one of the @n records from @first on is that one. */
static int
is_taken(const struct record_reader *in, size_t first, size_t n, int64_t id)
{
    for (size_t i = first; i < first + n; i++)
        if (in->records[i].id == id)
            return 1;
    return 0;
}

/* The reading in the row at hand.  One that was noted with work is there with
 * it, or else is all that is needed of that record. */
static int
take_reading(struct needed *h, const struct subject *s, enum meter meter,
    const struct query *q, struct fault *f)
{
    struct record *r = record_reader_add(&h->in, f);

    if (r == NULL)
        return -1;
    *r = (struct record){.id = query_int_at(q, 0),
        .kind = query_int_at(q, 3) ? RECORD_REPLACED : RECORD_READING,
        .meter = meter,
        .subject_id = s->id,
        .subject = s,
        .day = query_day_at(q, 1),
        .until = DAY_NONE,
        .reading = query_int_at(q, 2)};
    return 0;
}

/* Back from the newest, as far as is needed; the records of work of @s begin
 * with that at @work. */
static int
take_readings(struct needed *h, const struct subject *s, enum meter meter,
    size_t work, size_t n_work, struct fault *f)
{
    struct need_back back = {
        .since = need_first_asked(h->list, s, h->in.records + work, n_work),
        .last = DAY_NONE};
    struct query q = query_start(h->in.ledger, READINGS_BACK);
    int row;

    query_text(&q, s->id);
    query_text(&q, query_meter_word(meter));
    while ((row = query_row(&q, f)) > 0) {
        if (!need_goes_back(
                &back, query_day_at(&q, 1), query_int_at(&q, 3) != 0))
            break;
        if (!is_taken(&h->in, work, n_work, query_int_at(&q, 0)) &&
            take_reading(h, s, meter, &q, f) != 0)
            row = -1;
        if (row < 0)
            break;
    }
    query_end(&q);
    return row < 0 ? -1 : 0;
}

static int
take_subject(struct needed *h, const struct subject *s, struct fault *f)
{
    const enum need *work = need_of_work(h->list, s);
    size_t first = h->in.n;

    for (size_t j = 0; j < h->fleet->n_jobs; j++)
        if (work[j] != NEED_NONE &&
            take_work(h, s, &h->fleet->jobs[j], work[j], f) != 0)
            return -1;
    size_t n = h->in.n - first;
    for (enum meter m = METER_DISTANCE; m <= METER_HOURS; m++)
        if (need_of_meter(h->list, s, m) &&
            take_readings(h, s, m, first, n, f) != 0)
            return -1;
    return 0;
}

/* All moves, because what carries what must be known, with the spells of one
 * subject and of whatever ever carried it. */
static int
take_away(struct needed *h, struct fault *f)
{
    const struct task *only = h->only;
    struct query q =
        query_start(h->in.ledger, only ? RECORDS_AWAY_OF : RECORDS_AWAY);

    if (only != NULL) {
        const struct subject *carrier = only->subject->first_carrier;
        query_text(&q, only->subject->id);
        query_text(&q, carrier ? carrier->id : only->subject->id);
    }
    return record_reader_take_all(&h->in, &q, f);
}

static int
take_needed(struct needed *h, struct fault *f)
{
    if (take_away(h, f) != 0)
        return -1;
    if (h->only != NULL)
        return take_subject(h, h->only->subject, f);
    for (size_t i = 0; i < h->fleet->n_subjects; i++)
        if (take_subject(h, &h->fleet->subjects[i], f) != 0)
            return -1;
    return 0;
}

/* Nobody writes between one statement and the next, nor is the file locked
 * and unlocked for each. */
static int
take_at_once(struct needed *h, struct fault *f)
{
    struct query begin = query_start(h->in.ledger, BEGIN_INNER);

    if (query_run(&begin, f) != 0)
        return -1;
    int result = take_needed(h, f);
    struct query end = query_start(h->in.ledger, COMMIT_INNER);
    if (query_run(&end, result == 0 ? f : NULL) != 0)
        return -1;
    return result;
}

int
records_needed(struct ledger *l, const struct fleet *fleet,
    const struct task *only, struct arena *a, struct record **out, size_t *n,
    struct fault *f)
{
    struct needed h = {
        .fleet = fleet, .only = only, .list = need_new(fleet, only)};
    int result = record_reader_start(&h.in, l, fleet, a, f);

    if (h.list == NULL)
        result = query_fault(l, SQLITE_NOMEM, f);
    if (result == 0)
        result = take_at_once(&h, f);
    *out = h.in.records;
    *n = h.in.n;
    record_reader_end(&h.in);
    need_free(h.list);
    return result;
}
