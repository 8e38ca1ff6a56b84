#include "schema.h"

#include <sysexits.h>

/*
 * Each step takes the tables from one version to the next; version 1 is the
 * first.  A step that has been released is never changed: add another.
 */
static const char *const steps[] = {
    "PRAGMA application_id = 0x4F53544C;"
    "PRAGMA user_version = 1;"

    /* Days are days since 1970-01-01, times are seconds. */
    "CREATE TABLE record("
    " id INTEGER PRIMARY KEY,"
    " kind TEXT NOT NULL CHECK (kind IN"
    "  ('completed', 'failed', 'reading', 'off-road', 'meter-replaced',"
    "   'moved', 'voided')),"
    " subject TEXT COLLATE NOCASE CHECK (subject <> ''),"
    " job TEXT COLLATE NOCASE CHECK (job <> ''),"
    " day INTEGER CHECK (day BETWEEN -25567 AND 84005),"
    " until INTEGER CHECK (until BETWEEN day AND 84005),"
    " meter TEXT CHECK (meter IN ('distance', 'hours')),"
    " reading INTEGER CHECK (reading >= 0),"
    " entered INTEGER NOT NULL,"
    " voids INTEGER REFERENCES record(id) CHECK (voids < id),"
    " by_whom TEXT,"
    " reference TEXT,"
    " note TEXT,"
    " other TEXT COLLATE NOCASE CHECK (other <> '' AND other <> subject),"
    " hash BLOB NOT NULL CHECK (length(hash) = 32),"
    " CHECK ((subject IS NULL) = (kind = 'voided')),"
    " CHECK ((day IS NULL) = (kind = 'voided')),"
    " CHECK ((job IS NOT NULL) = (kind IN ('completed', 'failed'))),"
    " CHECK ((meter IS NULL) = (reading IS NULL)),"
    " CHECK (reading IS NOT NULL"
    "  OR kind NOT IN ('reading', 'meter-replaced')),"
    " CHECK (until IS NULL OR kind = 'off-road'),"
    " CHECK ((other IS NOT NULL) = (kind = 'moved')),"
    " CHECK (voids IS NOT NULL OR kind <> 'voided')"
    ") STRICT;"
    "CREATE UNIQUE INDEX record_voids ON record(voids)"
    " WHERE voids IS NOT NULL;"
    "CREATE INDEX record_about ON record(subject, job, day);"
    "CREATE INDEX record_read ON record(subject, meter, day)"
    " WHERE reading IS NOT NULL;"

    /* Records are facts: a correction is another record. */
    "CREATE TRIGGER record_changed BEFORE UPDATE ON record BEGIN"
    " SELECT RAISE(ABORT, 'records are never changed'); END;"
    "CREATE TRIGGER record_deleted BEFORE DELETE ON record BEGIN"
    " SELECT RAISE(ABORT, 'records are never deleted'); END;"
    "CREATE TRIGGER record_replaced BEFORE INSERT ON record"
    " WHEN EXISTS (SELECT 1 FROM record WHERE id >= NEW.id) BEGIN"
    " SELECT RAISE(ABORT, 'records are never replaced'); END;"

    "CREATE TABLE outbox("
    " id INTEGER PRIMARY KEY,"
    " person TEXT NOT NULL CHECK (person <> ''),"
    " message_id TEXT NOT NULL UNIQUE CHECK (message_id <> ''),"
    " recipient TEXT NOT NULL CHECK (recipient <> ''),"
    " bytes BLOB NOT NULL CHECK (length(bytes) > 0),"
    " created INTEGER NOT NULL,"
    " sent INTEGER,"
    " attempts INTEGER NOT NULL DEFAULT 0," /* that failed */
    " tried INTEGER,"                       /* the last of them */
    " error TEXT"
    ") STRICT;"
    "CREATE INDEX outbox_waiting ON outbox(id) WHERE sent IS NULL;"

    /* Ids of the fleet file match in either case, so nobody is told again
     * because somebody wrote k7 for K7. */
    "CREATE TABLE told("
    " id INTEGER PRIMARY KEY,"
    " subject TEXT NOT NULL COLLATE NOCASE CHECK (subject <> ''),"
    " job TEXT NOT NULL COLLATE NOCASE CHECK (job <> ''),"
    " cycle TEXT NOT NULL CHECK (cycle <> ''),"
    " person TEXT NOT NULL COLLATE NOCASE CHECK (person <> ''),"
    " stage TEXT NOT NULL CHECK (stage <> ''),"
    " deadline INTEGER CHECK (deadline BETWEEN -25567 AND 84005),"
    " message INTEGER NOT NULL REFERENCES outbox(id),"
    " UNIQUE (subject, job, cycle, person, stage)"
    ") STRICT;"

    "CREATE TABLE published("
    " uid TEXT PRIMARY KEY CHECK (uid <> ''),"
    " hash BLOB NOT NULL CHECK (length(hash) = 32),"
    " sequence INTEGER NOT NULL CHECK (sequence >= 0),"
    " modified INTEGER NOT NULL"
    ") STRICT, WITHOUT ROWID;",

    "PRAGMA user_version = 2;"
    /* What was done last, and what is on record already; the last reading
     * before a day, and those before it; all the rest but what is voided. */
    "DROP INDEX record_about;"
    "CREATE INDEX record_done ON record(subject, job, day, reference)"
    " WHERE kind = 'completed';"
    "CREATE INDEX record_failed ON record(subject, job, day, reference)"
    " WHERE kind = 'failed';"
    "DROP INDEX record_read;"
    "CREATE INDEX record_read ON record(subject, meter, day, id, reading, kind)"
    " WHERE reading IS NOT NULL;"
    "CREATE INDEX record_away ON record(subject, day)"
    " WHERE kind IN ('off-road', 'moved');"

    /* The forecasts that calendars and mail show, see calm.h. */
    "CREATE TABLE held("
    " subject TEXT NOT NULL COLLATE NOCASE CHECK (subject <> ''),"
    " job TEXT NOT NULL COLLATE NOCASE CHECK (job <> ''),"
    " cycle TEXT NOT NULL CHECK (cycle <> ''),"
    " meter TEXT NOT NULL CHECK (meter IN ('distance', 'hours')),"
    " basis TEXT NOT NULL CHECK (basis IN ('stated', 'readings')),"
    " early INTEGER CHECK (early BETWEEN -25567 AND 84005),"
    " likely INTEGER CHECK (likely BETWEEN -25567 AND 84005),"
    " late INTEGER CHECK (late BETWEEN -25567 AND 84005),"
    " PRIMARY KEY (subject, job, cycle, meter)"
    ") STRICT, WITHOUT ROWID;"

    /* Events by feed, because one may look different in each; their stamps
     * are learnt anew from the feeds that are published.  And what was last
     * published of each feed. */
    "DROP TABLE published;"
    "CREATE TABLE published("
    " feed TEXT NOT NULL COLLATE NOCASE CHECK (feed <> ''),"
    " uid TEXT NOT NULL CHECK (uid <> ''),"
    " hash BLOB NOT NULL CHECK (length(hash) = 32),"
    " sequence INTEGER NOT NULL CHECK (sequence >= 0),"
    " modified INTEGER NOT NULL,"
    " PRIMARY KEY (feed, uid)"
    ") STRICT, WITHOUT ROWID;"
    "CREATE TABLE edition("
    " feed TEXT PRIMARY KEY COLLATE NOCASE CHECK (feed <> ''),"
    " hash BLOB NOT NULL CHECK (length(hash) = 32),"
    " dues INTEGER NOT NULL CHECK (dues >= 0),"
    " left_out INTEGER NOT NULL CHECK (left_out >= 0),"
    " size INTEGER NOT NULL CHECK (size >= 0),"
    " written INTEGER NOT NULL" /* nanoseconds since 1970 */
    ") STRICT, WITHOUT ROWID;"

    /* A message ends by being sent, given up or dropped.  Attempts are counted
     * when they begin; of one that has no known end, error tells. */
    "ALTER TABLE outbox ADD COLUMN next_try INTEGER;"
    "ALTER TABLE outbox ADD COLUMN gave_up INTEGER;"
    "ALTER TABLE outbox ADD COLUMN dropped INTEGER;"
    "ALTER TABLE outbox ADD COLUMN note TEXT"
    " CHECK (note <> '' AND (note IS NULL) = (dropped IS NULL));"
    "DROP INDEX outbox_waiting;"
    "CREATE INDEX outbox_waiting ON outbox(id) WHERE sent IS NULL"
    " AND dropped IS NULL;"

    /* What is wrong with the pass, as its keeper was last told. */
    "CREATE TABLE trouble("
    " about TEXT PRIMARY KEY CHECK (about <> ''),"
    " says TEXT NOT NULL CHECK (says <> ''),"
    " told INTEGER NOT NULL CHECK (told BETWEEN -25567 AND 84005)"
    ") STRICT, WITHOUT ROWID;"

    /* Days that somebody fixed; a change is another booking. */
    "CREATE TABLE booking("
    " id INTEGER PRIMARY KEY,"
    " subject TEXT NOT NULL COLLATE NOCASE CHECK (subject <> ''),"
    " job TEXT NOT NULL COLLATE NOCASE CHECK (job <> ''),"
    " cycle TEXT NOT NULL CHECK (cycle <> ''),"
    " day INTEGER CHECK (day BETWEEN -25567 AND 84005),"
    " entered INTEGER NOT NULL,"
    " by_whom TEXT,"
    " note TEXT,"
    " replaces INTEGER UNIQUE REFERENCES booking(id) CHECK (replaces < id),"
    " CHECK (day IS NOT NULL OR replaces IS NOT NULL)"
    ") STRICT;"
    "CREATE TRIGGER booking_changed BEFORE UPDATE ON booking BEGIN"
    " SELECT RAISE(ABORT, 'bookings are never changed'); END;"
    "CREATE TRIGGER booking_deleted BEFORE DELETE ON booking BEGIN"
    " SELECT RAISE(ABORT, 'bookings are never deleted'); END;"

    /* The plan that was kept last, so that the next moves few of its days. */
    "CREATE TABLE planned("
    " subject TEXT NOT NULL COLLATE NOCASE CHECK (subject <> ''),"
    " job TEXT NOT NULL COLLATE NOCASE CHECK (job <> ''),"
    " day INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84005),"
    " PRIMARY KEY (subject, job, day)"
    ") STRICT, WITHOUT ROWID;"

    /* Forms of the page that were taken, each once. */
    "CREATE TABLE form("
    " token TEXT PRIMARY KEY CHECK (token <> ''),"
    " record INTEGER NOT NULL REFERENCES record(id)"
    ") STRICT, WITHOUT ROWID;"

    /* Who has the key of that hash opens that feed, until it is revoked. */
    "CREATE TABLE key("
    " id INTEGER PRIMARY KEY,"
    " kind TEXT NOT NULL CHECK (kind <> ''),"
    " name TEXT NOT NULL COLLATE NOCASE CHECK (name <> ''),"
    " hash BLOB NOT NULL UNIQUE CHECK (length(hash) = 32),"
    " made INTEGER NOT NULL,"
    " revoked INTEGER"
    ") STRICT;",

    "PRAGMA user_version = 3;"
    /* All facts are events of one chain.  What a kind has is in the table of
     * kinds, see record.h, not here, so that a new one needs no step. */
    "CREATE TABLE event("
    " id INTEGER PRIMARY KEY,"
    " kind TEXT NOT NULL CHECK (kind <> ''),"
    " subject TEXT COLLATE NOCASE CHECK (subject <> ''),"
    " job TEXT COLLATE NOCASE CHECK (job <> ''),"
    " day INTEGER CHECK (day BETWEEN -25567 AND 84005),"
    " until INTEGER CHECK (until BETWEEN day AND 84005),"
    " meter TEXT CHECK (meter IN ('distance', 'hours')),"
    " reading INTEGER CHECK (reading >= 0),"
    " entered INTEGER NOT NULL,"
    " voids INTEGER REFERENCES event(id) CHECK (voids < id),"
    " about INTEGER REFERENCES event(id) CHECK (about < id),"
    " by_whom TEXT,"
    " reference TEXT,"
    " note TEXT,"
    " other TEXT COLLATE NOCASE CHECK (other <> '' AND other <> subject),"
    " body TEXT CHECK (length(CAST(body AS BLOB)) <= 65536)," /* see body.h */
    " form INTEGER NOT NULL CHECK (form > 0)," /* of the hash, see chain.h */
    " hash BLOB NOT NULL CHECK (length(hash) = 32),"
    " CHECK ((meter IS NULL) = (reading IS NULL)),"
    " CHECK (form > 1 OR (about IS NULL AND body IS NULL))"
    ") STRICT;"

    /* Records keep their numbers, for cycles are named after them, and their
     * hashes, of form 1. */
    "INSERT INTO event SELECT id, kind, subject, job, day, until, meter,"
    " reading, entered, voids, NULL, by_whom, reference, note, other, NULL, 1,"
    " hash FROM record ORDER BY id;"

    /* Bookings follow in their order; one taken back had no day. */
    "CREATE TABLE moving("
    " id INTEGER PRIMARY KEY, kind, subject, job, day, entered, voids,"
    " by_whom, note, body);"
    "WITH last(id) AS (SELECT coalesce(max(id), 0) FROM event)"
    " INSERT INTO moving"
    " SELECT last.id + row_number() OVER (ORDER BY b.id),"
    "  iif(b.day IS NULL, 'unbooked', 'booked'), b.subject, b.job,"
    "  coalesce(b.day, (SELECT day FROM booking WHERE id = b.replaces),"
    "   b.entered / 86400), b.entered,"
    "  last.id + nullif((SELECT count(*) FROM booking"
    "   WHERE id <= b.replaces), 0),"
    "  b.by_whom, b.note, '{\"cycle\":' || json_quote(b.cycle) || '}'"
    " FROM booking AS b, last ORDER BY b.id;"
    "WITH RECURSIVE link(id, hash) AS ("
    " SELECT coalesce(max(id), 0), coalesce("
    "  (SELECT hash FROM event ORDER BY id DESC LIMIT 1), zeroblob(32))"
    " FROM event"
    " UNION ALL"
    " SELECT m.id, chain_hash(link.hash, m.id, m.kind, m.subject, m.job, m.day,"
    "  NULL, NULL, NULL, m.entered, m.voids, NULL, m.by_whom, NULL, m.note,"
    "  NULL, m.body, 2)"
    " FROM link JOIN moving AS m ON m.id = link.id + 1)"
    " INSERT INTO event SELECT m.id, m.kind, m.subject, m.job, m.day, NULL,"
    " NULL, NULL, m.entered, m.voids, NULL, m.by_whom, NULL, m.note, NULL,"
    " m.body, 2, link.hash"
    " FROM link JOIN moving AS m ON m.id = link.id ORDER BY m.id;"
    "DROP TABLE moving;"
    "DROP TABLE booking;"

    "CREATE TABLE taken("
    " token TEXT PRIMARY KEY CHECK (token <> ''),"
    " record INTEGER NOT NULL REFERENCES event(id)"
    ") STRICT, WITHOUT ROWID;"
    "INSERT INTO taken SELECT token, record FROM form;"
    "DROP TABLE form;"
    "ALTER TABLE taken RENAME TO form;"
    "DROP TABLE record;"

    "CREATE UNIQUE INDEX event_voids ON event(voids)"
    " WHERE voids IS NOT NULL;"
    "CREATE INDEX event_done ON event(subject, job, day, reference)"
    " WHERE kind = 'completed';"
    "CREATE INDEX event_failed ON event(subject, job, day, reference)"
    " WHERE kind = 'failed';"
    "CREATE INDEX event_read ON event(subject, meter, day, id, reading, kind)"
    " WHERE reading IS NOT NULL;"
    "CREATE INDEX event_away ON event(subject, day)"
    " WHERE kind IN ('off-road', 'moved');"
    "CREATE INDEX event_other ON event(kind, subject, job, day) WHERE kind"
    " NOT IN ('completed', 'failed', 'reading', 'off-road', 'meter-replaced',"
    " 'moved', 'voided');"
    "CREATE TRIGGER event_changed BEFORE UPDATE ON event BEGIN"
    " SELECT RAISE(ABORT, 'records are never changed'); END;"
    "CREATE TRIGGER event_deleted BEFORE DELETE ON event BEGIN"
    " SELECT RAISE(ABORT, 'records are never deleted'); END;"
    "CREATE TRIGGER event_replaced BEFORE INSERT ON event"
    " WHEN EXISTS (SELECT 1 FROM event WHERE id >= NEW.id) BEGIN"
    " SELECT RAISE(ABORT, 'records are never replaced'); END;",

    "PRAGMA user_version = 4;"
    /* Walk-round checks under way on somebody's phone: no facts yet. */
    "CREATE TABLE draft("
    " subject TEXT NOT NULL COLLATE NOCASE CHECK (subject <> ''),"
    " sheet TEXT NOT NULL COLLATE NOCASE CHECK (sheet <> ''),"
    " who TEXT NOT NULL COLLATE NOCASE CHECK (who <> ''),"
    " opened INTEGER NOT NULL,"
    " sent INTEGER," /* the first part that was sent, or NULL */
    " reading TEXT,"
    " answers TEXT NOT NULL,"
    " PRIMARY KEY (subject, sheet, who)"
    ") STRICT, WITHOUT ROWID;",
};

_Static_assert(sizeof steps / sizeof *steps == SCHEMA_VERSION, "one a version");

/* The number that the pragma @text answers with. */
static int
ask(struct ledger *l, const char *text, int64_t *n, struct fault *f)
{
    sqlite3_stmt *s = NULL;
    int code = sqlite3_prepare_v2(l->db, text, -1, &s, NULL);

    if (code == SQLITE_OK)
        code = sqlite3_step(s);
    if (code == SQLITE_ROW)
        *n = sqlite3_column_int64(s, 0);
    else
        query_fault(l, code, f);
    sqlite3_finalize(s);
    return code == SQLITE_ROW ? 0 : -1;
}

int
schema_recognise(struct ledger *l, struct fault *f)
{
    int64_t application = 0;

    if (ask(l, "PRAGMA application_id", &application, f) != 0)
        return -1;
    if (application != SCHEMA_APPLICATION)
        return fault_set(f, EX_DATAERR,
            "%s: is not a ledger: check the path, or restore a backup",
            l->path);
    return 0;
}

static int
version_of(struct ledger *l, int64_t *version, struct fault *f)
{
    if (ask(l, "PRAGMA user_version", version, f) != 0)
        return -1;
    if (*version < 0 || *version > SCHEMA_VERSION)
        return fault_set(f, EX_CONFIG,
            "%s: the ledger has version %lld and this program knows none "
            "after %lld: install the newer ostler that wrote it",
            l->path, (long long)*version, (long long)SCHEMA_VERSION);
    return 0;
}

static int
run(struct ledger *l, const char *text, struct fault *f)
{
    int code = sqlite3_exec(l->db, text, NULL, NULL, NULL);

    return code == SQLITE_OK ? 0 : query_fault(l, code, f);
}

static int
take_steps(struct ledger *l, struct fault *f)
{
    int64_t version = 0;

    /* Another process may have taken them since we looked. */
    if (version_of(l, &version, f) != 0)
        return -1;
    for (; version < SCHEMA_VERSION; version++)
        if (run(l, steps[version], f) != 0)
            return -1;
    return 0;
}

int
schema_update(struct ledger *l, struct fault *f)
{
    int64_t version = 0;

    if (version_of(l, &version, f) != 0)
        return -1;
    if (version == SCHEMA_VERSION)
        return 0;
    /* The groups of ledger.h need the tables, and so come after them. */
    if (run(l, "BEGIN IMMEDIATE", f) != 0)
        return -1;
    if (take_steps(l, f) == 0 && run(l, "COMMIT", f) == 0)
        return 0;
    if (!sqlite3_get_autocommit(l->db))
        (void)run(l, "ROLLBACK", NULL);
    return -1;
}
