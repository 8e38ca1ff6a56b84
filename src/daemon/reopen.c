#include "reopen.h"

#include "file_map.h"

#include <sysexits.h>

/* A ledger that was there and is gone was moved away for a moment, or by
 * mistake: a new one in its place would know of nothing. */
static int
check_ledger(const struct run_context *p, struct fault *f)
{
    const char *path = run_fleet(p)->site.ledger;
    int64_t size;
    int64_t written;

    if (file_map_look(path, &size, &written) == 0)
        return 0;
    return fault_set(
        f, EX_NOINPUT, "%s: the ledger is gone: put it back", path);
}

int
reopen(struct run_context *p, int must_exist, enum run_reads reads,
    struct fault *f)
{
    if (must_exist && check_ledger(p, f))
        return -1;
    return run_again(p, reads, NULL, f);
}
