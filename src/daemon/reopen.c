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
reopen(struct run_context *p, int must_exist, struct fault *f)
{
    if (must_exist && check_ledger(p, f))
        return -1;
    struct problems *ps = problems_new();
    if (ps == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    int rc = run_again(p, ps, f);
    problems_free(ps);
    return rc;
}
