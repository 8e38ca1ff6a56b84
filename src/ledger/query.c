#include "query.h"

#include <errno.h>
#include <sysexits.h>

/* What stands has no later record that voids it. */
#define STANDS                                                                 \
    " NOT EXISTS (SELECT 1 FROM event AS later"                                \
    "  WHERE later.voids = event.id)"

/* The columns of an event that go into its hash after its id, in the order of
 * chain.h: of form 1, and of form 2. */
#define COLUMNS_1                                                              \
    " kind, subject, job, day, until, meter, reading, entered, voids,"         \
    " by_whom, reference, note, other"
#define COLUMNS                                                                \
    " kind, subject, job, day, until, meter, reading, entered, voids,"         \
    " about, by_whom, reference, note, other, body, form"
/* The record that says the same. */
#define FIND "SELECT max(id) FROM event WHERE"
#define SAME                                                                   \
    " AND kind = ?1 AND subject = ?2 AND job IS ?3 AND day = ?4"               \
    " AND until IS ?5 AND meter IS ?6 AND reading IS ?7"                       \
    " AND reference IS ?8 AND other IS ?9"

/* Work of a kind on the job ?2 of ?1.  The kind is written out, for the index
 * that has no other. */
#define ABOUT(kind)                                                            \
    " subject = ?1 AND job = ?2 AND kind = '" kind "' AND" STANDS
#define WORK(kind, more)                                                       \
    "SELECT" RECORD_COLUMNS " FROM event WHERE" ABOUT(kind) more
#define DONE(kind, completed)                                                  \
    "SELECT id, " completed " FROM event WHERE" ABOUT(kind) " AND day = ?3"
#define ON_NEWEST(kind)                                                        \
    " AND day = (SELECT day FROM event WHERE" ABOUT(                           \
        kind) "  ORDER BY day DESC LIMIT 1)"
#define NEXT "(SELECT coalesce(max(id), 0) + 1 FROM event)"
#define VALUES                                                                 \
    " ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, 2"

/* Events of the kinds that have no index of their own. */
#define OTHER                                                                  \
    " kind NOT IN ('completed', 'failed', 'reading', 'off-road',"              \
    " 'meter-replaced', 'moved', 'voided')"

/* The columns of a message in the order of take_message(), and the one message
 * that is neither sent nor dropped. */
#define OUTBOX                                                                 \
    " id, person, message_id, recipient, bytes, created, attempts, tried,"     \
    " error, next_try, gave_up, dropped, note FROM outbox"
#define OPEN " id = ?1 AND sent IS NULL AND dropped IS NULL"

static const char *const texts[STATEMENTS] = {
    [BEGIN] = "BEGIN IMMEDIATE",
    [COMMIT] = "COMMIT",
    [ROLLBACK] = "ROLLBACK",
    [BEGIN_INNER] = "SAVEPOINT inner_group",
    [COMMIT_INNER] = "RELEASE inner_group",
    [UNDO_INNER] = "ROLLBACK TO inner_group",
    /* One statement, so that nobody adds another between the look at the last
     * record and this one. */
    [RECORD_ADD] = "INSERT INTO event(id," COLUMNS ", hash)"
                   " VALUES (" NEXT "," VALUES ", chain_hash(coalesce("
                   "(SELECT hash FROM event ORDER BY id DESC LIMIT 1),"
                   " zeroblob(32)), " NEXT "," VALUES "))",
    [RECORD_STANDING] = "SELECT later.id, event.kind FROM event"
                        " LEFT JOIN event AS later ON later.voids = event.id"
                        " WHERE event.id = ? AND event.kind <> 'voided'",
    [DONE_ON] = DONE("completed", "1") " UNION ALL " DONE(
        "failed", "0") " ORDER BY id DESC LIMIT 1",
    /* Each by the index that has most of what it says. */
    [FIND_COMPLETED] = FIND " kind = 'completed'" SAME,
    [FIND_FAILED] = FIND " kind = 'failed'" SAME,
    [FIND_READING] = FIND " meter = ?6 AND reading = ?7" SAME,
    [FIND_OTHER] = FIND OTHER SAME,
    [FIND_AWAY] = FIND " kind IN ('off-road', 'moved')" SAME,
    [READING_BEFORE] = "SELECT id, day, reading, kind = 'meter-replaced'"
                       " FROM event"
                       " WHERE subject = ? AND meter = ?"
                       " AND reading IS NOT NULL AND day <= ? AND" STANDS
                       " ORDER BY day DESC, id DESC LIMIT 1",
    [READING_AFTER] = "SELECT id, day, reading, kind = 'meter-replaced'"
                      " FROM event WHERE subject = ? AND meter = ?"
                      " AND reading IS NOT NULL AND day > ? AND" STANDS
                      " ORDER BY day, id LIMIT 1",
    [RECORD_LAST] = "SELECT max(id) FROM event",
    [RECORDS_ALL] = "SELECT" RECORD_COLUMNS " FROM event"
                    " WHERE kind <> 'voided' ORDER BY id",
    [RECORDS_AWAY] = "SELECT" RECORD_COLUMNS " FROM event"
                     " WHERE kind IN ('off-road', 'moved') AND" STANDS,
    [RECORDS_AWAY_OF] = "SELECT" RECORD_COLUMNS " FROM event"
                        " WHERE kind IN ('off-road', 'moved') AND" STANDS
                        " AND (kind = 'moved' OR subject IN (?1, ?2) OR subject"
                        " IN (SELECT other FROM event WHERE subject = ?1"
                        " AND kind IN ('off-road', 'moved')"
                        " AND kind = 'moved'))",
    [RECORDS_OTHER] = "SELECT" RECORD_COLUMNS " FROM event WHERE" OTHER
                      " AND kind = ? AND" STANDS,
    [RECORDS_OTHER_OF] = "SELECT" RECORD_COLUMNS " FROM event WHERE" OTHER
                         " AND kind = ? AND subject = ? AND" STANDS,
    [RECORDS_NEWEST_OF] = "SELECT" RECORD_COLUMNS " FROM event WHERE" OTHER
                          " AND kind = ? AND subject = ? AND job IS NULL"
                          " AND" STANDS " ORDER BY day DESC LIMIT 1",
    [RECORDS_WITH_VOIDED] = "SELECT" RECORD_COLUMNS " FROM event WHERE" OTHER
                            " AND kind = ? ORDER BY id",
    [RECORDS_OF_KIND] = "SELECT" RECORD_COLUMNS " FROM event WHERE kind = ?1"
                        " AND (?2 IS NULL OR subject = ?2) AND" STANDS,
    [WORK_ALL] = WORK("completed", "") " UNION ALL " WORK("failed", ""),
    /* Whatever was done on the newest day of each kind. */
    [WORK_NEWEST] =
        WORK("completed", ON_NEWEST("completed")) " UNION ALL " WORK(
            "failed", ON_NEWEST("failed")),
    [READINGS_BACK] =
        "SELECT id, day, reading, kind = 'meter-replaced'"
        " FROM event"
        " WHERE subject = ? AND meter = ?"
        " AND reading IS NOT NULL AND" STANDS " ORDER BY day DESC, id DESC",
    [VOIDINGS] = "SELECT voids, id, note FROM event WHERE voids IS NOT NULL"
                 " ORDER BY voids",
    [CHAIN_ROWS] =
        "SELECT id, form >= lag(form, 1, 1) OVER later AND hash = CASE form"
        " WHEN 1 THEN iif(about IS NULL AND body IS NULL, chain_hash("
        "lag(hash, 1, zeroblob(32)) OVER later, id," COLUMNS_1 "), NULL)"
        " WHEN 2 THEN chain_hash("
        "lag(hash, 1, zeroblob(32)) OVER later, id," COLUMNS ") END, hash"
        " FROM event WINDOW later AS (ORDER BY id) ORDER BY id",
    [HASHES] = "SELECT id, hash, entered, kind, subject, job, day, by_whom,"
               " note, body FROM event ORDER BY id",
    [HASH_HAS] = "SELECT 1 FROM event WHERE id = ? AND hash = ?",
    [SAYS_THE_SAME] = "SELECT 1 FROM event WHERE" OTHER
                      " AND entered = ? AND kind = ? AND subject = ?"
                      " AND job IS ? AND day = ? AND by_whom IS ?"
                      " AND note IS ? AND body IS ?",
    [CHECK_PAGES] = "PRAGMA integrity_check(1)",
    [CHECK_REFERENCES] = "PRAGMA foreign_key_check",
    [BEGIN_ALONE] = "BEGIN EXCLUSIVE",
    [TOLD_ADD] = "INSERT INTO told(subject, job, cycle, person, stage,"
                 " deadline, message) VALUES (?, ?, ?, ?, ?, ?, ?)",
    [TOLD_HAS] = "SELECT 1 FROM told WHERE subject = ? AND job = ?"
                 " AND cycle = ? AND person = ? AND stage = ?",
    [TOLD_OF_DEADLINE] = "SELECT 1 FROM told WHERE subject = ? AND job = ?"
                         " AND cycle = ? AND person = ? AND deadline = ?5"
                         " AND (stage = ?6 OR stage GLOB ?6 || '@*') LIMIT 1",
    [TOLD_ANY] = "SELECT 1 FROM told WHERE person = ?"
                  " AND cycle <> 'condition' LIMIT 1",
    [TOLD_DEADLINE] = "SELECT deadline FROM told WHERE subject = ? AND job = ?"
                      " AND cycle = ? AND person = ? ORDER BY id DESC LIMIT 1",
    [OUTBOX_ADD] = "INSERT INTO outbox(person, message_id, recipient, bytes,"
                   " created) VALUES (?, ?, ?, ?, ?)",
    [OUTBOX_OPEN] = "SELECT" OUTBOX " WHERE sent IS NULL AND dropped IS NULL"
                    " ORDER BY id",
    [OUTBOX_DROPPED] = "SELECT" OUTBOX " WHERE dropped IS NOT NULL"
                       " ORDER BY id",
    [OUTBOX_TRY] = "UPDATE outbox SET attempts = attempts + 1, tried = ?2,"
                   " next_try = ?3, error = ?4 WHERE" OPEN " RETURNING id",
    [OUTBOX_SENT] = "UPDATE outbox SET sent = ?2, gave_up = NULL,"
                    " error = NULL WHERE" OPEN,
    [OUTBOX_FAILED] = "UPDATE outbox SET gave_up = NULL, error = ?2"
                      " WHERE" OPEN,
    [OUTBOX_GIVE_UP] = "UPDATE outbox SET gave_up = ?2, next_try = NULL,"
                       " error = ?3 WHERE" OPEN,
    [OUTBOX_DROP] =
        "UPDATE outbox SET dropped = ?2, note = ?3 WHERE" OPEN " RETURNING id",
    [TROUBLES] = "SELECT about, says, told FROM trouble ORDER BY about",
    [TROUBLE_KEEP] = "INSERT INTO trouble(about, says, told) VALUES (?, ?, ?)"
                     " ON CONFLICT(about) DO UPDATE SET says = excluded.says,"
                     " told = excluded.told",
    [TROUBLE_DROP] = "DELETE FROM trouble WHERE about = ?",
    [PUBLISHED_SAME] = "SELECT sequence, modified FROM published"
                       " WHERE feed = ? AND uid = ? AND hash = ?",
    [PUBLISHED_CHANGE] = "INSERT INTO"
                         " published(feed, uid, hash, sequence, modified)"
                         " VALUES (?, ?, ?, 0, ?)"
                         " ON CONFLICT(feed, uid) DO UPDATE SET"
                         " hash = excluded.hash, sequence = sequence + 1,"
                         " modified = max(excluded.modified, modified + 1)"
                         " RETURNING sequence, modified",
    [HELD_ALL] = "SELECT subject, job, cycle, meter, basis, early, likely,"
                 " late FROM held",
    [HELD_SET] = "INSERT INTO held(subject, job, cycle, meter, basis, early,"
                 " likely, late) VALUES (?, ?, ?, ?, ?, ?, ?, ?)"
                 " ON CONFLICT DO UPDATE SET basis = excluded.basis,"
                 " early = excluded.early, likely = excluded.likely,"
                 " late = excluded.late",
    [HELD_DROP_PAST] = "DELETE FROM held WHERE subject = ?1 AND job = ?2"
                       " AND cycle <> ?3 AND cycle NOT LIKE ?3 || '+%'",
    [PUBLISHED_LEARN] = "INSERT INTO"
                        " published(feed, uid, hash, sequence, modified)"
                        " VALUES (?, ?, ?, ?, ?)"
                        " ON CONFLICT(feed, uid) DO UPDATE SET"
                        " hash = CASE WHEN excluded.hash = hash"
                        " OR (excluded.sequence > sequence"
                        "  AND excluded.modified > modified)"
                        " THEN excluded.hash ELSE zeroblob(32) END,"
                        " sequence = max(excluded.sequence, sequence),"
                        " modified = max(excluded.modified, modified)"
                        " WHERE excluded.sequence >= sequence"
                        " OR excluded.modified >= modified",
    [FEED_VERSION_FIND] = "SELECT hash = ?2, dues, left_out, size, written"
                          " FROM edition WHERE feed = ?1",
    [FEED_VERSION_KEEP] = "INSERT INTO"
                          " edition(feed, hash, dues, left_out, size, written)"
                          " VALUES (?, ?, ?, ?, ?, ?)"
                          " ON CONFLICT(feed) DO UPDATE SET"
                          " hash = excluded.hash, dues = excluded.dues,"
                          " left_out = excluded.left_out, size = excluded.size,"
                          " written = excluded.written",
    [PLANNED_CLEAR] = "DELETE FROM planned",
    [PLANNED_ADD] = "INSERT OR IGNORE INTO planned(subject, job, day)"
                    " VALUES (?, ?, ?)",
    [PLANNED_ALL] = "SELECT subject, job, day FROM planned"
                    " ORDER BY subject, job, day",
    [FORM_FIND] = "SELECT record FROM form WHERE token = ?",
    [FORM_KEEP] = "INSERT INTO form(token, record) VALUES (?, ?)",
    [DRAFT_FIND] = "SELECT opened, sent, reading, answers FROM draft"
                   " WHERE subject = ? AND sheet = ? AND who = ?",
    [DRAFT_KEEP] = "INSERT OR REPLACE INTO draft(subject, sheet, who, opened,"
                   " sent, reading, answers)"
                   " VALUES (?, ?, ?, ?, ?, ?, ?)",
    [DRAFT_DROP] = "DELETE FROM draft WHERE subject = ? AND sheet = ?"
                   " AND who = ?",
    [DRAFT_DROP_OLD] = "DELETE FROM draft WHERE opened < ?",
    [KEY_ADD] = "INSERT INTO key(kind, name, hash, made) VALUES (?, ?, ?, ?)",
    [KEY_REVOKE] = "UPDATE key SET revoked = ?3 WHERE kind = ?1 AND name = ?2"
                   " AND revoked IS NULL RETURNING id",
    [KEYS] = "SELECT id, kind, name, hash, made, revoked FROM key ORDER BY id",
    [DATA_VERSION] = "PRAGMA data_version",
};

struct outcome {
    int code; /* of SQLite */
    int exit;
    const char *advice;
};

static const struct outcome outcomes[] = {
    {SQLITE_BUSY, EX_TEMPFAIL, "another process is using it, try again"},
    {SQLITE_FULL, EX_IOERR, "make room on the disk and try again"},
    {SQLITE_IOERR, EX_IOERR,
        "check the disk, then what was written, before trying again"},
    {SQLITE_CANTOPEN, EX_CANTCREAT, "check the folder it is to be in"},
    {SQLITE_READONLY_DBMOVED, EX_TEMPFAIL,
        "another was restored in its place, try again"},
    {SQLITE_READONLY, EX_NOPERM,
        "run this as a user who may use the file and its folder"},
    {SQLITE_CORRUPT, EX_DATAERR, "keep the file and restore a backup"},
    {SQLITE_NOTADB, EX_DATAERR, "check the path, or restore a backup"},
    {SQLITE_CONSTRAINT, EX_DATAERR, "nothing was written"},
    {SQLITE_NOMEM, EX_OSERR, "try again with more memory"},
};

static const struct outcome *
outcome_of(const struct ledger *l, int code)
{
    static const struct outcome unforeseen = {
        SQLITE_ERROR, EX_SOFTWARE, "please report this"};
    int reason = code & 0xff; /* what extends it is in the bits above */

    if (code == SQLITE_READONLY_DBMOVED)
        reason = code;
    if (reason == SQLITE_CANTOPEN && sqlite3_system_errno(l->db) == EACCES)
        reason = SQLITE_READONLY;
    for (size_t i = 0; i < sizeof outcomes / sizeof *outcomes; i++)
        if (outcomes[i].code == reason)
            return &outcomes[i];
    return &unforeseen;
}

int
query_fault(const struct ledger *l, int code, struct fault *f)
{
    const struct outcome *o = outcome_of(l, code);
    /* A code that is not the connection's own has only its general text. */
    const char *what = code == sqlite3_extended_errcode(l->db)
                           ? sqlite3_errmsg(l->db)
                           : sqlite3_errstr(code);

    return fault_set(f, o->exit, "%s: %s: %s", l->path, what, o->advice);
}

const char *
query_meter_word(enum meter meter)
{
    static const char *const words[] = {[METER_NONE] = NULL,
        [METER_DISTANCE] = "distance",
        [METER_HOURS] = "hours"};

    return words[meter];
}

struct query
query_start(struct ledger *l, enum statement s)
{
    struct query q = {l, l->statements[s], 0, SQLITE_OK};

    /* After some failures SQLite undoes the whole group by itself.  What
     * would still have been written to it must not go in alone. */
    if (l->depth > 0 && sqlite3_get_autocommit(l->db)) {
        q.code = SQLITE_ABORT_ROLLBACK;
    } else if (q.statement == NULL) {
        q.code = sqlite3_prepare_v3(
            l->db, texts[s], -1, SQLITE_PREPARE_PERSISTENT, &q.statement, NULL);
        l->statements[s] = q.statement;
    }
    return q;
}

static void
remember(struct query *q, int code)
{
    if (q->code == SQLITE_OK)
        q->code = code;
}

void
query_int(struct query *q, int64_t n)
{
    remember(q, sqlite3_bind_int64(q->statement, ++q->bound, n));
}

void
query_text(struct query *q, const char *text)
{
    remember(q,
        sqlite3_bind_text(q->statement, ++q->bound, text, -1, SQLITE_STATIC));
}

void
query_bytes(struct query *q, const void *bytes, size_t n)
{
    remember(q,
        sqlite3_bind_blob64(q->statement, ++q->bound, bytes, n, SQLITE_STATIC));
}

void
query_day(struct query *q, day_t d)
{
    if (d == DAY_NONE)
        query_text(q, NULL);
    else
        query_int(q, d);
}

void
query_id(struct query *q, int64_t id)
{
    if (id == 0)
        query_text(q, NULL);
    else
        query_int(q, id);
}

void
query_value(struct query *q, const struct query *from, int column)
{
    remember(q, sqlite3_bind_value(q->statement, ++q->bound,
                    sqlite3_column_value(from->statement, column)));
}

int
query_row(struct query *q, struct fault *f)
{
    int code = q->code;

    if (code == SQLITE_OK)
        code = sqlite3_step(q->statement);
    if (code == SQLITE_ROW)
        return 1;
    if (code != SQLITE_DONE)
        query_fault(q->ledger, code, f);
    query_end(q);
    return code == SQLITE_DONE ? 0 : -1;
}

int
query_run(struct query *q, struct fault *f)
{
    int row = query_row(q, f);

    while (row > 0)
        row = query_row(q, f);
    return row;
}

void
query_end(struct query *q)
{
    sqlite3_reset(q->statement);
    if (q->statement != NULL)
        sqlite3_clear_bindings(q->statement);
}
