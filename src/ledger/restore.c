#include "restore.h"

#include "connect.h"
#include "copy.h"
#include "ledger.h"
#include "lock.h"
#include "query.h"
#include "rows.h"
#include "schema.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sysexits.h>
#include <unistd.h>

/* At hand while restoring. */
struct restore {
    const char *path;
    struct ledger *backup;
    struct ledger *present; /* nobody else writes to it; NULL when there is
                               none, or none that can be read */
    struct restored *out;
    int64_t newest; /* of the records dropped */
    int64_t entered;
};

/* --- what would be lost --------------------------------------------------- */

/* Nonzero when @s finds in the backup what is in these columns of @row. */
static int
finds(struct restore *r, enum statement s, const struct query *row, int first,
    int last, struct fault *f)
{
    struct query q = query_start(r->backup, s);

    for (int c = first; c <= last; c++)
        query_value(&q, row, c);
    int has = query_row(&q, f);
    if (has > 0)
        query_end(&q);
    return has;
}

/* Nonzero when the backup has the record at hand, just as it is.  Bookings got
 * their numbers when the ledger was brought to version 3, after the records
 * that each copy had then: those have it when they say the same. */
static int
backup_has(struct restore *r, const struct query *row, struct fault *f)
{
    int has = finds(r, HASH_HAS, row, 0, 1, f);

    return has == 0 ? finds(r, SAYS_THE_SAME, row, 2, 9, f) : has;
}

static int
count_newer(struct restore *r, struct fault *f)
{
    struct query q = query_start(r->present, HASHES);
    int row;

    while ((row = query_row(&q, f)) > 0) {
        int has = backup_has(r, &q, f);
        if (has < 0) {
            query_end(&q);
            return -1;
        }
        if (has > 0)
            continue;
        r->out->dropped++;
        r->newest = query_int_at(&q, 0);
        r->entered = query_int_at(&q, 2);
    }
    return row;
}

/* Open the present ledger, keep others from writing, and look what it has. */
static int
look_at_present(struct restore *r, const char *file, struct fault *f)
{
    r->present = connect_file(r->path, file, 0, CONNECT_TIMEOUT, f);
    if (r->present == NULL || schema_recognise(r->present, f))
        return -1;
    if (sqlite3_db_readonly(r->present->db, "main"))
        return query_fault(r->present, SQLITE_READONLY, f);
    if (schema_update(r->present, f))
        return -1;
    struct query q = query_start(r->present, BEGIN_ALONE);
    if (query_run(&q, f))
        return -1;
    return count_newer(r, f);
}

static int
refuse_loss(const struct restore *r, struct fault *f)
{
    char day[DAY_WORDS];

    return fault_set(f, EX_DATAERR,
        "%s: has %lld record%s that the backup has not, the newest record %lld "
        "of %s: with --drop-newer it is restored all the same, and the present "
        "ledger kept beside it",
        r->path, (long long)r->out->dropped, r->out->dropped == 1 ? "" : "s",
        (long long)r->newest, day_words((day_t)(r->entered / 86400), day));
}

static int
weigh_present(
    struct restore *r, const char *file, int drop_newer, struct fault *f)
{
    struct fault found = {0, ""};

    if (access(file, F_OK) != 0)
        return 0;
    if (look_at_present(r, file, &found) == 0)
        return r->out->dropped == 0 || drop_newer ? 0 : refuse_loss(r, f);
    /* Only for damage is a backup the cure. */
    if (found.code != EX_DATAERR)
        return fault_set(f, found.code, "%s", found.text);
    r->out->dropped = -1;
    if (drop_newer)
        return 0;
    return fault_set(f, EX_DATAERR,
        "%s; what it has that the backup has not cannot be told: with "
        "--drop-newer it is restored all the same, and the present ledger kept "
        "beside it",
        found.text);
}

/* --- putting it in place -------------------------------------------------- */

/* Give the file @path a second name that was free: its number, or -1. */
static int
keep_beside(const char *path, struct fault *f)
{
    for (int n = 1; n < 10000; n++) {
        char suffix[32];
        snprintf(suffix, sizeof suffix, ".before-restore-%d", n);
        char *name = copy_name(path, suffix, f);
        if (name == NULL)
            return -1;
        int rc = link(path, name);
        free(name);
        if (rc == 0)
            return n;
        if (errno != EEXIST)
            break;
    }
    return fault_set(f, EX_CANTCREAT,
        "%s: cannot be kept beside the restored one: %s", path,
        strerror(errno));
}

/* SQLite has made use of the journal of a crash by now, if the ledger was
 * there. If it was not, the journal is of no use, and would spoil the restored
 * one. */
static int
clear_journal(const char *path, struct fault *f)
{
    char *journal = copy_name(path, "-journal", f);

    if (journal == NULL)
        return -1;
    int rc = unlink(journal);
    if (rc != 0 && errno == ENOENT)
        rc = 0;
    else if (rc != 0)
        fault_fill(f, EX_CANTCREAT, "%s: cannot be removed: %s", journal,
            strerror(errno));
    free(journal);
    return rc;
}

/* The restored ledger is for the same user. */
static int
same_owner(const char *copy, const char *path, struct fault *f)
{
    struct stat st;

    if (stat(path, &st) != 0 || chown(copy, st.st_uid, st.st_gid) == 0)
        return 0;
    return fault_set(f, EX_NOPERM,
        "%s: belongs to another user: run this as that user", path);
}

static int
put_in_place(struct restore *r, const char *copy, struct fault *f)
{
    if (access(r->path, F_OK) == 0) {
        if (same_owner(copy, r->path, f))
            return -1;
        r->out->kept = keep_beside(r->path, f);
        if (r->out->kept < 0)
            return -1;
    }
    if (clear_journal(r->path, f))
        return -1;
    return copy_place(copy, r->path, f);
}

static int
restore_copy(struct restore *r, struct fault *f)
{
    struct chain chain;
    char *copy = copy_name(r->path, ".new", f);

    if (copy == NULL)
        return -1;
    int rc = copy_make(r->backup, copy, r->path, &chain, f);
    if (rc == 0 && (rc = put_in_place(r, copy, f)) != 0)
        (void)unlink(copy);
    r->out->records = chain.records;
    free(copy);
    return rc;
}

static int
restore_locked(struct restore *r, int drop_newer, struct fault *f)
{
    char *file = connect_name(r->path, f);
    int rc = -1;

    if (file != NULL && weigh_present(r, file, drop_newer, f) == 0)
        rc = restore_copy(r, f);
    ledger_close(r->present);
    free(file);
    return rc;
}

/* Refuse paths that cannot be meant. */
static int
check_paths(const char *path, const char *from, struct fault *f)
{
    struct stat st;

    if (copy_same_file(path, from))
        return fault_set(
            f, EX_USAGE, "%s: is the ledger itself: name a backup", from);
    if (lstat(path, &st) == 0 && S_ISLNK(st.st_mode))
        return fault_set(f, EX_CANTCREAT,
            "%s: is a symbolic link: let the fleet file name the ledger itself",
            path);
    return 0;
}

static int
take_lock(const char *path, struct fault *f)
{
    char *name = copy_name(path, ".lock", f);

    if (name == NULL)
        return -1;
    int lock = lock_take(name);
    if (lock < 0 && errno == EWOULDBLOCK)
        fault_fill(f, EX_TEMPFAIL,
            "%s: a pass is running, or another restore: try again", path);
    else if (lock < 0)
        fault_fill(f, errno == EACCES ? EX_NOPERM : EX_CANTCREAT,
            "%s: cannot be made: %s", name, strerror(errno));
    free(name);
    return lock;
}

int
restore_from(const char *path, const char *from, int drop_newer,
    struct restored *out, struct fault *f)
{
    struct chain chain;
    struct restore r = {.path = path, .out = out};
    int lock = -1;
    int rc = -1;

    *out = (struct restored){0};
    if (check_paths(path, from, f))
        return -1;
    r.backup = copy_open(from, f);
    if (r.backup != NULL && copy_check(r.backup, &chain, f) == 0 &&
        (lock = take_lock(path, f)) >= 0)
        rc = restore_locked(&r, drop_newer, f);
    lock_drop(lock);
    ledger_close(r.backup);
    return rc;
}
