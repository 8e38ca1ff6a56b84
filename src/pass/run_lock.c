#include "run_lock.h"

#include "buf.h"
#include "lock.h"

#include <errno.h>
#include <string.h>
#include <sysexits.h>

/* The lock that has the ledger's name and @suffix, unless another has it and
 * does @what. */
static int
take(const struct run_context *p, const char *suffix, const char *what,
    struct fault *f)
{
    struct buf *path = buf_new();
    int lock = -1;

    if (path == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    buf_print(path, "%s%s", run_fleet(p)->site.ledger, suffix);
    lock = lock_take(buf_str(path));
    if (lock < 0 && errno == EWOULDBLOCK)
        fault_fill(f, EX_TEMPFAIL, "%s: another %s", buf_str(path), what);
    else if (lock < 0)
        fault_fill(f, EX_CANTCREAT, "%s: cannot make the lock: %s",
            buf_str(path), strerror(errno));
    buf_free(path);
    return lock;
}

int
run_lock_take(const struct run_context *p, struct fault *f)
{
    return take(p, ".lock", "pass is running, so this one did nothing", f);
}

int
run_lock_send(const struct run_context *p, struct fault *f)
{
    return take(
        p, ".sending", "process is sending mail, so this one did not", f);
}
