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
 * It waits for other processes as ledger_busy_timeout() says, from the first.
 * NULL on failure; close with connect_close(), or as any other ledger.
 */
struct ledger *connect_file(const char *path, const char *file, int flags,
    int timeout, struct fault *f);

/* As ledger_close(). */
void connect_close(struct ledger *l);

enum { CONNECT_TIMEOUT = 5000, CONNECT_BRIEFLY = 500 };

#endif
