#include "sockets.h"

#include "http_listen.h"
#include "num.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sysexits.h>
#include <unistd.h>

#define FIRST_PASSED 3 /* SD_LISTEN_FDS_START */

/* How many sockets were handed over to this process. */
static int64_t
passed(void)
{
    const char *pid = getenv("LISTEN_PID");
    const char *fds = getenv("LISTEN_FDS");
    int64_t whose;
    int64_t n = 0;

    if (pid == NULL || fds == NULL ||
        num_parse(pid, strlen(pid), 1, INT32_MAX, &whose) ||
        whose != getpid() || num_parse(fds, strlen(fds), 0, INT32_MAX, &n))
        return 0;
    return n;
}

static int
take(int fd, struct fault *f)
{
    int listens = 0;
    socklen_t len = sizeof listens;

    if (getsockopt(fd, SOL_SOCKET, SO_ACCEPTCONN, &listens, &len) || !listens)
        return fault_set(f, EX_CONFIG,
            "file descriptor %d was handed over and is no listening socket: "
            "the socket unit needs ListenStream=",
            fd);
    if (fcntl(fd, F_SETFD, FD_CLOEXEC) || fcntl(fd, F_SETFL, O_NONBLOCK))
        return fault_set(f, EX_OSERR,
            "cannot use a socket that was handed "
            "over: %s",
            strerror(errno));
    return 0;
}

int
sockets_open(struct sockets *s, const char *where, struct fault *f)
{
    int64_t n = passed();

    s->n = 0;
    if (n > HTTP_SOCKETS)
        return fault_set(f, EX_CONFIG,
            "%lld sockets were handed over, and no more than %d are possible",
            (long long)n, HTTP_SOCKETS);
    for (int i = 0; i < (int)n; i++) {
        if (take(FIRST_PASSED + i, f))
            return -1;
        s->fds[s->n++] = FIRST_PASSED + i;
    }
    if (n > 0)
        return 0;
    s->fds[0] = http_listen(where, f);
    if (s->fds[0] < 0)
        return -1;
    s->n = 1;
    return 0;
}

void
sockets_print(const struct sockets *s, char *out, size_t size)
{
    char where[HTTP_LISTEN_TEXT];
    size_t at = 0;

    out[0] = '\0';
    for (size_t i = 0; i < s->n && at < size; i++) {
        http_listen_print(s->fds[i], where);
        int len =
            snprintf(out + at, size - at, "%s%s", i > 0 ? " " : "", where);
        at += len > 0 ? (size_t)len : size;
    }
}
