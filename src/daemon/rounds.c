#include "rounds.h"

#include "arena.h"
#include "buf.h"
#include "display.h"
#include "journal.h"
#include "keeper.h"
#include "lock.h"
#include "lookout.h"
#include "outbox.h"
#include "publish.h"
#include "remind.h"
#include "turn.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

/* How long to wait before what failed is tried again, in seconds. */
#define SOON 1
#define LATER 60

/* How long another process may keep the ledger before a round gives up and
 * comes back to it, in milliseconds: who stops the daemon does not wait. */
#define PATIENCE 500

/* What can be wrong; each is told to the keeper under its name. */
enum trouble_with { WITH_ROUND, WITH_FLEET, WITH_FEEDS, WITH_REMINDERS, WITHS };

static const char *const names[WITHS] = {
    "the daemon", "the fleet file", "the feeds", "the reminders"};

struct rounds {
    struct rounds_options options;
    struct pass *pass;
    struct display *display;
    struct agenda agenda;
    struct fault wrong[WITHS]; /* a code of 0 for nothing */
    struct health health;
    day_t noted;        /* on which the notes were logged, or NONE */
    int news;           /* the keeper is to hear of the fleet file */
    int64_t again;      /* when what failed is tried again, or NEVER */
    int64_t not_before; /* when mail may be sent again */
};

/* Note how @what went; what is news is logged. */
static void
note(struct rounds *r, enum trouble_with what, int failed,
    const struct fault *seen)
{
    struct fault *was = &r->wrong[what];

    if (!failed && was->code != 0)
        journal(JOURNAL_INFO, "over: %s", was->text);
    if (!failed) {
        was->code = 0;
        return;
    }
    if (was->code == 0 || strcmp(was->text, seen->text) != 0)
        journal(JOURNAL_ERROR, "%s", seen->text);
    *was = *seen;
}

/* --- The fleet file ------------------------------------------------------- */

/* Watch its files: 1 when one of them may have changed unseen, else 0. */
static int
watch_files(const struct rounds *r, const struct problems *ps)
{
    struct fault f;
    const char *name;
    int missed = 0;

    for (int i = 0; *(name = problems_name(ps, i)) != '\0'; i++) {
        int is_new = lookout_file(r->options.lookout, name, &f);
        if (is_new < 0)
            journal(JOURNAL_WARNING, "%s", f.text);
        missed |= is_new > 0;
    }
    return missed;
}

static void
log_problems(const struct rounds *r, struct problems *ps, struct fault *f)
{
    struct buf *text = buf_new();

    if (text == NULL)
        return;
    problems_print(ps, 0, text);
    journal_lines(JOURNAL_ERROR, buf_str(text));
    /* The first of them goes into the mail. */
    if (r->pass != NULL && buf_len(text) > 0)
        snprintf(f->text, sizeof f->text,
            "the fleet file is wrong, and the one before stands: %.*s",
            (int)strcspn(buf_str(text), "\n"), buf_str(text));
    buf_free(text);
}

/* Read it once; sets @missed when it is to be read again. */
static struct pass *
read_once(const struct rounds *r, int *missed, struct fault *f)
{
    const struct pass_options options = {
        .fleet_file = r->options.fleet_file,
        .today = r->options.today,
        .ledger = LEDGER_WRITE,
        .fleet_only = 1,
        .feeds = 1,
    };
    struct problems *ps = problems_new();

    if (ps == NULL) {
        fault_fill(f, EX_OSERR, "out of memory");
        return NULL;
    }
    struct pass *p = pass_open(&options, ps, f);
    *missed = watch_files(r, ps);
    if (p == NULL && !*missed)
        log_problems(r, ps, f);
    problems_free(ps);
    return p;
}

/* What a fleet needs to be served; what was locked and opened cannot change. */
static int
check_fleet(const struct rounds *r, const struct pass *p, struct fault *f)
{
    const struct site *site = &pass_fleet(p)->site;

    if (site->feed_folder == NULL)
        return fault_set(f, EX_CONFIG,
            "%s: there is no feed-folder in [site], of which the feeds are "
            "served",
            r->options.fleet_file);
    if (r->pass != NULL &&
        strcmp(pass_fleet(r->pass)->site.ledger, site->ledger) != 0)
        return fault_set(f, EX_CONFIG,
            "%s: the ledger is another, and the one before stands: start "
            "ostlerd anew",
            r->options.fleet_file);
    return 0;
}

static int
read_fleet(struct rounds *r, struct fault *f)
{
    struct pass *p = NULL;
    int missed = 1;

    for (int i = 0; i < 3 && missed; i++) {
        pass_close(p);
        p = read_once(r, &missed, f);
    }
    if (p == NULL)
        return -1;
    if (check_fleet(r, p, f)) {
        pass_close(p);
        return -1;
    }
    pass_close(r->pass);
    r->pass = p;
    r->agenda.fleet = pass_fleet(p);
    r->noted = DAY_NONE;
    return 0;
}

/* --- A round -------------------------------------------------------------- */

/* Bring the feeds up to date, and take over what is there then. */
static void
publish(struct rounds *r)
{
    struct buf *notes = buf_new();
    struct fault f;
    struct fault other;

    if (notes == NULL)
        return;
    int failed = publish_all(r->pass, notes, &f);
    if (display_update(r->display, r->pass, &other) && !failed) {
        f = other;
        failed = 1;
    }
    note(r, WITH_FEEDS, failed, &f);
    /* Not after each record. */
    if (r->noted != pass_moment(r->pass).today)
        journal_lines(JOURNAL_WARNING, buf_str(notes));
    r->noted = pass_moment(r->pass).today;
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
    for (int i = 0; i < WITHS; i++)
        if (r->wrong[i].code != 0)
            watch_add(w, names[i], "%s", r->wrong[i].text);
    if (watch_look(w, r->pass, s, &f) || keeper_tell(r->pass, w, &f))
        journal(JOURNAL_ERROR, "%s", f.text);
    watch_free(w);
}

/* Tell people, and whoever keeps the program. */
static void
tell(struct rounds *r, unsigned work)
{
    struct fault f;
    struct snapshot *s = pass_settled(r->pass, DAY_NONE, &f);

    if (s == NULL) {
        note(r, WITH_REMINDERS, 1, &f);
        return;
    }
    if (work & WORK_REMIND) {
        int failed = remind_all(r->pass, s, &f);
        note(r, WITH_REMINDERS, failed, &f);
        if (!failed)
            r->agenda.reminded = pass_moment(r->pass).today;
    }
    tell_keeper(r, s);
    snapshot_free(s);
}

/* See which messages wait, and for when. */
static void
look_at_mail(struct rounds *r)
{
    const struct site *site = &pass_fleet(r->pass)->site;
    int64_t now = pass_moment(r->pass).now;
    struct arena *a = arena_new();
    struct outbox_message *open = NULL;
    size_t n = 0;
    struct fault f;

    r->agenda.send = AGENDA_NEVER;
    r->health.waiting = r->health.given_up = 0;
    if (a == NULL || outbox_open(pass_ledger(r->pass), a, &open, &n, &f))
        n = 0;
    for (size_t i = 0; i < n; i++) {
        /* One tried in the future was tried by a clock that was wrong. */
        int64_t next = open[i].tried > now ? now : open[i].next_try;
        if (open[i].gave_up != 0) {
            r->health.given_up++;
            continue;
        }
        r->health.waiting++;
        if (site->mail.from != NULL && next < r->agenda.send)
            r->agenda.send = next;
    }
    arena_free(a);
}

static int
open_ledger(struct rounds *r, struct fault *f)
{
    struct problems *ps = problems_new();

    if (ps == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    int rc = pass_again(r->pass, ps, f);
    problems_free(ps);
    if (rc == 0)
        ledger_patience(pass_ledger(r->pass), PATIENCE);
    return rc;
}

static int
make(struct rounds *r, unsigned work, struct fault *f)
{
    int turn = open_ledger(r, f) ? -1 : turn_take(r->pass, f);

    if (turn < 0)
        return -1;
    publish(r);
    if (r->options.today == DAY_NONE && ((work & WORK_REMIND) || r->news))
        tell(r, work);
    r->news = 0;
    look_at_mail(r);
    lock_drop(turn);
    return 0;
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

/* The new fleet file, or what is wrong with it; either is news when it was not
 * so before. */
static void
take_fleet(struct rounds *r)
{
    struct fault was = r->wrong[WITH_FLEET];
    const struct fault *now = &r->wrong[WITH_FLEET];
    struct fault f;

    note(r, WITH_FLEET, read_fleet(r, &f), &f);
    if (was.code != now->code ||
        (was.code != 0 && strcmp(was.text, now->text) != 0))
        r->news = 1;
}

unsigned
rounds_go(struct rounds *r, unsigned work)
{
    struct fault f;

    if (work & WORK_FLEET)
        take_fleet(r);
    int failed = make(r, work, &f);
    int64_t now = clock_now();
    r->agenda.passed = now;
    r->again = AGENDA_NEVER;
    if (failed)
        r->again = now + (f.code == EX_TEMPFAIL ? SOON : LATER);
    else if (r->wrong[WITH_REMINDERS].code != 0)
        r->again = now + LATER;
    if (!failed)
        r->health.passed = now;
    /* Somebody else's pass is no trouble. */
    if (!failed || f.code != EX_TEMPFAIL)
        note(r, WITH_ROUND, failed, &f);
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
    r->again = r->agenda.send = AGENDA_NEVER;
    r->agenda.reminded = DAY_NONE;
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
    return r->wrong[WITH_ROUND].code != 0 ? &r->wrong[WITH_ROUND] : NULL;
}

static struct health
health_of(const struct rounds *r)
{
    struct health h = r->health;

    h.pass = r->wrong[WITH_ROUND].code == 0;
    h.fleet = r->wrong[WITH_FLEET].code == 0;
    h.feeds = r->wrong[WITH_FEEDS].code == 0;
    h.reminders = r->wrong[WITH_REMINDERS].code == 0;
    return h;
}

struct shelf *
rounds_shelf(const struct rounds *r)
{
    struct health h = health_of(r);

    return display_shelf(r->display, &h);
}

/* Nonzero when @when is to be waited for.  A clock that was set back makes no
 * wait longer. */
static int
is_ahead(int64_t when, int64_t now)
{
    return when > now && when - now <= LATER;
}

unsigned
rounds_due(const struct rounds *r, int64_t now)
{
    unsigned due = 0;

    if (r->options.today == DAY_NONE)
        due = agenda_due(&r->agenda, now);
    if (is_ahead(r->again, now))
        due &= WORK_SEND;
    else if (r->again != AGENDA_NEVER)
        due |= WORK_PASS;
    if (is_ahead(r->not_before, now))
        due &= ~(unsigned)WORK_SEND;
    return due;
}

int64_t
rounds_next(const struct rounds *r, int64_t now)
{
    int64_t next = AGENDA_NEVER;

    if (r->options.today == DAY_NONE)
        next = agenda_next(&r->agenda, now);
    if (is_ahead(r->again, now) && r->again < next)
        next = r->again;
    if (is_ahead(r->not_before, now) && r->not_before < next)
        next = r->not_before;
    return next;
}

void
rounds_sending(struct rounds *r, int64_t when)
{
    r->not_before = when;
}

void
rounds_describe(const struct rounds *r, char *out, size_t size)
{
    struct health h = health_of(r);
    char words[CLOCK_WORDS];

    for (int i = 0; i < WITHS; i++)
        if (r->wrong[i].code != 0) {
            snprintf(out, size, "%s", r->wrong[i].text);
            return;
        }
    snprintf(out, size,
        "up to date since %s, %lld messages waiting, %lld "
        "given up",
        clock_words(pass_fleet(r->pass)->site.time_zone, h.passed, words),
        (long long)h.waiting, (long long)h.given_up);
}
