#include "ledger.h"

#include "connect.h"
#include "lock.h"
#include "query.h"
#include "rows.h"
#include "schema.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sysexits.h>
#include <unistd.h>

void
ledger_close(struct ledger *l)
{
    connect_close(l);
}

void
ledger_busy_timeout(struct ledger *l, int milliseconds)
{
    sqlite3_busy_timeout(l->db, milliseconds);
}

static int
run(struct ledger *l, const char *text, struct fault *f)
{
    int code = sqlite3_exec(l->db, text, NULL, NULL, NULL);

    return code == SQLITE_OK ? 0 : query_fault(l, code, f);
}

/* A handle on a new ledger in @file, which is missing. */
static struct ledger *
make_tables(const char *path, const char *file, struct fault *f)
{
    struct ledger *l =
        connect_file(path, file, SQLITE_OPEN_CREATE, CONNECT_TIMEOUT, f);

    if (l != NULL && schema_update(l, f) != 0) {
        ledger_close(l);
        return NULL;
    }
    return l;
}

/* Nonzero when there is something at @file that we may not overlook. */
static int
is_there(const char *file)
{
    struct stat st;

    return stat(file, &st) == 0 || (errno != ENOENT && errno != ENOTDIR);
}

/* SQLite would never let the group write, whatever the umask allows. */
static int
make_empty(const char *path, const char *beside, struct fault *f)
{
    int fd = open(beside, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);

    if (fd >= 0)
        return close(fd);
    return fault_set(
        f, EX_CANTCREAT, "%s: cannot be made: %s", path, strerror(errno));
}

/* Make a ledger as @beside and put it at @file whole. */
static int
make_whole(
    const char *path, const char *beside, const char *file, struct fault *f)
{
    struct ledger *l =
        make_empty(path, beside, f) ? NULL : make_tables(path, beside, f);

    if (l == NULL)
        return -1;
    ledger_close(l);
    if (rename(beside, file) == 0)
        return 0;
    fault_fill(
        f, EX_CANTCREAT, "%s: cannot be made: %s", path, strerror(errno));
    (void)unlink(beside);
    return -1;
}

/* What a process that was killed may have left. */
static int
clear(const char *beside)
{
    char *journal = NULL;

    if (asprintf(&journal, "%s-journal", beside) < 0)
        return -1;
    (void)unlink(journal);
    (void)unlink(beside);
    free(journal);
    return 0;
}

/*
 * A new ledger is made beside its place by one process at a time.  So an
 * empty file in its place is never one of ours half made, but a damaged one,
 * and is refused.
 */
static int
make_file(const char *path, const char *file, struct fault *f)
{
    char *beside = NULL;
    char *lock_path = NULL;
    int code = -1;

    if (asprintf(&beside, "%s.new", file) < 0)
        return fault_set(f, EX_OSERR, "%s: memory is out", path);
    if (asprintf(&lock_path, "%s.lock", file) < 0) {
        free(beside);
        return fault_set(f, EX_OSERR, "%s: memory is out", path);
    }
    int lock = lock_wait(lock_path);
    if (lock < 0)
        fault_fill(f, EX_CANTCREAT, "%s: cannot be made: %s: %s", path,
            lock_path, strerror(errno));
    else if (is_there(file))
        code = 0; /* another process was faster */
    else if (clear(beside))
        fault_fill(f, EX_OSERR, "%s: memory is out", path);
    else
        code = make_whole(path, beside, file, f);
    lock_drop(lock);
    free(lock_path);
    free(beside);
    return code;
}

static int
prepare(struct ledger *l, enum ledger_mode mode, struct fault *f)
{
    if (schema_recognise(l, f) != 0)
        return -1;
    if (mode != LEDGER_READ && sqlite3_db_readonly(l->db, "main"))
        return query_fault(l, SQLITE_READONLY, f);
    if (mode != LEDGER_READ && run(l, "PRAGMA journal_mode = DELETE", f) != 0)
        return -1;
    return schema_update(l, f);
}

static struct ledger *
open_there(
    const char *path, const char *file, enum ledger_mode mode, struct fault *f)
{
    struct stat st;

    if (stat(file, &st) == 0 && !S_ISREG(st.st_mode)) {
        fault_fill(f, EX_DATAERR, "%s: is not a file: check the path", path);
        return NULL;
    }
    struct ledger *l = connect_file(path, file, 0,
        mode == LEDGER_SERVE ? CONNECT_BRIEFLY : CONNECT_TIMEOUT, f);
    if (l != NULL && prepare(l, mode, f) != 0) {
        ledger_close(l);
        return NULL;
    }
    return l;
}

/* It changes when another connection commits, and only then. */
static int
data_version(struct ledger *l, int64_t *version, struct fault *f)
{
    struct query q = query_start(l, DATA_VERSION);
    int row = query_row(&q, f);

    if (row <= 0)
        return -1;
    *version = query_int_at(&q, 0);
    return query_run(&q, f);
}

int
ledger_overtaken(struct ledger *l, struct fault *f)
{
    int64_t now;

    if (data_version(l, &now, f))
        return -1;
    return now != l->version;
}

struct ledger *
ledger_open(const char *path, enum ledger_mode mode, struct fault *f)
{
    struct ledger *l = NULL;
    char *file = connect_name(path, f);

    if (file == NULL)
        return NULL;
    int there = is_there(file);
    if (!there && mode != LEDGER_WRITE && mode != LEDGER_SERVE)
        /* "" is a file that is gone when closed. */
        l = make_tables(path, mode == LEDGER_READ ? ":memory:" : "", f);
    else if (there || make_file(path, file, f) == 0)
        l = open_there(path, file, mode, f);
    free(file);
    if (l != NULL && data_version(l, &l->version, f) != 0) {
        ledger_close(l);
        return NULL;
    }
    /* The file itself is opened for writing in either mode: the first to
     * come after a crash must undo what it left, reader or not. */
    if (l != NULL && mode == LEDGER_READ &&
        run(l, "PRAGMA query_only = ON", f) != 0) {
        ledger_close(l);
        return NULL;
    }
    return l;
}

int
ledger_begin(struct ledger *l, struct fault *f)
{
    struct query q = query_start(l, l->depth == 0 ? BEGIN : BEGIN_INNER);

    if (query_run(&q, f) != 0)
        return -1;
    l->depth++;
    return 0;
}

int
ledger_commit(struct ledger *l, struct fault *f)
{
    assert(l->depth > 0);
    struct query q = query_start(l, l->depth == 1 ? COMMIT : COMMIT_INNER);

    if (query_run(&q, f) != 0) {
        ledger_rollback(l);
        return -1;
    }
    l->depth--;
    return 0;
}

/* Undoing can fail only where SQLite undoes by itself, now or at the next
 * opening of the file. */
static void
undo(struct ledger *l, enum statement s)
{
    struct query q = query_start(l, s);

    (void)query_run(&q, NULL);
}

void
ledger_rollback(struct ledger *l)
{
    if (l->depth == 0)
        return;
    if (l->depth == 1) {
        l->depth = 0;
        if (!sqlite3_get_autocommit(l->db))
            undo(l, ROLLBACK);
    } else {
        undo(l, UNDO_INNER);
        undo(l, COMMIT_INNER);
        l->depth--;
    }
}
