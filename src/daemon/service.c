#include "service.h"

#include "buf.h"
#include "file_watch.h"
#include "health.h"
#include "lock.h"
#include "log.h"
#include "reopen.h"
#include "retry.h"
#include "run_lock.h"
#include "served_site.h"
#include "take_form.h"
#include "troubles.h"

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
    int64_t passed; /* when the last round was made that went well */
    struct waiting waiting;
    day_t noted; /* on which the notes were logged, or NONE */
    int news;    /* the administrator is to hear of the fleet file */
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
take_over(void *service, struct fault *f)
{
    struct service *r = service;
    int rc = served_site_feeds(r->served, r->run, f);

    show(r);
    r->is_new =
        served_site_pages(r->served, r->run, notice(r), rc ? NULL : f) == 0;
    return rc || !r->is_new ? -1 : 0;
}

/* A round under way. */
struct round {
    struct service *service;
    unsigned when; /* of enum parts_when */
    int feeds_failed;
    struct fault feeds; /* how they failed first */
    int rc;             /* of the round */
    struct fault *f;
};

/* The feeds are well when they are written and served. */
static void
note_feeds(struct round *n, enum part part, int failed, const struct fault *f)
{
    if (failed && !n->feeds_failed)
        n->feeds = *f;
    n->feeds_failed |= failed;
    if (part == PART_FEEDS)
        return;
    (void)troubles_note(
        &n->service->troubles, TROUBLE_FEEDS, n->feeds_failed, &n->feeds);
    n->service->is_shown = 1;
}

static void
note_reminders(struct round *n, int failed, const struct fault *f)
{
    struct service *r = n->service;

    (void)troubles_note(&r->troubles, TROUBLE_REMINDERS, failed, f);
    if (n->when & PARTS_HOUR && !failed)
        r->timing.reminded = run_moment(r->run).today;
}

/* What fails of the first is trouble, and tried again; without the others the
 * round has failed. */
static void
note_part(void *with, enum part part, int failed, const struct fault *f)
{
    struct round *n = with;
    struct service *r = n->service;

    if (part == PART_FEEDS || part == PART_PAGES)
        note_feeds(n, part, failed, f);
    else if (part == PART_PLAN)
        (void)troubles_note(&r->troubles, TROUBLE_PLAN, failed, f);
    else if (part == PART_REMINDERS)
        note_reminders(n, failed, f);
    else if (failed && n->rc == 0) {
        n->rc = -1;
        *n->f = *f;
    } else if (part == PART_REPORT && n->rc == 0)
        r->news = 0;
}

static void
add_troubles(void *with, struct health_checks *checks)
{
    const struct round *n = with;

    troubles_add(&n->service->troubles, checks);
}

static int
serve(void *with, struct fault *f)
{
    const struct round *n = with;

    return take_over(n->service, f);
}

/* Not after each record. */
static void
log_notes(struct service *r, const struct buf *notes)
{
    day_t today = run_moment(r->run).today;

    if (r->noted != today)
        log_lines(LOG_WARNING, buf_str(notes));
    r->noted = today;
}

/* Which parts have their turn.  With a day that is not the clock's nobody is
 * told anything. */
static unsigned
when(const struct service *r, unsigned work)
{
    unsigned bits = PARTS_ROUND;

    if (r->options.from.today != DAY_NONE)
        return bits;
    if (work & WORK_REMIND)
        bits |= PARTS_HOUR;
    if (r->news)
        bits |= PARTS_NEWS;
    return bits | PARTS_TODAY;
}

static int
do_parts(struct service *r, unsigned work, struct fault *f)
{
    struct round n = {.service = r, .when = when(r, work), .f = f};
    const struct parts_run parts = {.run = r->run,
        .when = n.when,
        .notes = buf_new(),
        .checks = health_checks_new(),
        .ended = note_part,
        .add_known = add_troubles,
        .serve = serve,
        .with = &n};

    if (parts.notes != NULL && parts.checks != NULL) {
        parts_run(&parts);
        log_notes(r, parts.notes);
    } else {
        n.rc = fault_set(f, EX_OSERR, "out of memory");
    }
    health_checks_free(parts.checks);
    buf_free(parts.notes);
    return n.rc;
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
make_locked(struct service *r, unsigned work, struct fault *f)
{
    int rc = do_parts(r, work, f);

    return look_at_mail(r, rc ? NULL : f) ? -1 : rc;
}

static int
make(struct service *r, unsigned work, struct fault *f)
{
    struct fault unused;

    r->is_new = 0;
    if (reopen(r->run, r->is_shown, RUN_NEEDED, f))
        return -1;
    int lock = run_lock_take(r->run, f);
    if (lock < 0) {
        /* Another run is under way; keys may have changed meanwhile. */
        if (take_over(r, &unused) == 0)
            r->is_shown = 1;
        return -1;
    }
    int rc = make_locked(r, work, f);
    lock_drop(lock);
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
    r->noted = DAY_NONE;
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
        log_line(
            f->code == EX_TEMPFAIL ? LOG_WARNING : LOG_ERROR, "%s", f->text);
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
