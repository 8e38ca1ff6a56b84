#include "http_listen.h"

#include "num.h"

#include <arpa/inet.h>
#include <errno.h>
#include <netinet/in.h>
#include <stdio.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <sysexits.h>
#include <unistd.h>

enum { BACKLOG = 511 };

union any {
    struct sockaddr sa;
    struct sockaddr_in in;
    struct sockaddr_in6 in6;
    struct sockaddr_un un;
};

/* Read "HOST:PORT" or "[HOST]:PORT". */
static int
read_address(const char *where, union any *out, socklen_t *len)
{
    char host[INET6_ADDRSTRLEN];
    const char *colon = strrchr(where, ':');
    int64_t port;

    if (colon == NULL ||
        num_parse(colon + 1, strlen(colon + 1), 0, 65535, &port))
        return -1;
    size_t n = (size_t)(colon - where);
    int is_6 = n >= 2 && where[0] == '[' && colon[-1] == ']';
    n -= is_6 ? 2 : 0;
    if (n >= sizeof host)
        return -1;
    memcpy(host, where + is_6, n);
    host[n] = '\0';
    memset(out, 0, sizeof *out);
    if (is_6) {
        out->in6.sin6_family = AF_INET6;
        out->in6.sin6_port = htons((uint16_t)port);
        *len = sizeof out->in6;
        return inet_pton(AF_INET6, host, &out->in6.sin6_addr) == 1 ? 0 : -1;
    }
    out->in.sin_family = AF_INET;
    out->in.sin_port = htons((uint16_t)port);
    *len = sizeof out->in;
    return inet_pton(AF_INET, host, &out->in.sin_addr) == 1 ? 0 : -1;
}

static int
read_path(const char *path, union any *out, socklen_t *len)
{
    memset(out, 0, sizeof *out);
    out->un.sun_family = AF_UNIX;
    *len = sizeof out->un;
    if (*path != '/' || strlen(path) >= sizeof out->un.sun_path)
        return -1;
    memcpy(out->un.sun_path, path, strlen(path) + 1);
    return 0;
}

/* Remove a socket that a server left which was killed; one that somebody
 * still listens to, or a file, is left alone and makes bind() fail. */
static void
remove_left(const union any *at, socklen_t len)
{
    struct stat st;
    int fd = socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);

    if (fd < 0)
        return;
    if (stat(at->un.sun_path, &st) == 0 && S_ISSOCK(st.st_mode) &&
        connect(fd, &at->sa, len) != 0 && errno == ECONNREFUSED)
        (void)unlink(at->un.sun_path);
    (void)close(fd);
}

static int
bind_at(int fd, const union any *at, socklen_t len)
{
    const int on = 1;

    if (at->sa.sa_family == AF_UNIX) {
        remove_left(at, len);
        if (bind(fd, &at->sa, len))
            return -1;
        return chmod(at->un.sun_path, 0660);
    }
    /* A restart need not wait for the last connections of the one before. */
    if (setsockopt(fd, SOL_SOCKET, SO_REUSEADDR, &on, sizeof on))
        return -1;
    if (at->sa.sa_family == AF_INET6 &&
        setsockopt(fd, IPPROTO_IPV6, IPV6_V6ONLY, &on, sizeof on))
        return -1;
    return bind(fd, &at->sa, len);
}

int
http_listen(const char *where, struct fault *f)
{
    union any at;
    socklen_t len;

    if (strncmp(where, "unix:", 5) == 0 ? read_path(where + 5, &at, &len)
                                        : read_address(where, &at, &len))
        return fault_set(f, EX_CONFIG,
            "'%s' is no place to listen: write 127.0.0.1:8080, [::1]:8080 or "
            "unix:/PATH",
            where);
    int fd =
        socket(at.sa.sa_family, SOCK_STREAM | SOCK_CLOEXEC | SOCK_NONBLOCK, 0);
    if (fd >= 0 && bind_at(fd, &at, len) == 0 && listen(fd, BACKLOG) == 0)
        return fd;
    fault_fill(
        f, EX_UNAVAILABLE, "cannot listen at %s: %s", where, strerror(errno));
    if (fd >= 0)
        (void)close(fd);
    return -1;
}

void
http_listen_print(int socket, char out[HTTP_LISTEN_TEXT])
{
    char host[INET6_ADDRSTRLEN] = "";
    union any at = {0};
    socklen_t len = sizeof at;

    if (getsockname(socket, &at.sa, &len) == 0 && at.sa.sa_family == AF_INET) {
        inet_ntop(AF_INET, &at.in.sin_addr, host, sizeof host);
        snprintf(out, HTTP_LISTEN_TEXT, "%s:%d", host, ntohs(at.in.sin_port));
    } else if (at.sa.sa_family == AF_INET6) {
        inet_ntop(AF_INET6, &at.in6.sin6_addr, host, sizeof host);
        snprintf(
            out, HTTP_LISTEN_TEXT, "[%s]:%d", host, ntohs(at.in6.sin6_port));
    } else {
        snprintf(out, HTTP_LISTEN_TEXT, "unix:%s", at.un.sun_path);
    }
}
