#include "http_server.h"

#include "connections.h"
#include "error_responses.h"
#include "exchange.h"
#include "handler.h"
#include "posts.h"
#include "proxies.h"

#include <assert.h>
#include <errno.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>
#include <unistd.h>

enum {
    CONNECTIONS = 512,
    PER_ADDRESS = 32,
    SECONDS = 30,
    IDLE_SECONDS = 15,
    /* Those that are cut off take a moment to go. */
    LEAVING = 64,
    /* Bytes a connection has for the lines of its request. */
    MEMORY = 16384
};

struct http_server {
    struct serving serving;
    struct MHD_Daemon *daemons[HTTP_SOCKETS];
    size_t n_daemons;
};

static unsigned
or_else(unsigned value, unsigned otherwise)
{
    return value ? value : otherwise;
}

static int
start_serving(struct serving *s, const struct http_options *o, struct fault *f)
{
    s->proxies = proxies_new();
    if (s->proxies == NULL)
        return fault_set(f, EX_OSERR, "cannot serve: %s", strerror(errno));
    if (proxies_trust(s->proxies, o->proxies, f))
        return -1;
    const struct connection_limits limits = {
        .total = or_else(o->connections, CONNECTIONS),
        .per_address = or_else(o->per_address, PER_ADDRESS),
        .seconds = or_else(o->seconds, SECONDS),
        .exempt = s->proxies,
    };
    s->responses = error_responses_new();
    s->log = limited_log_new(o->log, o->context);
    s->posts = posts_new();
    if (s->responses == NULL || s->log == NULL || s->posts == NULL)
        return fault_set(f, EX_OSERR, "cannot serve: %s", strerror(errno));
    s->visits = connections_new(&limits, s->log);
    return s->visits ? 0
                     : fault_set(f, EX_OSERR, "cannot start a thread: %s",
                           strerror(errno));
}

static void
end_serving(struct serving *s)
{
    connections_free(s->visits);
    proxies_free(s->proxies);
    posts_free(s->posts);
    limited_log_free(s->log);
    error_responses_free(s->responses);
    routes_free(s->routes);
    pthread_mutex_destroy(&s->lock);
}

static struct MHD_Daemon *
start_daemon(struct serving *s, const struct http_options *o, int socket)
{
    return MHD_start_daemon(
        MHD_USE_EPOLL_INTERNAL_THREAD | MHD_USE_SUSPEND_RESUME, 0,
        handler_admit, s, handler_request, s, MHD_OPTION_LISTEN_SOCKET, socket,
        MHD_OPTION_CONNECTION_LIMIT,
        or_else(o->connections, CONNECTIONS) + LEAVING,
        MHD_OPTION_CONNECTION_MEMORY_LIMIT, (size_t)MEMORY,
        MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)IDLE_SECONDS,
        MHD_OPTION_URI_LOG_CALLBACK, handler_line, s,
        MHD_OPTION_NOTIFY_CONNECTION, handler_connection, s,
        MHD_OPTION_NOTIFY_COMPLETED, handler_done, s, MHD_OPTION_END);
}

static int
start_daemons(
    struct http_server *s, const struct http_options *o, struct fault *f)
{
    for (; s->n_daemons < o->n_sockets; s->n_daemons++) {
        struct MHD_Daemon *d =
            start_daemon(&s->serving, o, o->sockets[s->n_daemons]);
        if (d == NULL)
            return fault_set(f, EX_OSERR, "cannot serve: %s", strerror(errno));
        s->daemons[s->n_daemons] = d;
    }
    return 0;
}

struct http_server *
http_server_start(
    const struct http_options *o, struct routes *first, struct fault *f)
{
    struct http_server *s = calloc(1, sizeof *s);
    sigset_t all;
    sigset_t before;

    assert(o->n_sockets <= HTTP_SOCKETS);
    if (s == NULL) {
        fault_fill(f, EX_OSERR, "out of memory");
        routes_free(first);
        for (size_t i = 0; i < o->n_sockets; i++)
            (void)close(o->sockets[i]);
        return NULL;
    }
    pthread_mutex_init(&s->serving.lock, NULL);
    s->serving.routes = first;
    /* Signals are for the thread that waits for them: not one of ours. */
    sigfillset(&all);
    pthread_sigmask(SIG_BLOCK, &all, &before);
    int rc = start_serving(&s->serving, o, f) || start_daemons(s, o, f);
    pthread_sigmask(SIG_SETMASK, &before, NULL);
    if (rc == 0)
        return s;
    for (size_t i = s->n_daemons; i < o->n_sockets; i++)
        (void)close(o->sockets[i]);
    http_server_stop(s);
    return NULL;
}

void
http_server_show(struct http_server *s, struct routes *next)
{
    pthread_mutex_lock(&s->serving.lock);
    struct routes *before = s->serving.routes;
    s->serving.routes = next;
    pthread_mutex_unlock(&s->serving.lock);
    routes_free(before);
}

int
http_server_trust(
    struct http_server *s, const char *const *proxies, struct fault *f)
{
    return proxies_trust(s->serving.proxies, proxies, f);
}

int
http_server_posted(const struct http_server *s)
{
    return posts_fd(s->serving.posts);
}

struct http_request *
http_server_next_post(struct http_server *s)
{
    return posts_take(s->serving.posts);
}

/* Give the requests under way half a second. */
static void
finish_answers(struct http_server *s)
{
    struct http_request *r;

    posts_close(s->serving.posts);
    while ((r = posts_take(s->serving.posts)) != NULL)
        http_request_answer(r, NULL);
    for (int i = 0; i < 50 && s->serving.under_way > 0; i++)
        usleep(10000);
}

void
http_server_stop(struct http_server *s)
{
    if (s == NULL)
        return;
    for (size_t i = 0; i < s->n_daemons; i++) {
        MHD_socket listening = MHD_quiesce_daemon(s->daemons[i]);
        if (listening != MHD_INVALID_SOCKET)
            (void)close(listening);
    }
    if (s->serving.posts != NULL)
        finish_answers(s);
    for (size_t i = 0; i < s->n_daemons; i++)
        MHD_stop_daemon(s->daemons[i]);
    end_serving(&s->serving);
    free(s);
}
