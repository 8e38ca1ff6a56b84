#ifndef QUERY_H
#define QUERY_H

#include "day.h"
#include "fault.h"
#include "record.h"

#include <sqlite3.h>
#include <stddef.h>
#include <stdint.h>

struct arena;
struct ledger;

/* The columns of a row that becomes a record, see record_reader.h. */
#define RECORD_COLUMNS                                                         \
    " event.id, kind, subject, job, day, until, meter, reading, entered,"      \
    " by_whom, reference, note, other, about, body"

/* Every statement there is; the texts are in query.c.  For this layer only. */
enum statement {
    BEGIN,
    COMMIT,
    ROLLBACK,
    BEGIN_INNER,
    COMMIT_INNER,
    UNDO_INNER,
    RECORD_ADD,
    RECORD_STANDING,
    DONE_ON,
    FIND_COMPLETED,
    FIND_FAILED,
    FIND_READING,
    FIND_AWAY,
    FIND_OTHER,
    READING_BEFORE,
    READING_AFTER,
    RECORD_LAST,
    RECORDS_ALL,
    RECORDS_AWAY,
    RECORDS_AWAY_OF,
    RECORDS_OTHER,
    RECORDS_OTHER_OF,
    RECORDS_NEWEST_OF,
    RECORDS_OF_KIND,
    RECORDS_WITH_VOIDED,
    WORK_ALL,
    WORK_NEWEST,
    READINGS_BACK,
    VOIDINGS,
    CHAIN_ROWS,
    HASHES,
    HASH_HAS,
    SAYS_THE_SAME,
    CHECK_PAGES,
    CHECK_REFERENCES,
    BEGIN_ALONE,
    TOLD_ADD,
    TOLD_HAS,
    TOLD_OF_DEADLINE,
    TOLD_ANY,
    TOLD_DEADLINE,
    OUTBOX_ADD,
    OUTBOX_OPEN,
    OUTBOX_DROPPED,
    OUTBOX_TRY,
    OUTBOX_SENT,
    OUTBOX_FAILED,
    OUTBOX_GIVE_UP,
    OUTBOX_DROP,
    TROUBLES,
    TROUBLE_KEEP,
    TROUBLE_DROP,
    PUBLISHED_SAME,
    PUBLISHED_CHANGE,
    HELD_ALL,
    HELD_SET,
    HELD_DROP_PAST,
    PUBLISHED_LEARN,
    FEED_VERSION_FIND,
    FEED_VERSION_KEEP,
    PLANNED_CLEAR,
    PLANNED_ADD,
    PLANNED_ALL,
    FORM_FIND,
    FORM_KEEP,
    DRAFT_FIND,
    DRAFT_KEEP,
    DRAFT_DROP,
    DRAFT_DROP_OLD,
    KEY_ADD,
    KEY_REVOKE,
    KEYS,
    DATA_VERSION,
    STATEMENTS
};

struct ledger {
    sqlite3 *db;
    char *path;
    int depth;       /* of groups */
    int64_t version; /* of its content, as this connection counts it */
    sqlite3_stmt *statements[STATEMENTS];
};

/*
 * One use of a statement: start it, give its values in order, then either run
 * it or take its rows.  A failure on the way is remembered and comes out of
 * query_run() or query_row().
 */
struct query {
    struct ledger *ledger;
    sqlite3_stmt *statement;
    int bound;
    int code;
};

/* Start @s, prepared on its first use and kept in @l. */
struct query query_start(struct ledger *l, enum statement s);

/* Give the next value.  Texts and bytes must live until the end of the
 * query; a NULL text and DAY_NONE are stored as NULL. */
void query_int(struct query *q, int64_t n);
void query_text(struct query *q, const char *text);
void query_bytes(struct query *q, const void *bytes, size_t n);
void query_day(struct query *q, day_t d);
void query_id(struct query *q, int64_t id); /* 0 as NULL */

/* Give what is in that column of the row that @from is at. */
void query_value(struct query *q, const struct query *from, int column);

/* Run to the end: 0 or -1. */
int query_run(struct query *q, struct fault *f);

/* The next row: 1, or 0 after the last and -1 on failure, which both end the
 * query. */
int query_row(struct query *q, struct fault *f);

/* End a query before its last row. */
void query_end(struct query *q);

/* The word for a meter in the tables, NULL for none. */
const char *query_meter_word(enum meter meter);

/* Turn an SQLite result code into @f; returns -1. */
int query_fault(const struct ledger *l, int code, struct fault *f);

#endif
