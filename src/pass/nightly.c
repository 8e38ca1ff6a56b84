#include "nightly.h"

#include "buf.h"
#include "lock.h"
#include "planning.h"
#include "publish.h"
#include "remind.h"

#include <errno.h>
#include <string.h>
#include <sysexits.h>

static int
remind(const struct pass *p, struct fault *f)
{
    struct snapshot *s = pass_snapshot(p, DAY_NONE, f);
    int rc = s ? remind_all(p, s, f) : -1;

    snapshot_free(s);
    return rc;
}

/* What people were told today is what tomorrow's plan holds to. */
static int
keep_plan(const struct pass *p, struct fault *f)
{
    if (!pass_fleet(p)->site.planner)
        return 0;
    struct agenda *a = planning_agenda(p, NULL, 0, NULL, f);
    int rc = a ? planning_keep(p, a, f) : -1;

    agenda_free(a);
    return rc;
}

static int
run_parts(const struct pass *p, struct fault *f)
{
    int rc = publish_all(p, f);

    if (remind(p, rc ? NULL : f))
        rc = -1;
    if (keep_plan(p, rc ? NULL : f))
        rc = -1;
    if (remind_send(p, rc ? NULL : f))
        rc = -1;
    return rc;
}

/* Two passes at once would tell people everything twice. */
static int
take_lock(const struct pass *p, struct fault *f)
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

int
nightly_run(const struct pass *p, struct fault *f)
{
    int lock = take_lock(p, f);

    if (lock < 0)
        return -1;
    int rc = run_parts(p, f);
    lock_drop(lock);
    return rc;
}
