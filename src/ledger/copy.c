#include "copy.h"

#include "atomic_file.h"
#include "connect.h"
#include "ledger.h"
#include "query.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sysexits.h>
#include <unistd.h>

struct ledger *
copy_open(const char *path, struct fault *f)
{
    if (access(path, F_OK) == 0)
        return ledger_open(path, LEDGER_READ, f);
    fault_fill(f, EX_NOINPUT, "%s: cannot be read: %s", path, strerror(errno));
    return NULL;
}

int
copy_same_file(const char *path, const char *other)
{
    struct stat a;
    struct stat b;

    return stat(path, &a) == 0 && stat(other, &b) == 0 &&
           a.st_dev == b.st_dev && a.st_ino == b.st_ino;
}

/* The statement @s finds nothing wrong: it answers "ok", or nothing. */
static int
finds_nothing(struct ledger *l, enum statement s, struct fault *f)
{
    struct query q = query_start(l, s);
    int row = query_row(&q, f);

    if (row <= 0)
        return row;
    const char *found = (const char *)sqlite3_column_text(q.statement, 0);
    int damaged = found == NULL || strcmp(found, "ok") != 0;
    if (damaged)
        fault_fill(f, EX_DATAERR,
            "%s: is damaged (%s): keep the file and restore a backup", l->path,
            found ? found : "?");
    query_end(&q);
    return damaged ? -1 : 0;
}

int
copy_check(struct ledger *l, struct chain *chain, struct fault *f)
{
    if (finds_nothing(l, CHECK_PAGES, f) ||
        finds_nothing(l, CHECK_REFERENCES, f))
        return -1;
    return chain_verify(l, chain, f);
}

/* Copy all pages at once, so that they are of one moment. */
static int
copy_pages(struct ledger *from, struct ledger *to, struct fault *f)
{
    sqlite3_backup *b = sqlite3_backup_init(to->db, "main", from->db, "main");
    int code = b == NULL ? sqlite3_extended_errcode(to->db) : SQLITE_OK;

    if (b != NULL) {
        (void)sqlite3_backup_step(b, -1);
        code = sqlite3_backup_finish(b);
    }
    return code == SQLITE_OK ? 0 : query_fault(to, code, f);
}

/* Make the file @to, unless it is there, with the rights of the file @like from
 * the first byte on.  Before SQLite has it open: closing it drops locks. */
static int
make_empty(const char *to, const char *like, struct fault *f)
{
    struct stat st = {.st_mode = 0644};

    (void)stat(like, &st);
    int fd = open(to, O_WRONLY | O_CREAT | O_CLOEXEC, 0600);
    if (fd >= 0 && fchmod(fd, st.st_mode & 0666) == 0)
        return close(fd);
    int rc = fault_set(f, errno == ENOSPC ? EX_IOERR : EX_CANTCREAT,
        "%s: cannot be made: %s", to, strerror(errno));
    if (fd >= 0)
        (void)close(fd);
    return rc;
}

static int
fill(struct ledger *l, const char *to, const char *file, struct fault *f)
{
    struct ledger *copy = connect_file(to, file, 0, CONNECT_TIMEOUT, f);
    int rc = copy == NULL ? -1 : copy_pages(l, copy, f);

    ledger_close(copy);
    return rc;
}

/* The copy is checked under the name of what it was made from: if that is
 * damaged, the copy is too. */
static int
check(struct ledger *l, const char *file, struct chain *chain, struct fault *f)
{
    struct ledger *copy = connect_file(l->path, file, 0, CONNECT_TIMEOUT, f);
    int rc = copy == NULL ? -1 : copy_check(copy, chain, f);

    ledger_close(copy);
    return rc;
}

int
copy_make(struct ledger *l, const char *to, const char *like,
    struct chain *chain, struct fault *f)
{
    char *file = connect_name(to, f);

    if (file == NULL)
        return -1;
    int rc = make_empty(to, like, f);
    if (rc == 0 && (fill(l, to, file, f) || check(l, file, chain, f))) {
        (void)unlink(to);
        rc = -1;
    }
    free(file);
    return rc;
}

int
copy_place(const char *copy, const char *path, struct fault *f)
{
    if (atomic_file_rename(copy, path) == 0)
        return 0;
    int full = errno == EIO || errno == ENOSPC;
    fault_fill(f, full ? EX_IOERR : EX_CANTCREAT, "%s: cannot be made: %s",
        path, strerror(errno));
    (void)unlink(copy);
    return -1;
}

char *
copy_name(const char *path, const char *suffix, struct fault *f)
{
    char *name = NULL;

    if (asprintf(&name, "%s%s", path, suffix) >= 0)
        return name;
    fault_fill(f, EX_OSERR, "%s: memory is out", path);
    return NULL;
}
