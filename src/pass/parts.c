#include "parts.h"

#include "admin_mail.h"
#include "arena.h"
#include "buf.h"
#include "dues.h"
#include "lock.h"
#include "outbox.h"
#include "planning.h"
#include "publish.h"
#include "remind.h"
#include "run_lock.h"
#include "send.h"
#include "stop_mail.h"

#include <string.h>
#include <sysexits.h>

/* --- Doing them ----------------------------------------------------------- */

static int
do_feeds(const struct parts_run *r, struct fault *f)
{
    return publish_all(r->run, r->notes, f);
}

static int
do_pages(const struct parts_run *r, struct fault *f)
{
    return r->serve(r->with, f);
}

/* Where the dates follow the plan: what people are shown today is what the plan
 * of the next run holds to. */
static int
do_plan(const struct parts_run *r, struct fault *f)
{
    return run_fleet(r->run)->site.planner ? planning_keep(r->run, f) : 0;
}

/* At their hour all; at any other what failed, which is told the same day. */
static int
do_reminders(const struct parts_run *r, struct fault *f)
{
    const struct snapshot *s = dues_of_run(r->run, f);

    if (s == NULL || stop_mail_round(r->run, NULL, f))
        return -1;
    return r->when & (PARTS_NIGHTLY | PARTS_HOUR) ? remind_all(r->run, s, f)
                                                  : remind_failed(r->run, s, f);
}

static int
do_checks(const struct parts_run *r, struct fault *f)
{
    const struct snapshot *s = dues_of_run(r->run, f);

    r->add_known(r->with, r->checks);
    return s ? health_checks_look(r->checks, r->run, s, f) : -1;
}

static int
do_report(const struct parts_run *r, struct fault *f)
{
    return admin_mail_tell(r->run, r->checks, f);
}

/* What is given up is told once, so nothing may keep it from being told. */
static int
do_sending(const struct parts_run *r, struct fault *f)
{
    static const struct send_request everything = {0};
    struct send_tally tally;

    return send_mail(r->run, &everything, &tally, f);
}

/* --- Saying what they would do -------------------------------------------- */

/* A feed that could not be written is not looked at: taken to be as it was. */
static int
show_feeds(const struct parts_run *r, struct buf *out, struct fault *f)
{
    const char *about = parts_about(PART_FEEDS);
    struct trouble *told;
    size_t n;

    (void)out;
    if (trouble_list(run_ledger(r->run), run_arena(r->run), &told, &n, f))
        return -1;
    for (size_t i = 0; i < n; i++)
        if (strcmp(told[i].about, about) == 0)
            health_checks_add(r->checks, about, "%s", told[i].says);
    return 0;
}

static int
show_reminders(const struct parts_run *r, struct buf *out, struct fault *f)
{
    const struct snapshot *s = dues_of_run(r->run, f);

    return s == NULL || stop_mail_round(r->run, out, f)
               ? -1
               : remind_show(r->run, s, out, f);
}

static int
show_checks(const struct parts_run *r, struct buf *out, struct fault *f)
{
    const struct snapshot *s = dues_of_run(r->run, f);

    (void)out;
    return s ? health_checks_look(r->checks, r->run, s, f) : -1;
}

static int
show_report(const struct parts_run *r, struct buf *out, struct fault *f)
{
    return admin_mail_show(r->run, r->checks, out, f);
}

static int
show_sending(const struct parts_run *r, struct buf *out, struct fault *f)
{
    struct outbox_message *open;
    size_t n;

    if (outbox_open(run_ledger(r->run), run_arena(r->run), &open, &n, f))
        return -1;
    for (size_t i = 0; i < n; i++)
        if (open[i].gave_up == 0)
            buf_print(out, "to %s, once more: message %lld of the outbox\n",
                open[i].person, (long long)open[i].id);
    return 0;
}

/* --- The table ------------------------------------------------------------ */

/* The parts in the order in which they run.  What is published goes first, then
 * the plan that it follows is kept: should the rest be cut off, the next run
 * moves nothing that was seen. */
static const struct part_row {
    const char *about;
    unsigned when;
    int (*run)(const struct parts_run *r, struct fault *f);
    int (*show)(const struct parts_run *r, struct buf *out, struct fault *f);
} table[] = {
    [PART_FEEDS] = {"the feeds", PARTS_NIGHTLY | PARTS_ROUND, do_feeds,
        show_feeds},
    [PART_PAGES] = {NULL, PARTS_ROUND, do_pages, NULL},
    [PART_PLAN] = {"the plan", PARTS_NIGHTLY | PARTS_TODAY, do_plan, NULL},
    [PART_REMINDERS] = {"the reminders", PARTS_NIGHTLY | PARTS_TODAY,
        do_reminders, show_reminders},
    [PART_CHECKS] = {NULL, PARTS_NIGHTLY | PARTS_HOUR | PARTS_NEWS, do_checks,
        show_checks},
    [PART_REPORT] = {NULL, PARTS_NIGHTLY | PARTS_HOUR | PARTS_NEWS, do_report,
        show_report},
    [PART_SENDING] = {NULL, PARTS_NIGHTLY, do_sending, show_sending},
};

#define PARTS (sizeof table / sizeof *table)

const char *
parts_about(enum part part)
{
    return table[part].about;
}

void
parts_run(const struct parts_run *r)
{
    for (size_t i = 0; i < PARTS; i++) {
        struct fault seen;
        if (table[i].when & r->when)
            r->ended(r->with, (enum part)i, table[i].run(r, &seen), &seen);
    }
}

/* --- A night -------------------------------------------------------------- */

/* What has become of it: its first fault is its outcome. */
struct night {
    int rc;
    struct fault *first;
    struct health_checks *checks;
};

static void
take_outcome(void *with, enum part part, int failed, const struct fault *seen)
{
    struct night *n = with;
    const char *about = parts_about(part);

    if (!failed)
        return;
    if (n->rc == 0)
        *n->first = *seen;
    else if (part == PART_SENDING)
        fault_also(n->first, seen);
    n->rc = -1;
    if (about != NULL)
        health_checks_add(n->checks, about, "%s", seen->text);
}

/* All that is known to be wrong is what failed before. */
static void
add_nothing(void *with, struct health_checks *checks)
{
    (void)with;
    (void)checks;
}

int
parts_nightly(const struct run_context *p, struct buf *notes, struct fault *f)
{
    struct night n = {0, f, health_checks_new()};
    const struct parts_run r = {.run = p,
        .when = PARTS_NIGHTLY,
        .notes = notes,
        .checks = n.checks,
        .ended = take_outcome,
        .add_known = add_nothing,
        .with = &n};

    if (n.checks == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    int lock = run_lock_take(p, f);
    if (lock >= 0)
        parts_run(&r);
    else
        n.rc = -1;
    lock_drop(lock);
    health_checks_free(n.checks);
    return n.rc;
}

int
parts_show(const struct run_context *p, struct buf *out, struct fault *f)
{
    const struct parts_run r = {.run = p, .checks = health_checks_new()};
    int rc = 0;

    if (r.checks == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    if (run_fleet(p)->site.mail.from == NULL)
        buf_text(out, "there is no [mail], so nobody is written to\n");
    else
        for (size_t i = 0; i < PARTS && rc == 0; i++)
            if (table[i].show != NULL)
                rc = table[i].show(&r, out, f);
    health_checks_free(r.checks);
    return rc;
}
