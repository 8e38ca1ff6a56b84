#include "nightly.h"

#include "buf.h"
#include "keeper.h"
#include "lock.h"
#include "publish.h"
#include "remind.h"

#include <errno.h>
#include <string.h>
#include <sysexits.h>

/* Keep the first fault of a run, and tell the keeper of each. */
static int
note(struct watch *w, const char *about, int failed, struct fault *seen,
    struct fault *first, int rc)
{
    if (!failed)
        return rc;
    watch_add(w, about, "%s", seen->text);
    if (rc == 0 && first != NULL)
        *first = *seen;
    return -1;
}

static int
run_parts(const struct pass *p, const struct snapshot *s, struct watch *w,
    struct fault *f)
{
    struct fault seen;
    int rc = 0;

    rc = note(w, "the feeds", publish_all(p, &seen), &seen, f, rc);
    rc = note(w, "the reminders", remind_all(p, s, &seen), &seen, f, rc);
    if (watch_look(w, p, s, rc ? NULL : f))
        rc = -1;
    if (keeper_tell(p, w, rc ? NULL : f))
        rc = -1;
    if (remind_send(p, rc ? NULL : f))
        rc = -1;
    return rc;
}

static int
run(const struct pass *p, struct fault *f)
{
    struct snapshot *s = pass_snapshot(p, DAY_NONE, f);
    struct watch *w = watch_new();
    int rc = -1;

    if (w == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    else if (s != NULL)
        rc = run_parts(p, s, w, f);
    watch_free(w);
    snapshot_free(s);
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
    int rc = run(p, f);
    lock_drop(lock);
    return rc;
}

static int
show_parts(const struct pass *p, const struct snapshot *s, struct watch *w,
    struct buf *out, struct fault *f)
{
    if (pass_fleet(p)->site.mail.from == NULL) {
        buf_text(out, "there is no [mail], so nobody is written to\n");
        return 0;
    }
    if (remind_show(p, s, out, f) || watch_look(w, p, s, f))
        return -1;
    return keeper_show(p, w, out, f);
}

int
nightly_show(const struct pass *p, struct buf *out, struct fault *f)
{
    struct snapshot *s = pass_snapshot(p, DAY_NONE, f);
    struct watch *w = watch_new();
    int rc = -1;

    if (w == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    else if (s != NULL)
        rc = show_parts(p, s, w, out, f);
    watch_free(w);
    snapshot_free(s);
    return rc;
}
