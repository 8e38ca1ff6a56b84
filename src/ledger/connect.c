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
set_up(struct ledger *l, int patience)
{
    int code = chain_hash_register(l->db);

    if (code != SQLITE_OK)
        return code;
    ledger_patience(l, patience);
    sqlite3_db_config(l->db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
    /* Else a value compared with the kind of a partial index has the statement
     * prepared anew each time. */
    sqlite3_db_config(l->db, SQLITE_DBCONFIG_ENABLE_QPSG, 1, NULL);
    return sqlite3_exec(l->db,
        "PRAGMA foreign_keys = ON; PRAGMA trusted_schema = OFF;"
        "PRAGMA cell_size_check = ON; PRAGMA synchronous = EXTRA;",
        NULL, NULL, NULL);
}

struct ledger *
connect_file(const char *path, const char *file, int flags, int patience,
    struct fault *f)
{
    struct ledger *l = calloc(1, sizeof *l);

    if (l == NULL || (l->path = strdup(path)) == NULL) {
        fault_fill(f, EX_OSERR, "%s: memory is out", path);
        ledger_close(l);
        return NULL;
    }
    int code = sqlite3_open_v2(file, &l->db,
        SQLITE_OPEN_READWRITE | SQLITE_OPEN_EXRESCODE | SQLITE_OPEN_NOMUTEX |
            flags,
        NULL);
    if (code == SQLITE_OK)
        code = set_up(l, patience);
    if (code == SQLITE_OK)
        return l;
    query_fault(l, code, f);
    ledger_close(l);
    return NULL;
}
