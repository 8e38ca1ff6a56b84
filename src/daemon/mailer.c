#include "mailer.h"

#include "reopen.h"
#include "send.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <string.h>
#include <sys/wait.h>
#include <sysexits.h>
#include <unistd.h>

/* How long it waits for who keeps the ledger, in milliseconds. */
#define PATIENCE 5000

static int
send_timely(struct run_context *p, struct fault *f)
{
    const struct send_request request = {.timely = 1};
    struct send_tally tally;
    int rc = reopen(p, 1, RUN_LATER, f);

    if (rc == 0) {
        /* What is sent has to be noted, or it is sent again. */
        ledger_busy_timeout(run_ledger(p), PATIENCE);
        rc = send_mail(p, &request, &tally, f);
    }
    run_rest(p);
    return rc;
}

/* What the child does: it has nothing of the server's but memory and @report,
 * to which a fault goes whole, being shorter than a pipe is long. */
static int
work(struct run_context *p, int report)
{
    sigset_t none;
    struct fault f = {0};

    (void)close_range(STDERR_FILENO + 1, (unsigned)report - 1, 0);
    (void)close_range((unsigned)report + 1, ~0U, 0);
    sigemptyset(&none);
    sigprocmask(SIG_SETMASK, &none, NULL);
    if (send_timely(p, &f) == 0)
        return EX_OK;
    return write(report, &f, sizeof f) == sizeof f ? f.code : EX_IOERR;
}

int
mailer_start(struct mailer *m, struct run_context *p, struct fault *f)
{
    int ends[2];

    if (pipe2(ends, O_CLOEXEC | O_NONBLOCK))
        goto err;
    m->child = fork();
    if (m->child == 0)
        _exit(work(p, ends[1]));
    (void)close(ends[1]);
    m->report = ends[0];
    if (m->child > 0)
        return 0;
    (void)close(ends[0]);
err:
    *m = (struct mailer){0};
    return fault_set(f, EX_OSERR, "cannot start a process to send mail: %s",
        strerror(errno));
}

int
mailer_has_ended(struct mailer *m, struct fault *f)
{
    int status;

    if (m->child == 0 || waitpid(m->child, &status, WNOHANG) != m->child)
        return 0;
    f->code = EX_OK;
    if (status != 0 && read(m->report, f, sizeof *f) != sizeof *f)
        fault_fill(f, EX_SOFTWARE,
            "the process that sends mail was cut off by signal %d",
            WTERMSIG(status));
    (void)close(m->report);
    *m = (struct mailer){0};
    return 1;
}

void
mailer_stop(struct mailer *m)
{
    struct fault unused;

    if (m->child == 0 || mailer_has_ended(m, &unused))
        return;
    (void)kill(m->child, SIGTERM);
    (void)waitpid(m->child, NULL, 0);
    (void)close(m->report);
    *m = (struct mailer){0};
}
