#include "mailer.h"

#include "journal.h"
#include "reopen.h"
#include "send.h"

#include <errno.h>
#include <signal.h>
#include <string.h>
#include <sys/wait.h>
#include <sysexits.h>
#include <unistd.h>

/* How long it waits for who keeps the ledger, in milliseconds. */
#define PATIENCE 5000

static int
send_timely(struct pass *p, struct fault *f)
{
    const struct send_request request = {.timely = 1};
    struct send_tally tally;
    int rc = reopen(p, 1, f);

    if (rc == 0) {
        /* What is sent has to be noted, or it is sent again. */
        ledger_patience(pass_ledger(p), PATIENCE);
        rc = send_mail(p, &request, &tally, f);
    }
    pass_rest(p);
    return rc;
}

/* What the child does: it has nothing of the server's but memory. */
static int
work(struct pass *p)
{
    sigset_t none;
    struct fault f;

    (void)close_range(STDERR_FILENO + 1, ~0U, 0);
    sigemptyset(&none);
    sigprocmask(SIG_SETMASK, &none, NULL);
    if (send_timely(p, &f) == 0)
        return EX_OK;
    journal(
        f.code == EX_TEMPFAIL ? JOURNAL_WARNING : JOURNAL_ERROR, "%s", f.text);
    return f.code;
}

pid_t
mailer_start(struct pass *p, struct fault *f)
{
    pid_t child = fork();

    if (child == 0)
        _exit(work(p));
    if (child < 0)
        return fault_set(f, EX_OSERR, "cannot start a process to send mail: %s",
            strerror(errno));
    return child;
}

int
mailer_has_ended(pid_t child)
{
    return waitpid(child, NULL, WNOHANG) == child;
}

void
mailer_stop(pid_t child)
{
    if (child <= 0 || mailer_has_ended(child))
        return;
    (void)kill(child, SIGTERM);
    (void)waitpid(child, NULL, 0);
}
