#include "backup.h"

#include "copy.h"
#include "ledger.h"

#include <stdlib.h>
#include <sysexits.h>
#include <unistd.h>

/* Nothing but an older copy may be written over. */
static int
may_replace(const char *path, const char *to, struct fault *f)
{
    if (access(to, F_OK) != 0)
        return 0;
    if (copy_same_file(path, to))
        return fault_set(
            f, EX_USAGE, "%s: is the ledger itself: name another file", to);
    struct ledger *old = copy_open(to, f);
    ledger_close(old);
    if (old != NULL)
        return 0;
    return fault_set(f, EX_DATAERR,
        "%s: is there and is not a ledger: name another file", to);
}

int
backup_make(const char *path, const char *to, int64_t *records, struct fault *f)
{
    struct ledger *l = copy_open(path, f);
    char *new = copy_name(to, ".new", f);
    struct chain chain;
    int rc = -1;

    if (l != NULL && new != NULL && may_replace(path, to, f) == 0 &&
        copy_make(l, new, path, &chain, f) == 0 &&
        copy_place(new, to, f) == 0) {
        *records = chain.records;
        rc = 0;
    }
    free(new);
    ledger_close(l);
    return rc;
}
