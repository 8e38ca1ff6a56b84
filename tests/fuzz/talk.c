#include "talk.h"

#include "must.h"

#include <errno.h>
#include <linux/sockios.h>
#include <poll.h>
#include <sys/ioctl.h>
#include <unistd.h>

enum {
    PATIENCE = 10000, /* milliseconds, far below what a server gives */
    LOOKS = 10000     /* 20 microseconds or more apart: the machine is busy */
};

/* One connection: what is to be sent on it, what came. */
struct talk {
    const struct talk_peer *peer;
    int fd;
    const uint8_t *at;
    const uint8_t *end;
    char *out;
    size_t most;
    size_t got;
    int is_over;
};

/* Let the server read what was sent, unless it waits for us. */
static void
let_read(struct talk *t)
{
    int left = 1;

    for (int i = 0; i < LOOKS && left > 0; i++) {
        t->peer->work(t->peer->context);
        if (ioctl(t->fd, SIOCOUTQ, &left))
            return;
        if (left > 0)
            usleep(20);
    }
}

/*
 * Only once all was read: the library notices no end that comes together with
 * the last bytes, and waits for more until its time is over.
 */
static void
hang_up(struct talk *t)
{
    let_read(t);
    (void)shutdown(t->fd, SHUT_WR);
}

static void
send_piece(struct talk *t)
{
    const uint8_t *to = t->at;

    while (to < t->end && *to < TALK_GO)
        to++;
    ssize_t n = send(t->fd, t->at, (size_t)(to - t->at), MSG_NOSIGNAL);
    if (n < 0 && errno != EAGAIN)
        t->at = t->end; /* it has ended; what it said is still to be read */
    else if (n > 0)
        t->at += n;
    if (t->at == to && to < t->end) {
        let_read(t);
        t->is_over = *to == TALK_GO;
        t->at++;
    }
    if (t->at == t->end)
        hang_up(t);
}

static void
receive(struct talk *t)
{
    ssize_t n = recv(t->fd, t->out + t->got, t->most - t->got, 0);

    if (n > 0)
        t->got += (size_t)n;
    t->is_over = n == 0 || (n < 0 && errno != EAGAIN);
    must(t->got < t->most, "no end of answers");
}

size_t
talk(const struct talk_peer *peer, const uint8_t *data, size_t len, char *out,
    size_t most)
{
    struct talk t = {
        .peer = peer, .at = data, .end = data + len, .out = out, .most = most};

    t.fd = socket(AF_UNIX, SOCK_STREAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0);
    must(t.fd >= 0 && connect(t.fd, (const struct sockaddr *)&peer->where,
                          peer->len) == 0,
        "nobody listens");
    if (len == 0)
        (void)shutdown(t.fd, SHUT_WR);
    while (!t.is_over) {
        struct pollfd fds[] = {
            {.fd = t.fd, .events = t.at < t.end ? POLLIN | POLLOUT : POLLIN},
            {.fd = peer->wakes, .events = POLLIN}};
        must(poll(fds, 2, PATIENCE) > 0, "no end of a connection");
        peer->work(peer->context);
        if (fds[0].revents & (POLLIN | POLLHUP | POLLERR))
            receive(&t);
        if (!t.is_over && (fds[0].revents & POLLOUT) && t.at < t.end)
            send_piece(&t);
    }
    int has_gone = t.at < t.end || (len > 0 && data[len - 1] == TALK_GO);
    (void)close(t.fd);
    return has_gone ? 0 : t.got;
}
