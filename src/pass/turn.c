#include "turn.h"

#include "buf.h"
#include "lock.h"

#include <errno.h>
#include <string.h>
#include <sysexits.h>

int
turn_take(const struct pass *p, struct fault *f)
{
    struct buf *path = buf_new();
    int lock = -1;

    if (path == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    buf_print(path, "%s.lock", pass_fleet(p)->site.ledger);
    lock = lock_take(buf_str(path));
    if (lock < 0 && errno == EWOULDBLOCK)
        fault_fill(f, EX_TEMPFAIL,
            "%s: another pass is running, so this one did nothing",
            buf_str(path));
    else if (lock < 0)
        fault_fill(f, EX_CANTCREAT, "%s: cannot make the lock: %s",
            buf_str(path), strerror(errno));
    buf_free(path);
    return lock;
}
