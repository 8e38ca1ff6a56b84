#include "nightly.h"

#include "arena.h"
#include "buf.h"
#include "dues.h"
#include "keeper.h"
#include "lock.h"
#include "outbox.h"
#include "planning.h"
#include "publish.h"
#include "remind.h"
#include "send.h"
#include "turn.h"

#include <string.h>
#include <sysexits.h>

#define ABOUT_FEEDS "the feeds"

/* The first fault of a run is its outcome. */
struct run_outcome {
    int rc;
    struct fault *first;
};

static void
take(struct run_outcome *o, int failed, const struct fault *seen)
{
    if (!failed)
        return;
    if (o->rc == 0)
        *o->first = *seen;
    o->rc = -1;
}

/* The keeper hears of what failed, besides. */
static void
report(struct run_outcome *o, struct watch *w, const char *about, int failed,
    const struct fault *seen)
{
    take(o, failed, seen);
    if (failed)
        watch_add(w, about, "%s", seen->text);
}

/* What is given up is told once, so nothing may keep it from being told. */
static void
send_all(const struct run_context *p, struct run_outcome *o)
{
    static const struct send_request everything = {0};
    struct send_tally tally;
    struct fault seen;

    if (send_mail(p, &everything, &tally, &seen) == 0)
        return;
    if (o->rc != 0)
        fault_also(o->first, &seen);
    take(o, 1, &seen);
}

static int
run_parts(const struct run_context *p, const struct snapshot *s,
    struct watch *w, struct buf *notes, struct fault *f)
{
    struct run_outcome o = {0, f};
    struct fault seen;

    report(&o, w, ABOUT_FEEDS, publish_all(p, notes, &seen), &seen);
    report(&o, w, "the reminders", remind_all(p, s, &seen), &seen);
    report(&o, w, "the plan", planning_keep_present(p, &seen), &seen);
    take(&o, watch_look(w, p, s, &seen), &seen);
    take(&o, keeper_tell(p, w, &seen), &seen);
    send_all(p, &o);
    return o.rc;
}

static int
run(const struct run_context *p, struct buf *notes, struct fault *f)
{
    struct snapshot *s = dues_settled(p, DAY_NONE, f);
    struct watch *w = watch_new();
    int rc = -1;

    if (w == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    else if (s != NULL)
        rc = run_parts(p, s, w, notes, f);
    watch_free(w);
    snapshot_free(s);
    return rc;
}

int
nightly_accept(const struct run_context *p, const struct feed *feed,
    struct buf *notes, struct fault *f)
{
    int turn = turn_take(p, f);

    if (turn < 0)
        return -1;
    int rc = publish_accept(p, feed, notes, f);
    lock_drop(turn);
    return rc;
}

int
nightly_run(const struct run_context *p, struct buf *notes, struct fault *f)
{
    int turn = turn_take(p, f);

    if (turn < 0)
        return -1;
    int rc = run(p, notes, f);
    lock_drop(turn);
    return rc;
}

/* A feed that could not be written is not looked at: taken to be as it was. */
static int
keep_feeds(const struct run_context *p, struct watch *w, struct fault *f)
{
    struct arena *a = arena_new();
    struct trouble *told;
    size_t n;

    if (a == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    int rc = trouble_list(run_ledger(p), a, &told, &n, f);
    for (size_t i = 0; i < n && rc == 0; i++)
        if (strcmp(told[i].about, ABOUT_FEEDS) == 0)
            watch_add(w, ABOUT_FEEDS, "%s", told[i].says);
    arena_free(a);
    return rc;
}

static int
show_waiting(const struct run_context *p, struct buf *out, struct fault *f)
{
    struct arena *a = arena_new();
    struct outbox_message *open;
    size_t n;

    if (a == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    int rc = outbox_open(run_ledger(p), a, &open, &n, f);
    for (size_t i = 0; i < n && rc == 0; i++)
        if (open[i].gave_up == 0)
            buf_print(out, "to %s, once more: message %lld of the outbox\n",
                open[i].person, (long long)open[i].id);
    arena_free(a);
    return rc;
}

static int
show_parts(const struct run_context *p, const struct snapshot *s,
    struct watch *w, struct buf *out, struct fault *f)
{
    if (run_fleet(p)->site.mail.from == NULL) {
        buf_text(out, "there is no [mail], so nobody is written to\n");
        return 0;
    }
    if (remind_show(p, s, out, f) || keep_feeds(p, w, f) ||
        watch_look(w, p, s, f) || keeper_show(p, w, out, f))
        return -1;
    return show_waiting(p, out, f);
}

int
nightly_show(const struct run_context *p, struct buf *out, struct fault *f)
{
    struct snapshot *s = dues_now(p, DAY_NONE, f);
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
