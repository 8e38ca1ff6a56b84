#include "daemon.h"

#include "buf.h"
#include "file_watch.h"
#include "http_server.h"
#include "lock.h"
#include "log.h"
#include "mailer.h"
#include "notify.h"
#include "service.h"
#include "sockets.h"
#include "waker.h"

#include <errno.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/signalfd.h>
#include <sysexits.h>
#include <unistd.h>

enum {
    /* How long it has to be quiet before what has changed is read, in
     * milliseconds: an editor writes a file in several steps. */
    QUIET_FLEET = 100,
    QUIET_LEDGER = 10,
    /* But for no longer than so many times that. */
    POSTPONED_MOST = 10,
    /* Forms that are answered before other work has its turn. */
    FORMS_A_TURN = 4
};

struct daemon {
    int lock;
    struct file_watch *watch;
    struct service *service;
    struct http_server *server;
    int signals; /* file descriptors */
    int waker;
    struct mailer mailer;
    unsigned pending; /* work that waits until it is quiet, */
    int64_t since;    /* and from when on, by clock_ticks() */
    int stopping;
};

/* --- Beginning ------------------------------------------------------------ */

/* One daemon a ledger. */
static int
take_lock(struct daemon *d, struct fault *f)
{
    const char *ledger = run_fleet(service_run(d->service))->site.ledger;
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
    /* Whoever ignores it starts us so, and the end of a child is never told. */
    (void)signal(SIGCHLD, SIG_DFL);
    d->signals = signalfd(-1, &set, SFD_CLOEXEC | SFD_NONBLOCK);
    d->waker = waker_open();
    if (d->signals < 0 || d->waker < 0)
        return fault_set(
            f, EX_OSERR, "cannot wait for signals: %s", strerror(errno));
    return 0;
}

static void
log_refusal(void *context, const char *line)
{
    (void)context;
    log_line(LOG_INFO, "%s", line);
}

static int
serve(struct daemon *d, const struct daemon_options *o, struct fault *f)
{
    const struct server_settings *s =
        &run_fleet(service_run(d->service))->site.server;
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
    struct routes *first = service_routes(d->service);
    if (first == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    d->server = http_server_start(&options, first, f);
    if (d->server == NULL)
        return -1;
    log_line(LOG_INFO, "serves at %s", where);
    return 0;
}

static void
say_status(const struct daemon *d)
{
    char text[240];

    service_describe(d->service, text, sizeof text);
    notify_status("%s", text);
}

/* Do that once it is quiet. */
static void
postpone(struct daemon *d, unsigned work)
{
    if (d->pending == 0)
        d->since = clock_ticks();
    d->pending |= work;
}

static void
show(void *daemon)
{
    struct daemon *d = daemon;

    /* There is no server before the first round is over. */
    struct routes *next = d->server ? service_routes(d->service) : NULL;
    if (next != NULL)
        http_server_show(d->server, next);
}

/* The first round is made before anybody is served. */
static int
begin(struct daemon *d, const struct daemon_options *o, struct fault *f)
{
    d->watch = file_watch_open(f);
    if (d->watch == NULL || take_signals(d, f))
        return -1;
    const struct service_options options = {
        .from = {o->fleet_file, o->today, d->watch}, .show = show, .with = d};
    d->service = service_start(&options, f);
    if (d->service == NULL || take_lock(d, f))
        return -1;
    unsigned first = WORK_PASS | service_due(d->service, clock_now());
    postpone(d, service_go(d->service, first));
    const struct fault *failed = service_fault(d->service);
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

    if (d->mailer.child != 0)
        return;
    service_sending(d->service);
    if (mailer_start(&d->mailer, service_run(d->service), &f))
        service_sent(d->service, &f);
}

static void
end_mailer(struct daemon *d)
{
    struct fault f;

    if (!mailer_has_ended(&d->mailer, &f))
        return;
    service_sent(d->service, &f);
    say_status(d);
}

static void
make_round(struct daemon *d, unsigned work)
{
    struct fault f;

    d->pending = 0;
    postpone(d, service_go(d->service, work));
    /* The fleet may be a new one. */
    if (http_server_trust(d->server,
            run_fleet(service_run(d->service))->site.server.proxies, &f))
        log_line(LOG_ERROR, "%s", f.text);
    say_status(d);
}

/* How long it has to be quiet for what is pending. */
static int
quiet(const struct daemon *d)
{
    return d->pending & WORK_FLEET ? QUIET_FLEET : QUIET_LEDGER;
}

/* What the clock asks for is done at once, what has changed once it is quiet.
 */
static void
do_work(struct daemon *d, int is_quiet)
{
    unsigned due = service_due(d->service, clock_now());
    unsigned work = due & ~(unsigned)WORK_SEND;
    int64_t most = (int64_t)POSTPONED_MOST * quiet(d);

    if (d->pending != 0 && (is_quiet || clock_ticks() - d->since >= most))
        work |= d->pending;
    if (work != 0)
        make_round(d, work | d->pending);
    if (service_due(d->service, clock_now()) & WORK_SEND)
        send_mail_apart(d);
}

/* --- Waiting -------------------------------------------------------------- */

static void
set_waker(const struct daemon *d)
{
    int64_t now = clock_now();
    unsigned due = service_due(d->service, now);
    int64_t next = service_next(d->service, now);

    /* What has become due since the last look is no more what comes next. */
    if (d->mailer.child != 0)
        due &= ~(unsigned)WORK_SEND;
    waker_set(d->waker, due != 0 ? now : next);
}

static void
read_signals(struct daemon *d)
{
    struct signalfd_siginfo s;

    while (read(d->signals, &s, sizeof s) == (ssize_t)sizeof s) {
        if (s.ssi_signo == SIGCHLD) {
            end_mailer(d);
        } else if (s.ssi_signo == SIGHUP) {
            notify("RELOADING=1");
            make_round(d, WORK_FLEET | WORK_PASS);
            notify("READY=1");
        } else {
            d->stopping = 1;
        }
    }
}

/* One that is refused changes nothing, so that many of them cost no round. */
static void
take_forms(struct daemon *d)
{
    struct http_request *form;

    for (int i = 0; i < FORMS_A_TURN; i++) {
        form = http_server_next_post(d->server);
        if (form == NULL)
            return;
        struct resource *answer = service_take(d->service, form);
        if (answer == NULL || resource_status(answer) == 200)
            postpone(d, WORK_PASS);
        http_request_answer(form, answer);
    }
}

static void
wait_and_work(struct daemon *d)
{
    struct pollfd fds[] = {{.fd = d->signals, .events = POLLIN},
        {.fd = d->waker, .events = POLLIN},
        {.fd = file_watch_fd(d->watch), .events = POLLIN},
        {.fd = http_server_posted(d->server), .events = POLLIN}};

    set_waker(d);
    int n = poll(fds, sizeof fds / sizeof *fds,
        d->pending ? quiet(d) : notify_interval());
    notify("WATCHDOG=1");
    waker_look(d->waker);
    unsigned seen = file_watch_look(d->watch);
    if (seen & FILE_WATCH_FLEET)
        postpone(d, WORK_FLEET | WORK_PASS);
    if (seen & FILE_WATCH_LEDGER)
        postpone(d, WORK_PASS);
    read_signals(d);
    take_forms(d);
    if (!d->stopping)
        do_work(d, n == 0);
}

static void
end(struct daemon *d)
{
    http_server_stop(d->server);
    mailer_stop(&d->mailer);
    service_free(d->service);
    file_watch_close(d->watch);
    if (d->signals >= 0)
        (void)close(d->signals);
    if (d->waker >= 0)
        (void)close(d->waker);
    lock_drop(d->lock);
}

int
daemon_run(const struct daemon_options *o, struct fault *f)
{
    struct daemon d = {.lock = -1, .signals = -1, .waker = -1};
    int rc = begin(&d, o, f);

    while (rc == 0 && !d.stopping)
        wait_and_work(&d);
    if (rc == 0) {
        notify("STOPPING=1");
        log_line(LOG_INFO, "stops");
    }
    end(&d);
    return rc;
}
