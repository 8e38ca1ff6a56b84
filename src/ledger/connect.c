#include "connect.h"

#include "chain_hash.h"
#include "query.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

char *
connect_name(const char *path, struct fault *f)
{
    char *file = NULL;

    /* "./" keeps SQLite from taking "file:..." or ":memory:" as special. */
    if (asprintf(&file, "%s%s", path[0] == '/' ? "" : "./", path) >= 0)
        return file;
    fault_fill(f, EX_OSERR, "%s: memory is out", path);
    return NULL;
}

static int
set_up(struct ledger *l, int timeout)
{
    int code = chain_hash_register(l->db);

    if (code != SQLITE_OK)
        return code;
    sqlite3_busy_timeout(l->db, timeout);
    sqlite3_db_config(l->db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
    /* Else a value compared with the kind of a partial index has the statement
     * prepared anew each time. */
    sqlite3_db_config(l->db, SQLITE_DBCONFIG_ENABLE_QPSG, 1, NULL);
    return sqlite3_exec(l->db,
        "PRAGMA foreign_keys = ON; PRAGMA trusted_schema = OFF;"
        "PRAGMA cell_size_check = ON; PRAGMA synchronous = EXTRA;",
        NULL, NULL, NULL);
}

void
connect_close(struct ledger *l)
{
    if (l == NULL)
        return;
    for (int i = 0; i < STATEMENTS; i++)
        sqlite3_finalize(l->statements[i]);
    sqlite3_close(l->db);
    free(l->path);
    free(l);
}

struct ledger *
connect_file(
    const char *path, const char *file, int flags, int timeout, struct fault *f)
{
    struct ledger *l = calloc(1, sizeof *l);

    if (l == NULL || (l->path = strdup(path)) == NULL) {
        fault_fill(f, EX_OSERR, "%s: memory is out", path);
        connect_close(l);
        return NULL;
    }
    int code = sqlite3_open_v2(file, &l->db,
        SQLITE_OPEN_READWRITE | SQLITE_OPEN_EXRESCODE | SQLITE_OPEN_NOMUTEX |
            flags,
        NULL);
    if (code == SQLITE_OK)
        code = set_up(l, timeout);
    if (code == SQLITE_OK)
        return l;
    query_fault(l, code, f);
    connect_close(l);
    return NULL;
}
