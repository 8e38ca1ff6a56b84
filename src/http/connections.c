#include "connections.h"

#include "limited_log.h"
#include "proxies.h"

#include <errno.h>
#include <pthread.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <sys/timerfd.h>
#include <unistd.h>

enum {
    TICKS = 4 /* a second */
};

/* In a ring, in the order in which they began their requests; one that waits
 * for us is in none but its own. */
struct connection {
    struct connection *before;
    struct connection *after;
    struct connections *all;
    struct address from;
    int fd;
    int is_cut;
    uint64_t since; /* ticks */
};

struct connections {
    struct connection_limits limits;
    struct limited_log *log;
    pthread_mutex_t lock;
    struct connection ring; /* no visit, but where it is closed */
    unsigned count;
    uint64_t now; /* ticks since the start */
    int timer;
    atomic_int is_over;
    pthread_t thread;
};

static void
unlink_visit(struct connection *x)
{
    x->before->after = x->after;
    x->after->before = x->before;
}

static void
link_last(struct connection *x)
{
    struct connection *ring = &x->all->ring;

    x->since = x->all->now;
    x->before = ring->before;
    x->after = ring;
    x->before->after = x;
    ring->before = x;
}

/*
 * End the connection under the library, which then sees that it is closed.
 * Bytes that the client has not taken are thrown away, or the system would go
 * on offering them.  It goes to the end of the ring, out of the way.
 */
static void
cut(struct connection *x)
{
    const struct linger now = {.l_onoff = 1, .l_linger = 0};

    (void)setsockopt(x->fd, SOL_SOCKET, SO_LINGER, &now, sizeof now);
    (void)shutdown(x->fd, SHUT_RDWR);
    x->is_cut = 1;
    unlink_visit(x);
    link_last(x);
}

static void
cut_for(struct connections *v, struct connection *x, const char *why)
{
    char text[ADDRESS_TEXT];

    if (!x->is_cut) {
        address_print(&x->from, text);
        limited_log_add(v->log, "cut off %s %s", text, why);
    }
    cut(x);
}

static void
cut_late(struct connections *v)
{
    uint64_t most = (uint64_t)v->limits.seconds * TICKS;

    while (v->ring.after != &v->ring && v->now - v->ring.after->since > most)
        cut_for(v, v->ring.after, "at the end of its time");
}

static void *
watch(void *argument)
{
    struct connections *v = argument;
    uint64_t ticks;
    uint64_t second = 0;

    while (!v->is_over) {
        if (read(v->timer, &ticks, sizeof ticks) != sizeof ticks)
            continue;
        pthread_mutex_lock(&v->lock);
        v->now += ticks;
        cut_late(v);
        pthread_mutex_unlock(&v->lock);
        if (v->now / TICKS != second)
            limited_log_second(v->log);
        second = v->now / TICKS;
    }
    return NULL;
}

struct connections *
connections_new(const struct connection_limits *limits, struct limited_log *log)
{
    const struct timespec tick = {.tv_nsec = 1000000000 / TICKS};
    const struct itimerspec every = {tick, tick};
    struct connections *v = calloc(1, sizeof *v);
    int rc;

    if (v == NULL)
        return NULL;
    v->limits = *limits;
    v->log = log;
    v->ring.before = v->ring.after = &v->ring;
    pthread_mutex_init(&v->lock, NULL);
    v->timer = timerfd_create(CLOCK_MONOTONIC, TFD_CLOEXEC);
    if (v->timer < 0 || timerfd_settime(v->timer, 0, &every, NULL)) {
        rc = errno;
        goto err0;
    }
    rc = pthread_create(&v->thread, NULL, watch, v);
    if (rc == 0)
        return v;
err0:
    if (v->timer >= 0)
        (void)close(v->timer);
    pthread_mutex_destroy(&v->lock);
    free(v);
    errno = rc;
    return NULL;
}

void
connections_free(struct connections *v)
{
    if (v == NULL)
        return;
    v->is_over = 1;
    pthread_join(v->thread, NULL);
    (void)close(v->timer);
    pthread_mutex_destroy(&v->lock);
    free(v);
}

static int
is_exempt(const struct connections *v, const struct address *from)
{
    static const struct address unix_socket = {{0}};

    return address_same(from, &unix_socket) ||
           proxies_have(v->limits.exempt, from);
}

static unsigned
count_from(const struct connections *v, const struct address *from)
{
    unsigned n = 0;

    for (const struct connection *x = v->ring.after; x != &v->ring;
         x = x->after)
        n += address_near(&x->from, from) != 0;
    return n;
}

int
connections_admit(struct connections *v, const struct address *from)
{
    pthread_mutex_lock(&v->lock);
    int may = is_exempt(v, from) || count_from(v, from) < v->limits.per_address;
    if (may && v->count >= v->limits.total && v->ring.after != &v->ring)
        cut_for(v, v->ring.after, "to make room");
    pthread_mutex_unlock(&v->lock);
    return may;
}

struct connection *
connections_begin(struct connections *v, int fd, const struct address *from)
{
    struct connection *x = calloc(1, sizeof *x);

    if (x == NULL)
        return NULL;
    x->all = v;
    x->from = *from;
    x->fd = fd;
    pthread_mutex_lock(&v->lock);
    link_last(x);
    v->count++;
    pthread_mutex_unlock(&v->lock);
    return x;
}

void
connection_again(struct connection *x)
{
    pthread_mutex_lock(&x->all->lock);
    unlink_visit(x);
    link_last(x);
    pthread_mutex_unlock(&x->all->lock);
}

void
connection_wait(struct connection *x)
{
    pthread_mutex_lock(&x->all->lock);
    unlink_visit(x);
    x->before = x->after = x;
    pthread_mutex_unlock(&x->all->lock);
}

void
connection_end(struct connection *x)
{
    if (x == NULL)
        return;
    struct connections *v = x->all;
    pthread_mutex_lock(&v->lock);
    unlink_visit(x);
    v->count--;
    pthread_mutex_unlock(&v->lock);
    free(x);
}

const struct address *
connection_from(const struct connection *x)
{
    return &x->from;
}
