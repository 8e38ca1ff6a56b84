#include "service.h"

#include "buf.h"
#include "dues.h"
#include "file_watch.h"
#include "journal.h"
#include "lock.h"
#include "planning.h"
#include "publish.h"
#include "remind.h"
#include "reopen.h"
#include "retry.h"
#include "served_site.h"
#include "take_form.h"
#include "troubles.h"
#include "turn.h"
#include "waiting.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

struct service {
    struct service_options options;
    struct run_context *run;
    struct served_site *served;
    struct timing timing;
    struct troubles troubles;
    struct fault failed; /* how the last round failed that did */
    struct retry retry;
    int is_shown;   /* there is something to serve */
    int is_new;     /* the last round made the pages */
    int64_t passed; /* when the last pass was made that went well */
    struct waiting waiting;
    day_t noted; /* on which the notes were logged, or NONE */
    day_t kept;  /* on which the plan was kept, or NONE */
    int news;    /* the keeper is to hear of the fleet file */
};

static int
read_fleet(struct service *r, struct fault *f)
{
    struct run_context *p = fleet_file_read(&r->options.from, r->run, f);

    if (p == NULL)
        return -1;
    run_close(r->run);
    r->run = p;
    r->timing.fleet = run_fleet(p);
    r->noted = DAY_NONE;
    r->retry.mail = 0; /* what kept it from being sent may be mended */
    return 0;
}

/* --- A round -------------------------------------------------------------- */

/* What whoever looks at a page has to know. */
static const char *
notice(const struct service *r)
{
    return troubles_with(&r->troubles, TROUBLE_FLEET)
               ? "The fleet file is wrong, and this page goes by the one "
                 "before it. The log of ostlerd says what is wrong."
               : NULL;
}

static void
show(const struct service *r)
{
    r->options.show(r->options.with);
}

/* Take over what is there now.  The feeds do not wait for the pages, which
 * take longer the more of them there are. */
static int
take_over(struct service *r, struct fault *f)
{
    int rc = served_site_feeds(r->served, r->run, f);

    show(r);
    r->is_new =
        served_site_pages(r->served, r->run, notice(r), rc ? NULL : f) == 0;
    return rc || !r->is_new ? -1 : 0;
}

/* Bring the feeds up to date, and what is served.  A feed that fails is no
 * reason to do no more: -1 only when nothing could be done. */
static int
publish(struct service *r, struct fault *f)
{
    struct buf *notes = buf_new();
    struct fault first;
    struct fault other;

    if (notes == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    int failed = publish_all(r->run, notes, &first);
    if (take_over(r, &other) && !failed) {
        first = other;
        failed = 1;
    }
    (void)troubles_note(&r->troubles, TROUBLE_FEEDS, failed, &first);
    /* Not after each record. */
    if (r->noted != run_moment(r->run).today)
        journal_lines(JOURNAL_WARNING, buf_str(notes));
    r->noted = run_moment(r->run).today;
    r->is_shown = 1;
    buf_free(notes);
    return 0;
}

/* At their hour all reminders; at any other that something failed, which is
 * told the same day. */
static void
remind(struct service *r, const struct snapshot *s, unsigned work)
{
    struct fault f;
    int all = (work & WORK_REMIND) != 0;
    int failed = all ? remind_all(r->run, s, &f) : remind_failed(r->run, s, &f);

    (void)troubles_note(&r->troubles, TROUBLE_REMINDERS, failed, &f);
    if (all && !failed)
        r->timing.reminded = run_moment(r->run).today;
}

/* As a pass of every night does, once a day. */
static void
keep_plan(struct service *r)
{
    day_t today = run_moment(r->run).today;
    struct fault f;

    if (r->options.from.today != DAY_NONE || r->kept == today)
        return;
    int failed = planning_keep_present(r->run, &f);
    (void)troubles_note(&r->troubles, TROUBLE_PLAN, failed, &f);
    if (!failed)
        r->kept = today;
}

/* Tell people, and whoever keeps the program of what is news. */
static int
tell(struct service *r, unsigned work, struct fault *f)
{
    struct snapshot *s = dues_settled(r->run, DAY_NONE, f);
    int rc = 0;

    if (s == NULL)
        return -1;
    remind(r, s, work);
    if ((work & WORK_REMIND) || r->news) {
        rc = troubles_tell(&r->troubles, r->run, s, f);
        r->news = rc ? r->news : 0;
    }
    snapshot_free(s);
    return rc;
}

static int
look_at_mail(struct service *r, struct fault *f)
{
    if (waiting_look(r->run, &r->waiting, f))
        return -1;
    r->timing.send = r->waiting.next;
    if (r->waiting.waiting == 0)
        (void)troubles_note(&r->troubles, TROUBLE_SENDING, 0, NULL);
    return 0;
}

static int
make_in_turn(struct service *r, unsigned work, struct fault *f)
{
    if (publish(r, f))
        return -1;
    keep_plan(r);
    int rc = r->options.from.today == DAY_NONE ? tell(r, work, f) : 0;
    return look_at_mail(r, rc ? NULL : f) ? -1 : rc;
}

static int
make(struct service *r, unsigned work, struct fault *f)
{
    struct fault unused;

    r->is_new = 0;
    if (reopen(r->run, r->is_shown, f))
        return -1;
    int turn = turn_take(r->run, f);
    if (turn < 0) {
        /* Another pass is running; keys may have changed meanwhile. */
        if (take_over(r, &unused) == 0)
            r->is_shown = 1;
        return -1;
    }
    int rc = make_in_turn(r, work, f);
    lock_drop(turn);
    return rc;
}

static void
note_failure(struct service *r, const struct fault *f, int64_t now)
{
    r->failed = *f;
    if (retry_failed(&r->retry, f->code == EX_TEMPFAIL, now))
        (void)troubles_note(&r->troubles, TROUBLE_ROUND, 1, f);
}

static void
note_success(struct service *r, int64_t now)
{
    r->passed = now;
    retry_went_well(&r->retry,
        troubles_with(&r->troubles, TROUBLE_FEEDS) ||
            troubles_with(&r->troubles, TROUBLE_REMINDERS) ||
            troubles_with(&r->troubles, TROUBLE_PLAN),
        now);
    (void)troubles_note(&r->troubles, TROUBLE_ROUND, 0, NULL);
}

/* What others wrote during the round: whatever was seen up to here, this
 * connection knows whether it was all its own. */
static unsigned
look_back(struct service *r)
{
    unsigned seen = file_watch_look(r->options.from.watch);
    struct fault f;
    unsigned work = seen & FILE_WATCH_FLEET ? WORK_FLEET | WORK_PASS : 0;

    if (run_ledger(r->run) != NULL &&
        ledger_overtaken(run_ledger(r->run), &f) != 0)
        work |= WORK_PASS;
    return work;
}

unsigned
service_go(struct service *r, unsigned work)
{
    struct fault f;

    if ((work & WORK_FLEET) &&
        troubles_note(&r->troubles, TROUBLE_FLEET, read_fleet(r, &f), &f))
        r->news = 1;
    /* Should a day begin during the round, it has not been made on that. */
    r->timing.passed = clock_now();
    int failed = make(r, work, &f);
    int64_t now = clock_now();
    if (failed)
        note_failure(r, &f, now);
    else
        note_success(r, now);
    show(r);
    unsigned more = look_back(r);
    run_rest(r->run);
    return more;
}

/* --- What is there -------------------------------------------------------- */

struct service *
service_start(const struct service_options *o, struct fault *f)
{
    struct service *r = calloc(1, sizeof *r);

    if (r == NULL || (r->served = served_site_new()) == NULL) {
        fault_fill(f, EX_OSERR, "out of memory");
        goto err;
    }
    r->options = *o;
    r->retry = retry_nothing();
    r->timing.send = TIMING_NEVER;
    r->timing.reminded = DAY_NONE;
    r->noted = r->kept = DAY_NONE;
    if (read_fleet(r, f) ||
        file_watch_ledger(o->from.watch, run_fleet(r->run)->site.ledger, f))
        goto err;
    run_rest(r->run);
    return r;
err:
    service_free(r);
    return NULL;
}

void
service_free(struct service *r)
{
    if (r == NULL)
        return;
    served_site_free(r->served);
    run_close(r->run);
    free(r);
}

struct run_context *
service_run(const struct service *r)
{
    return r->run;
}

const struct fault *
service_fault(const struct service *r)
{
    return r->is_shown ? NULL : &r->failed;
}

static struct health
health_of(const struct service *r)
{
    struct health h = health_by(&r->troubles, &r->waiting);

    h.passed = r->passed;
    h.is_old = !h.pass && !r->is_new;
    return h;
}

struct routes *
service_routes(const struct service *r)
{
    struct health h = health_of(r);

    return served_site_routes(r->served, &h);
}

struct resource *
service_take(struct service *r, const struct http_request *form)
{
    return take_form(r->served, r->run, form);
}

unsigned
service_due(const struct service *r, int64_t now)
{
    unsigned due =
        r->options.from.today == DAY_NONE ? timing_due(&r->timing, now) : 0;

    return retry_due(&r->retry, due, now);
}

int64_t
service_next(const struct service *r, int64_t now)
{
    int64_t next = r->options.from.today == DAY_NONE
                       ? timing_next(&r->timing, now)
                       : TIMING_NEVER;

    return retry_next(&r->retry, next, now);
}

void
service_sending(struct service *r)
{
    retry_mail(&r->retry, 0, clock_now());
}

void
service_sent(struct service *r, const struct fault *f)
{
    /* That stands in the outbox, or another process was in the way. */
    int is_noted = f->code == EX_TEMPFAIL || f->code == EX_UNAVAILABLE;
    int failed = f->code != 0 && !is_noted;

    if (is_noted)
        journal(f->code == EX_TEMPFAIL ? JOURNAL_WARNING : JOURNAL_ERROR, "%s",
            f->text);
    if (failed)
        retry_mail(&r->retry, 1, clock_now());
    if (troubles_note(&r->troubles, TROUBLE_SENDING, failed, f))
        show(r);
}

void
service_describe(const struct service *r, char *out, size_t size)
{
    const struct fault *f = troubles_any(&r->troubles);
    char words[CLOCK_WORDS];

    if (f != NULL) {
        snprintf(out, size, "%s", f->text);
        return;
    }
    snprintf(out, size,
        "up to date since %s, %lld messages waiting, %lld "
        "given up",
        clock_words(run_fleet(r->run)->site.time_zone, r->passed, words),
        (long long)r->waiting.waiting, (long long)r->waiting.given_up);
}
