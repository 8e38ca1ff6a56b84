#include "rounds.h"

#include "buf.h"
#include "counter.h"
#include "display.h"
#include "dues.h"
#include "fleet_file.h"
#include "journal.h"
#include "keeper.h"
#include "lock.h"
#include "lookout.h"
#include "publish.h"
#include "remind.h"
#include "reopen.h"
#include "retry.h"
#include "troubles.h"
#include "turn.h"
#include "waiting.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

struct rounds {
    struct rounds_options options;
    struct pass *pass;
    struct display *display;
    struct rota rota;
    struct troubles troubles;
    struct fault failed; /* how the last round failed that did */
    struct retry retry;
    int is_shown;   /* there is something to serve */
    int is_new;     /* the last round made the pages */
    int64_t passed; /* when the last pass was made that went well */
    struct waiting waiting;
    day_t noted; /* on which the notes were logged, or NONE */
    int news;    /* the keeper is to hear of the fleet file */
};

static int
read_fleet(struct rounds *r, struct fault *f)
{
    struct pass *p = fleet_file_read(&r->options, r->pass, f);

    if (p == NULL)
        return -1;
    pass_close(r->pass);
    r->pass = p;
    r->rota.fleet = pass_fleet(p);
    r->noted = DAY_NONE;
    return 0;
}

/* --- A round -------------------------------------------------------------- */

/* What whoever looks at a page has to know. */
static const char *
notice(const struct rounds *r)
{
    return troubles_with(&r->troubles, TROUBLE_FLEET)
               ? "The fleet file is wrong, and this page goes by the one "
                 "before it. The log of ostlerd says what is wrong."
               : NULL;
}

/* Take over what is there now.  The feeds do not wait for the pages, which
 * take longer the more of them there are. */
static int
show(struct rounds *r, struct fault *f)
{
    int rc = display_feeds(r->display, r->pass, f);

    r->options.show(r->options.with);
    r->is_new =
        display_pages(r->display, r->pass, notice(r), rc ? NULL : f) == 0;
    return rc || !r->is_new ? -1 : 0;
}

/* Bring the feeds up to date, and what is served. */
static void
publish(struct rounds *r)
{
    struct buf *notes = buf_new();
    struct fault f;
    struct fault other;

    if (notes == NULL)
        return;
    int failed = publish_all(r->pass, notes, &f);
    if (show(r, &other) && !failed) {
        f = other;
        failed = 1;
    }
    (void)troubles_note(&r->troubles, TROUBLE_FEEDS, failed, &f);
    /* Not after each record. */
    if (r->noted != pass_moment(r->pass).today)
        journal_lines(JOURNAL_WARNING, buf_str(notes));
    r->noted = pass_moment(r->pass).today;
    r->is_shown = 1;
    buf_free(notes);
}

/* Tell the keeper of everything that is wrong. */
static void
tell_keeper(struct rounds *r, const struct snapshot *s)
{
    struct watch *w = watch_new();
    struct fault f;

    if (w == NULL)
        return;
    troubles_watch(&r->troubles, w);
    if (watch_look(w, r->pass, s, &f) || keeper_tell(r->pass, w, &f))
        journal(JOURNAL_ERROR, "%s", f.text);
    watch_free(w);
}

/* Tell people, and whoever keeps the program. */
static void
tell(struct rounds *r, unsigned work)
{
    struct fault f;
    struct snapshot *s = dues_settled(r->pass, DAY_NONE, &f);

    if (s == NULL) {
        (void)troubles_note(&r->troubles, TROUBLE_REMINDERS, 1, &f);
        return;
    }
    if (work & WORK_REMIND) {
        int failed = remind_all(r->pass, s, &f);
        (void)troubles_note(&r->troubles, TROUBLE_REMINDERS, failed, &f);
        if (!failed)
            r->rota.reminded = pass_moment(r->pass).today;
    }
    tell_keeper(r, s);
    snapshot_free(s);
}

static int
make(struct rounds *r, unsigned work, struct fault *f)
{
    struct fault unused;

    r->is_new = 0;
    if (reopen(r->pass, r->is_shown, f))
        return -1;
    int turn = turn_take(r->pass, f);
    if (turn < 0) {
        /* Another pass is running; keys may have changed meanwhile. */
        if (show(r, &unused) == 0)
            r->is_shown = 1;
        return -1;
    }
    publish(r);
    if (r->options.today == DAY_NONE && ((work & WORK_REMIND) || r->news))
        tell(r, work);
    r->news = 0;
    (void)waiting_look(r->pass, &r->waiting);
    r->rota.send = r->waiting.next;
    lock_drop(turn);
    return 0;
}

static void
note_failure(struct rounds *r, const struct fault *f, int64_t now)
{
    r->failed = *f;
    if (retry_failed(&r->retry, f->code == EX_TEMPFAIL, now))
        (void)troubles_note(&r->troubles, TROUBLE_ROUND, 1, f);
}

static void
note_success(struct rounds *r, int64_t now)
{
    r->passed = now;
    retry_went_well(&r->retry,
        troubles_with(&r->troubles, TROUBLE_FEEDS) ||
            troubles_with(&r->troubles, TROUBLE_REMINDERS),
        now);
    (void)troubles_note(&r->troubles, TROUBLE_ROUND, 0, NULL);
}

/* What others wrote during the round: whatever was seen up to here, this
 * connection knows whether it was all its own. */
static unsigned
look_back(struct rounds *r)
{
    unsigned seen = lookout_look(r->options.lookout);
    struct fault f;
    unsigned work = seen & LOOKOUT_FLEET ? WORK_FLEET | WORK_PASS : 0;

    if (pass_ledger(r->pass) != NULL &&
        ledger_overtaken(pass_ledger(r->pass), &f) != 0)
        work |= WORK_PASS;
    return work;
}

unsigned
rounds_go(struct rounds *r, unsigned work)
{
    struct fault f;

    if ((work & WORK_FLEET) &&
        troubles_note(&r->troubles, TROUBLE_FLEET, read_fleet(r, &f), &f))
        r->news = 1;
    /* Should a day begin during the round, it has not been made on that. */
    r->rota.passed = clock_now();
    int failed = make(r, work, &f);
    int64_t now = clock_now();
    if (failed)
        note_failure(r, &f, now);
    else
        note_success(r, now);
    unsigned more = look_back(r);
    pass_rest(r->pass);
    return more;
}

/* --- What is there -------------------------------------------------------- */

struct rounds *
rounds_start(const struct rounds_options *o, struct fault *f)
{
    struct rounds *r = calloc(1, sizeof *r);

    if (r == NULL || (r->display = display_new()) == NULL) {
        fault_fill(f, EX_OSERR, "out of memory");
        goto err;
    }
    r->options = *o;
    r->retry = retry_nothing();
    r->rota.send = ROTA_NEVER;
    r->rota.reminded = DAY_NONE;
    if (read_fleet(r, f) ||
        lookout_ledger(o->lookout, pass_fleet(r->pass)->site.ledger, f))
        goto err;
    pass_rest(r->pass);
    return r;
err:
    rounds_free(r);
    return NULL;
}

void
rounds_free(struct rounds *r)
{
    if (r == NULL)
        return;
    display_free(r->display);
    pass_close(r->pass);
    free(r);
}

struct pass *
rounds_pass(const struct rounds *r)
{
    return r->pass;
}

const struct fault *
rounds_fault(const struct rounds *r)
{
    return r->is_shown ? NULL : &r->failed;
}

static struct health
health_of(const struct rounds *r)
{
    struct health h = {
        .passed = r->passed,
        .waiting = r->waiting.waiting,
        .given_up = r->waiting.given_up,
    };

    h.pass = !troubles_with(&r->troubles, TROUBLE_ROUND);
    h.is_old = !h.pass && !r->is_new;
    h.fleet = !troubles_with(&r->troubles, TROUBLE_FLEET);
    h.feeds = !troubles_with(&r->troubles, TROUBLE_FEEDS);
    h.reminders =
        !troubles_with(&r->troubles, TROUBLE_REMINDERS) && r->waiting.late == 0;
    return h;
}

struct shelf *
rounds_shelf(const struct rounds *r)
{
    struct health h = health_of(r);

    return display_shelf(r->display, &h);
}

struct resource *
rounds_take(struct rounds *r, const struct http_request *form)
{
    return counter_take(r->display, r->pass, form);
}

unsigned
rounds_due(const struct rounds *r, int64_t now)
{
    unsigned due = r->options.today == DAY_NONE ? rota_due(&r->rota, now) : 0;

    return retry_due(&r->retry, due, now);
}

int64_t
rounds_next(const struct rounds *r, int64_t now)
{
    int64_t next =
        r->options.today == DAY_NONE ? rota_next(&r->rota, now) : ROTA_NEVER;

    return retry_next(&r->retry, next, now);
}

void
rounds_sending(struct rounds *r, int64_t when)
{
    r->retry.mail = when;
}

void
rounds_describe(const struct rounds *r, char *out, size_t size)
{
    struct health h = health_of(r);
    char words[CLOCK_WORDS];

    const struct fault *f = troubles_any(&r->troubles);

    if (f != NULL) {
        snprintf(out, size, "%s", f->text);
        return;
    }
    snprintf(out, size,
        "up to date since %s, %lld messages waiting, %lld "
        "given up",
        clock_words(pass_fleet(r->pass)->site.time_zone, h.passed, words),
        (long long)h.waiting, (long long)h.given_up);
}
