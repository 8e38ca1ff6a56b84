#include "notify.h"

#include "num.h"

#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

/* The socket's address from the environment; 0 or -1 when there is none. */
static int
find_socket(struct sockaddr_un *at, socklen_t *len)
{
    const char *path = getenv("NOTIFY_SOCKET");
    size_t n = path ? strlen(path) : 0;

    if (n < 2 || n >= sizeof at->sun_path || (path[0] != '/' && path[0] != '@'))
        return -1;
    *at = (struct sockaddr_un){.sun_family = AF_UNIX};
    memcpy(at->sun_path, path, n);
    /* "@" stands for the NUL that begins an abstract name. */
    if (path[0] == '@')
        at->sun_path[0] = '\0';
    *len = (socklen_t)(offsetof(struct sockaddr_un, sun_path) + n);
    return 0;
}

void
notify(const char *state)
{
    struct sockaddr_un at;
    socklen_t len;

    if (find_socket(&at, &len))
        return;
    int fd = socket(AF_UNIX, SOCK_DGRAM | SOCK_CLOEXEC, 0);
    if (fd < 0)
        return;
    /* Whoever is gone, or does not read, is no reason to stop. */
    (void)sendto(fd, state, strlen(state), MSG_NOSIGNAL | MSG_DONTWAIT,
        (const struct sockaddr *)&at, len);
    (void)close(fd);
}

void
notify_status(const char *format, ...)
{
    char state[300] = "STATUS=";
    va_list args;

    va_start(args, format);
    vsnprintf(state + 7, sizeof state - 7, format, args);
    va_end(args);
    notify(state);
}

int
notify_interval(void)
{
    const char *usec = getenv("WATCHDOG_USEC");
    const char *pid = getenv("WATCHDOG_PID");
    int64_t n;

    if (usec == NULL || num_parse(usec, strlen(usec), 2000, INT32_MAX, &n))
        return -1;
    int64_t whose = getpid();
    if (pid != NULL && (num_parse(pid, strlen(pid), 1, INT32_MAX, &whose) ||
                           whose != getpid()))
        return -1;
    return (int)(n / 2000);
}
