#include "records.h"

#include "query.h"

#include <string.h>
#include <sysexits.h>

#define VOIDED "voided"

static void
give_reading(struct query *q, const struct record *r)
{
    if (r->reading < 0) {
        query_text(q, NULL);
        query_text(q, NULL);
    } else {
        query_text(q, query_meter_word(r->meter));
        query_int(q, r->reading);
    }
}

/* Add @r under the word @kind, voiding @voids unless that is 0. */
static int
insert(struct ledger *l, const char *kind, const struct record *r,
    int64_t voids, struct fault *f)
{
    struct query q = query_start(l, RECORD_ADD);

    query_text(&q, kind);
    query_text(&q, r->subject_id);
    query_text(&q, r->job_id);
    query_day(&q, r->day);
    query_day(&q, r->until);
    give_reading(&q, r);
    query_int(&q, r->entered);
    if (voids == 0)
        query_text(&q, NULL);
    else
        query_int(&q, voids);
    query_text(&q, r->by);
    query_text(&q, r->reference);
    query_text(&q, r->note);
    query_text(&q, r->other_id);
    return query_run(&q, f);
}

int
records_add(
    struct ledger *l, const struct record *r, int64_t *id, struct fault *f)
{
    if (insert(l, record_kind_word(r->kind), r, 0, f) != 0)
        return -1;
    if (id != NULL)
        *id = sqlite3_last_insert_rowid(l->db);
    return 0;
}

/* Refuse a record that is not there or no longer stands. */
static int
must_stand(struct ledger *l, int64_t id, struct fault *f)
{
    struct query q = query_start(l, RECORD_STANDING);

    query_int(&q, id);
    int row = query_row(&q, f);
    if (row < 0)
        return -1;
    if (row == 0)
        return fault_set(f, EX_DATAERR,
            "%s: there is no record %lld: the history shows their numbers",
            l->path, (long long)id);
    int64_t by = query_int_at(&q, 0);
    query_end(&q);
    if (by != 0)
        return fault_set(f, EX_DATAERR,
            "%s: record %lld no longer stands, record %lld voided it", l->path,
            (long long)id, (long long)by);
    return 0;
}

/* Check and insert in one group, so that two who correct the same record at
 * once do not both succeed. */
static int
insert_voiding(struct ledger *l, const char *kind, const struct record *r,
    int64_t voids, struct fault *f)
{
    if (ledger_begin(l, f) != 0)
        return -1;
    if (must_stand(l, voids, f) == 0 && insert(l, kind, r, voids, f) == 0)
        return ledger_commit(l, f);
    ledger_rollback(l);
    return -1;
}

int
records_void(struct ledger *l, int64_t id, const char *by, const char *note,
    int64_t entered, struct fault *f)
{
    struct record r = {.day = DAY_NONE,
        .until = DAY_NONE,
        .reading = -1,
        .entered = entered,
        .by = by,
        .note = note};

    return insert_voiding(l, VOIDED, &r, id, f);
}

int
records_replace(struct ledger *l, int64_t old, const struct record *r,
    int64_t *id, struct fault *f)
{
    if (insert_voiding(l, record_kind_word(r->kind), r, old, f) != 0)
        return -1;
    if (id != NULL)
        *id = sqlite3_last_insert_rowid(l->db);
    return 0;
}

int
records_find(
    struct ledger *l, const struct record *r, int64_t *id, struct fault *f)
{
    static const enum statement by_kind[RECORD_KINDS] = {
        [RECORD_COMPLETED] = FIND_COMPLETED,
        [RECORD_FAILED] = FIND_FAILED,
        [RECORD_READING] = FIND_READING,
        [RECORD_OFF_ROAD] = FIND_AWAY,
        [RECORD_REPLACED] = FIND_READING,
        [RECORD_MOVED] = FIND_AWAY,
    };
    struct query q = query_start(l, by_kind[r->kind]);

    query_text(&q, record_kind_word(r->kind));
    query_text(&q, r->subject_id);
    query_text(&q, r->job_id);
    query_day(&q, r->day);
    query_day(&q, r->until);
    give_reading(&q, r);
    query_text(&q, r->reference);
    query_text(&q, r->other_id);
    int row = query_row(&q, f);
    if (row <= 0)
        return row;
    int64_t found = query_int_at(&q, 0);
    query_end(&q);
    if (found != 0 && id != NULL)
        *id = found;
    return found != 0;
}

int
records_done_on(
    struct ledger *l, const struct record *r, int64_t *id, struct fault *f)
{
    struct query q = query_start(l, DONE_ON);

    query_text(&q, r->subject_id);
    query_text(&q, r->job_id);
    query_day(&q, r->day);
    int row = query_row(&q, f);
    if (row <= 0)
        return row;
    *id = query_int_at(&q, 0);
    int done = query_int_at(&q, 1) != 0;
    query_end(&q);
    return done;
}

static int
find_reading(struct ledger *l, enum statement s, const char *subject_id,
    enum meter meter, day_t day, struct known_reading *out, struct fault *f)
{
    struct query q = query_start(l, s);

    *out = (struct known_reading){0};
    query_text(&q, subject_id);
    query_text(&q, query_meter_word(meter));
    query_day(&q, day);
    int row = query_row(&q, f);
    if (row <= 0)
        return row;
    *out = (struct known_reading){1, query_int_at(&q, 0), query_day_at(&q, 1),
        query_int_at(&q, 2), query_int_at(&q, 3) != 0};
    query_end(&q);
    return 0;
}

int
records_readings_around(struct ledger *l, const char *subject_id,
    enum meter meter, day_t day, struct known_reading *before,
    struct known_reading *after, struct fault *f)
{
    if (find_reading(l, READING_BEFORE, subject_id, meter, day, before, f) ||
        find_reading(l, READING_AFTER, subject_id, meter, day, after, f))
        return -1;
    if (after->fitted)
        *after = (struct known_reading){.day = after->day, .fitted = 1};
    return 0;
}
