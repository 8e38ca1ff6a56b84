#include "nightly.h"

#include "lock.h"
#include "publish.h"
#include "remind.h"
#include "send.h"
#include "turn.h"

static int
remind(const struct pass *p, struct fault *f)
{
    struct snapshot *s = pass_settled(p, DAY_NONE, f);
    int rc = s ? remind_all(p, s, f) : -1;

    snapshot_free(s);
    return rc;
}

static int
run_parts(const struct pass *p, struct buf *notes, struct fault *f)
{
    static const struct send_request everything = {0};
    struct send_tally tally;
    struct fault mail;
    int rc = publish_all(p, notes, f);

    if (remind(p, rc ? NULL : f))
        rc = -1;
    /* What is given up is told once, so nothing may keep it from being told. */
    if (send_mail(p, &everything, &tally, &mail)) {
        if (rc == 0)
            *f = mail;
        else
            fault_also(f, &mail);
        rc = -1;
    }
    return rc;
}

int
nightly_accept(const struct pass *p, const struct feed *feed, struct buf *notes,
    struct fault *f)
{
    int turn = turn_take(p, f);

    if (turn < 0)
        return -1;
    int rc = publish_accept(p, feed, notes, f);
    lock_drop(turn);
    return rc;
}

int
nightly_run(const struct pass *p, struct buf *notes, struct fault *f)
{
    int turn = turn_take(p, f);

    if (turn < 0)
        return -1;
    int rc = run_parts(p, notes, f);
    lock_drop(turn);
    return rc;
}
