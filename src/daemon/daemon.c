#include "daemon.h"

#include "buf.h"
#include "http_server.h"
#include "journal.h"
#include "lock.h"
#include "lookout.h"
#include "mailer.h"
#include "notify.h"
#include "rounds.h"
#include "sockets.h"

#include <errno.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/signalfd.h>
#include <sys/timerfd.h>
#include <sysexits.h>
#include <unistd.h>

enum {
    /* How long it has to be quiet before what has changed is read, in
     * milliseconds: an editor writes a file in several steps. */
    QUIET_FLEET = 100,
    QUIET_LEDGER = 10,
    /* But no longer than so many times that. */
    POSTPONED_MOST = 10,
    /* Seconds before mail is tried again, even when all of it was new. */
    MAIL_PAUSE = 5
};

struct daemon {
    int lock;
    struct lookout *lookout;
    struct rounds *rounds;
    struct http_server *server;
    int signals; /* file descriptors */
    int timer;
    pid_t mailer;     /* 0 for none */
    unsigned pending; /* work that waits until it is quiet */
    int postponed;
    int stopping;
};

/* --- Beginning ------------------------------------------------------------ */

/* One daemon a ledger. */
static int
take_lock(struct daemon *d, struct fault *f)
{
    const char *ledger = pass_fleet(rounds_pass(d->rounds))->site.ledger;
    struct buf *path = buf_new();

    if (path == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    buf_print(path, "%s.served", ledger);
    d->lock = lock_take(buf_str(path));
    if (d->lock < 0 && errno == EWOULDBLOCK)
        fault_fill(f, EX_TEMPFAIL,
            "%s: another ostlerd serves this ledger: stop it first", ledger);
    else if (d->lock < 0)
        fault_fill(f, EX_CANTCREAT, "%s: cannot make the lock: %s",
            buf_str(path), strerror(errno));
    buf_free(path);
    return d->lock < 0 ? -1 : 0;
}

/* Signals come by a file descriptor, and to no thread. */
static int
take_signals(struct daemon *d, struct fault *f)
{
    static const int wanted[] = {SIGTERM, SIGINT, SIGHUP, SIGCHLD};
    sigset_t set;

    sigemptyset(&set);
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++)
        sigaddset(&set, wanted[i]);
    sigprocmask(SIG_BLOCK, &set, NULL);
    (void)signal(SIGPIPE, SIG_IGN);
    d->signals = signalfd(-1, &set, SFD_CLOEXEC | SFD_NONBLOCK);
    d->timer = timerfd_create(CLOCK_REALTIME, TFD_CLOEXEC | TFD_NONBLOCK);
    if (d->signals < 0 || d->timer < 0)
        return fault_set(
            f, EX_OSERR, "cannot wait for signals: %s", strerror(errno));
    return 0;
}

static void
log_refusal(void *context, const char *line)
{
    (void)context;
    journal(JOURNAL_INFO, "%s", line);
}

static int
serve(struct daemon *d, const struct daemon_options *o, struct fault *f)
{
    const struct server_settings *s =
        &pass_fleet(rounds_pass(d->rounds))->site.server;
    struct sockets sockets;
    char where[300];

    if (sockets_open(&sockets, o->listen ? o->listen : s->listen, f))
        return -1;
    sockets_print(&sockets, where, sizeof where);
    const struct http_options options = {
        .sockets = sockets.fds,
        .n_sockets = sockets.n,
        .proxies = s->proxies,
        .log = log_refusal,
    };
    struct shelf *first = rounds_shelf(d->rounds);
    if (first == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    d->server = http_server_start(&options, first, f);
    if (d->server == NULL)
        return -1;
    journal(JOURNAL_INFO, "serves at %s", where);
    return 0;
}

static void
say_status(const struct daemon *d)
{
    char text[240];

    rounds_describe(d->rounds, text, sizeof text);
    notify_status("%s", text);
}

/* The first round is made before anybody is served. */
static int
begin(struct daemon *d, const struct daemon_options *o, struct fault *f)
{
    d->lookout = lookout_open(f);
    if (d->lookout == NULL || take_signals(d, f))
        return -1;
    const struct rounds_options options = {o->fleet_file, o->today, d->lookout};
    d->rounds = rounds_start(&options, f);
    if (d->rounds == NULL || take_lock(d, f))
        return -1;
    d->pending =
        rounds_go(d->rounds, WORK_PASS | rounds_due(d->rounds, clock_now()));
    const struct fault *failed = rounds_fault(d->rounds);
    if (failed != NULL) {
        *f = *failed;
        return -1;
    }
    if (serve(d, o, f))
        return -1;
    notify("READY=1");
    say_status(d);
    return 0;
}

/* --- Rounds --------------------------------------------------------------- */

static void
send_mail_apart(struct daemon *d)
{
    struct fault f;

    if (d->mailer != 0)
        return;
    rounds_sending(d->rounds, clock_now() + MAIL_PAUSE);
    d->mailer = mailer_start(rounds_pass(d->rounds), &f);
    if (d->mailer < 0) {
        journal(JOURNAL_ERROR, "%s", f.text);
        d->mailer = 0;
    }
}

static void
make_round(struct daemon *d, unsigned work)
{
    struct fault f;

    d->pending = rounds_go(d->rounds, work);
    d->postponed = 0;
    /* The fleet may be a new one. */
    if (http_server_trust(d->server,
            pass_fleet(rounds_pass(d->rounds))->site.server.proxies, &f))
        journal(JOURNAL_ERROR, "%s", f.text);
    struct shelf *next = rounds_shelf(d->rounds);
    if (next != NULL)
        http_server_show(d->server, next);
    say_status(d);
}

/* What the clock asks for is done at once, what has changed once it is quiet.
 */
static void
do_work(struct daemon *d, int is_quiet)
{
    unsigned due = rounds_due(d->rounds, clock_now());
    unsigned work = due & ~(unsigned)WORK_SEND;

    if (d->pending != 0 && (is_quiet || d->postponed++ >= POSTPONED_MOST))
        work |= d->pending;
    if (work != 0)
        make_round(d, work | d->pending);
    if (rounds_due(d->rounds, clock_now()) & WORK_SEND)
        send_mail_apart(d);
}

/* --- Waiting -------------------------------------------------------------- */

static void
set_timer(struct daemon *d)
{
    int64_t next = rounds_next(d->rounds, clock_now());
    struct itimerspec when = {.it_value.tv_sec = next};

    /* Should the clock be set, it goes off at once. */
    if (next == ROTA_NEVER)
        when.it_value.tv_sec = 0;
    (void)timerfd_settime(
        d->timer, TFD_TIMER_ABSTIME | TFD_TIMER_CANCEL_ON_SET, &when, NULL);
}

static int
time_to_wait(const struct daemon *d)
{
    if (d->pending & WORK_FLEET)
        return QUIET_FLEET;
    return d->pending ? QUIET_LEDGER : notify_interval();
}

static void
read_signals(struct daemon *d)
{
    struct signalfd_siginfo s;

    while (read(d->signals, &s, sizeof s) == (ssize_t)sizeof s) {
        if (s.ssi_signo == SIGCHLD) {
            if (d->mailer != 0 && mailer_has_ended(d->mailer))
                d->mailer = 0;
        } else if (s.ssi_signo == SIGHUP) {
            notify("RELOADING=1");
            make_round(d, WORK_FLEET | WORK_PASS);
            notify("READY=1");
        } else {
            d->stopping = 1;
        }
    }
}

static void
read_timer(const struct daemon *d)
{
    uint64_t times;

    /* That it went off, or was cancelled because the clock was set, is all. */
    if (read(d->timer, &times, sizeof times) < 0 && errno == ECANCELED)
        journal(JOURNAL_INFO, "the clock was set");
}

static void
take_forms(struct daemon *d)
{
    struct http_request *form;

    while ((form = http_server_next_post(d->server)) != NULL) {
        http_request_answer(form, rounds_take(d->rounds, form));
        d->pending |= WORK_PASS;
    }
}

static void
wait_and_work(struct daemon *d)
{
    struct pollfd fds[] = {{.fd = d->signals, .events = POLLIN},
        {.fd = d->timer, .events = POLLIN},
        {.fd = lookout_fd(d->lookout), .events = POLLIN},
        {.fd = http_server_posted(d->server), .events = POLLIN}};

    set_timer(d);
    int n = poll(fds, sizeof fds / sizeof *fds, time_to_wait(d));
    notify("WATCHDOG=1");
    read_timer(d);
    unsigned seen = lookout_look(d->lookout);
    if (seen & LOOKOUT_FLEET)
        d->pending |= WORK_FLEET | WORK_PASS;
    if (seen & LOOKOUT_LEDGER)
        d->pending |= WORK_PASS;
    read_signals(d);
    take_forms(d);
    if (!d->stopping)
        do_work(d, n == 0);
}

static void
end(struct daemon *d)
{
    http_server_stop(d->server);
    mailer_stop(d->mailer);
    rounds_free(d->rounds);
    lookout_close(d->lookout);
    if (d->signals >= 0)
        (void)close(d->signals);
    if (d->timer >= 0)
        (void)close(d->timer);
    lock_drop(d->lock);
}

int
daemon_run(const struct daemon_options *o, struct fault *f)
{
    struct daemon d = {.lock = -1, .signals = -1, .timer = -1};
    int rc = begin(&d, o, f);

    while (rc == 0 && !d.stopping)
        wait_and_work(&d);
    if (rc == 0) {
        notify("STOPPING=1");
        journal(JOURNAL_INFO, "stops");
    }
    end(&d);
    return rc;
}
