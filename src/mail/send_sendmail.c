#include "transport.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <stdio.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/pidfd.h>
#include <sys/wait.h>
#include <sysexits.h>
#include <unistd.h>

/* What the program reads, and where it complains: files in memory, so that
 * neither side ever waits for the other. */
struct pipes {
    int message;
    int complaints;
};

static int
write_all(int fd, const char *bytes, size_t len)
{
    while (len > 0) {
        ssize_t n = write(fd, bytes, len);
        if (n < 0 && errno == EINTR)
            continue;
        if (n <= 0)
            return -1;
        bytes += n;
        len -= (size_t)n;
    }
    return 0;
}

/* Programs like sendmail want lines as files have them. */
static int
write_lines(int fd, const char *bytes, size_t len)
{
    const char *end = bytes + len;

    while (bytes < end) {
        const char *cr = memchr(bytes, '\r', (size_t)(end - bytes));
        const char *stop = cr != NULL ? cr : end;
        if (write_all(fd, bytes, (size_t)(stop - bytes)) != 0)
            return -1;
        bytes = cr != NULL ? cr + 1 : end;
    }
    return lseek(fd, 0, SEEK_SET) == 0 ? 0 : -1;
}

static void
close_pipes(struct pipes *p)
{
    if (p->message >= 0)
        close(p->message);
    if (p->complaints >= 0)
        close(p->complaints);
}

static int
open_pipes(struct pipes *p, const char *bytes, size_t len)
{
    p->message = memfd_create("message", MFD_CLOEXEC);
    p->complaints = memfd_create("complaints", MFD_CLOEXEC);
    if (p->message >= 0 && p->complaints >= 0 &&
        write_lines(p->message, bytes, len) == 0)
        return 0;
    close_pipes(p);
    return -1;
}

/* In a group of its own, so that what it has started goes with it, with
 * signals as they are for any program.  Returns 0 or an errno. */
static int
start(const char *program, const struct mail_envelope *e, const struct pipes *p,
    pid_t *pid)
{
    const char *const words[] = {
        program, "-i", "-f", e->from, "--", e->to, NULL};
    char *argv[sizeof words / sizeof *words];
    posix_spawn_file_actions_t files;
    posix_spawnattr_t how;
    sigset_t none, all;
    int failed;

    memcpy(argv, words, sizeof argv); /* posix_spawn() changes none of them */
    sigemptyset(&none);
    sigfillset(&all);
    if ((failed = posix_spawn_file_actions_init(&files)) != 0)
        return failed;
    if ((failed = posix_spawnattr_init(&how)) != 0) {
        posix_spawn_file_actions_destroy(&files);
        return failed;
    }
    posix_spawnattr_setflags(&how,
        POSIX_SPAWN_SETPGROUP | POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF);
    posix_spawnattr_setpgroup(&how, 0);
    posix_spawnattr_setsigmask(&how, &none);
    posix_spawnattr_setsigdefault(&how, &all);
    failed = posix_spawn_file_actions_adddup2(&files, p->message, 0);
    if (!failed)
        failed = posix_spawn_file_actions_adddup2(&files, p->complaints, 1);
    if (!failed)
        failed = posix_spawn_file_actions_adddup2(&files, p->complaints, 2);
    if (!failed)
        failed = posix_spawn(pid, program, &files, &how, argv, environ);
    posix_spawnattr_destroy(&how);
    posix_spawn_file_actions_destroy(&files);
    return failed;
}

/* Wait for the program to end, and make it end when it takes too long: its
 * status, or -1 when that is not known.  Where its end cannot be watched, it
 * takes as long as it takes: to end it then would send everything twice. */
static int
finish(pid_t pid, int seconds)
{
    struct pollfd end = {.fd = pidfd_open(pid, 0), .events = POLLIN};
    int status;
    int ended;

    do
        ended = end.fd < 0 ? -1 : poll(&end, 1, 1000 * seconds);
    while (end.fd >= 0 && ended < 0 && errno == EINTR);
    if (end.fd >= 0)
        close(end.fd);
    if (ended == 0)
        kill(-pid, SIGKILL);
    while (waitpid(pid, &status, 0) < 0)
        if (errno != EINTR)
            return -1;
    return ended == 0 ? -1 : status;
}

/* What the program wrote, as one line of printable ASCII. */
static void
read_complaint(int fd, char *out, size_t size)
{
    ssize_t n = pread(fd, out, size - 1, 0);

    while (n > 0 && out[n - 1] == '\n')
        n--;
    out[n > 0 ? n : 0] = '\0';
    for (; *out != '\0'; out++)
        if (*out == '\n')
            *out = ';';
        else if (*out < ' ' || *out > '~')
            *out = '?';
}

/*
 * Of what sysexits(3) has, these are always about the message or its recipient.
 * An unknown host and an unavailable service are not: some say so, too, when
 * the server in between cannot be found or has put the message off.
 */
static int
is_refusal(int code)
{
    return code == EX_DATAERR || code == EX_NOUSER;
}

static int
say(const char *program, int status, const char *complaint, struct fault *f)
{
    if (status < 0)
        return fault_set(f, EX_TEMPFAIL,
            "%s took too long and was ended; if it had passed the message on, "
            "it comes twice",
            program);
    if (!WIFEXITED(status))
        return fault_set(f, EX_TEMPFAIL,
            "%s was ended by signal %d; if it had passed the message on, it "
            "comes twice",
            program, WTERMSIG(status));
    int code = WEXITSTATUS(status);
    if (code == 0)
        return 0;
    return fault_set(f, is_refusal(code) ? EX_UNAVAILABLE : EX_TEMPFAIL,
        "%s %s with exit code %d%s%s", program,
        is_refusal(code) ? "refused it" : "failed", code,
        complaint[0] ? ": " : "", complaint);
}

int
send_sendmail(struct mail_session *s, const struct mail_envelope *e,
    const char *bytes, size_t len, struct fault *f)
{
    const char *program = s->route->argument;
    struct pipes p;
    char complaint[200];
    pid_t pid;

    if (open_pipes(&p, bytes, len) != 0)
        return fault_set(
            f, EX_TEMPFAIL, "cannot run %s: %s", program, strerror(errno));
    int failed = start(program, e, &p, &pid);
    if (failed) {
        close_pipes(&p);
        s->down = 1;
        return fault_set(
            f, EX_TEMPFAIL, "cannot run %s: %s", program, strerror(failed));
    }
    int status = finish(pid, s->route->timeout);
    s->slow = status < 0;
    read_complaint(p.complaints, complaint, sizeof complaint);
    close_pipes(&p);
    return say(program, status, complaint, f);
}
