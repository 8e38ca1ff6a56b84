#ifndef CONNECT_H
#define CONNECT_H

#include "fault.h"

struct ledger;

/*
 * What SQLite is given for @path, so that it takes none for something special.
 * To be freed; NULL with @f set when memory is out.  For this layer only.
 */
char *connect_name(const char *path, struct fault *f);

/*
 * A handle on @file, a name from connect_name() or ":memory:", whatever is in
 * it; its faults speak of @path.  @flags are further ones of sqlite3_open_v2().
 * It waits for other processes as ledger_patience() says, from the first.  NULL
 * on failure; close with ledger_close().
 */
struct ledger *connect_file(const char *path, const char *file, int flags,
    int patience, struct fault *f);

enum { CONNECT_PATIENCE = 5000, CONNECT_BRIEFLY = 500 };

#endif
