#include "records.h"

#include "body.h"
#include "ledger.h"
#include "query.h"
#include "rows.h"

#include <stdlib.h>
#include <sysexits.h>

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

/* Refuse a record that its kind does not allow. */
static int
check(struct ledger *l, const struct record *r, int64_t voids, struct fault *f)
{
    const char *word = record_kind_word(r->kind);
    const char *field = NULL;
    const char *type = NULL;

    switch (record_amiss(r, voids, &field, &type)) {
    case RECORD_LACKS:
        return fault_set(f, EX_DATAERR,
            "%s: a record that says '%s' has to have a %s", l->path, word,
            field);
    case RECORD_HAS_NO:
        return fault_set(f, EX_DATAERR, "%s: a record that says '%s' has no %s",
            l->path, word, field);
    case RECORD_IS_NOT:
        return fault_set(f, EX_DATAERR,
            "%s: the %s of a record that says '%s' is not %s", l->path, field,
            word, type);
    case RECORD_FITS:
        break;
    }
    return 0;
}

static int
give(struct query *q, const struct record *r, int64_t voids, const char *body,
    struct fault *f)
{
    query_text(q, record_kind_word(r->kind));
    query_text(q, r->subject_id);
    query_text(q, r->job_id);
    query_day(q, r->day);
    query_day(q, r->until);
    give_reading(q, r);
    query_int(q, r->entered);
    query_id(q, voids);
    query_id(q, r->about);
    query_text(q, r->by);
    query_text(q, r->reference);
    query_text(q, r->note);
    query_text(q, r->other_id);
    query_text(q, body);
    return query_run(q, f);
}

/* Add @r, voiding @voids unless that is 0. */
static int
insert(struct ledger *l, const struct record *r, int64_t voids, int64_t *id,
    struct fault *f)
{
    char *body;

    if (check(l, r, voids, f) || body_make(l, r, &body, f))
        return -1;
    struct query q = query_start(l, RECORD_ADD);
    int rc = give(&q, r, voids, body, f);
    free(body);
    if (rc == 0 && id != NULL)
        *id = sqlite3_last_insert_rowid(l->db);
    return rc;
}

/*
 * Refuse to void, by @r, a record that is not there, that no longer stands, or
 * is of a kind that @r does not void; or, unless @voids, to be about it.
 */
static int
must_stand(struct ledger *l, const struct record *r, int64_t id, int voids,
    struct fault *f)
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
    int kind = query_kind_at(&q, 1);
    query_end(&q);
    if (by != 0)
        return fault_set(f, EX_DATAERR,
            "%s: record %lld no longer stands, record %lld voided it", l->path,
            (long long)id, (long long)by);
    const struct record_kind_row *k = record_kind(r->kind);
    if (kind >= 0 && ((voids ? k->voids : k->about) & 1U << kind))
        return 0;
    const char *is = kind < 0 ? "?" : record_kind_word((enum record_kind)kind);
    return voids ? fault_set(f, EX_DATAERR,
                       "%s: record %lld, %s, cannot be voided by one that says "
                       "'%s': record what is right instead",
                       l->path, (long long)id, is, k->word)
                 : fault_set(f, EX_DATAERR,
                       "%s: a record that says '%s' cannot be about record "
                       "%lld, %s: the history shows their numbers",
                       l->path, k->word, (long long)id, is);
}

/* Check and insert in one group: between a look at the record that is voided,
 * or that this one is about, and the writing, nobody else voids it.  @old is
 * NULL to void none. */
static int
insert_checked(struct ledger *l, const struct record *r, const int64_t *old,
    int64_t *id, struct fault *f)
{
    if (ledger_begin(l, f) != 0)
        return -1;
    if ((old == NULL || must_stand(l, r, *old, 1, f) == 0) &&
        (r->about == 0 || must_stand(l, r, r->about, 0, f) == 0) &&
        insert(l, r, old ? *old : 0, id, f) == 0)
        return ledger_commit(l, f);
    ledger_rollback(l);
    return -1;
}

int
records_add(
    struct ledger *l, const struct record *r, int64_t *id, struct fault *f)
{
    return r->about != 0 ? insert_checked(l, r, NULL, id, f)
                         : insert(l, r, 0, id, f);
}

int
records_last_id(struct ledger *l, int64_t *id, struct fault *f)
{
    struct query q = query_start(l, RECORD_LAST);
    int row = query_row(&q, f);

    if (row <= 0)
        return row;
    *id = query_int_at(&q, 0);
    query_end(&q);
    return 0;
}

int
records_replace(struct ledger *l, int64_t old, const struct record *r,
    int64_t *id, struct fault *f)
{
    return insert_checked(l, r, &old, id, f);
}

int
records_void(struct ledger *l, int64_t id, const char *by, const char *note,
    int64_t entered, struct fault *f)
{
    struct record r = {.kind = RECORD_VOIDED,
        .day = DAY_NONE,
        .until = DAY_NONE,
        .reading = -1,
        .entered = entered,
        .by = by,
        .note = note};

    return records_replace(l, id, &r, NULL, f);
}

/* By the index that has most of what a record of that kind says. */
static enum statement
statement_for(enum record_kind kind)
{
    switch (kind) {
    case RECORD_COMPLETED:
        return FIND_COMPLETED;
    case RECORD_FAILED:
        return FIND_FAILED;
    case RECORD_READING:
    case RECORD_REPLACED:
        return FIND_READING;
    case RECORD_OFF_ROAD:
    case RECORD_MOVED:
        return FIND_AWAY;
    default:
        return FIND_OTHER;
    }
}

int
records_find(
    struct ledger *l, const struct record *r, int64_t *id, struct fault *f)
{
    struct query q = query_start(l, statement_for(r->kind));

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
