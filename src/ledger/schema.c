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
    ") STRICT, WITHOUT ROWID;",
};

_Static_assert(
    sizeof steps / sizeof *steps == SCHEMA_VERSION, "a step for each version");

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
take_steps(struct ledger *l, struct fault *f)
{
    int64_t version = 0;

    /* Another process may have taken them since we looked. */
    if (version_of(l, &version, f) != 0)
        return -1;
    for (; version < SCHEMA_VERSION; version++) {
        int code = sqlite3_exec(l->db, steps[version], NULL, NULL, NULL);
        if (code != SQLITE_OK)
            return query_fault(l, code, f);
    }
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
    if (ledger_begin(l, f) != 0)
        return -1;
    if (take_steps(l, f) == 0)
        return ledger_commit(l, f);
    ledger_rollback(l);
    return -1;
}
