#ifndef HTTP_SERVER_H
#define HTTP_SERVER_H

#include "fault.h"
#include "http_request.h"
#include "limited_log.h"
#include "resource.h"
#include "routes.h"

/*
 * A server of some routes.  It answers in threads of its own, which
 * take no signals, from the routes it was last given; no request makes it read
 * a file, run a query or wait.  A posted form is handed to whoever asks for
 * it, and answered by them.
 */
struct http_server;

enum {
    HTTP_SOCKETS = 8 /* listening sockets at most */
};

struct http_options {
    const int *sockets; /* listening; the server closes them */
    size_t n_sockets;
    unsigned connections;       /* at once; 0 stands for 512 */
    unsigned per_address;       /* of them from one address; 0 stands for 32 */
    unsigned seconds;           /* for a request, whole; 0 stands for 30 */
    const char *const *proxies; /* whose X-Forwarded-For is believed, ends with
                                   NULL: addresses, or "unix", 16 at most; NULL
                                   for none */
    http_log *log; /* hears of requests refused, in any thread; never a key */
    void *context; /* of the log */
};

/*
 * Serve @first, which is taken over.  Returns NULL with @f set when that
 * cannot be; then the sockets are closed and the routes are freed.
 */
struct http_server *http_server_start(
    const struct http_options *options, struct routes *first, struct fault *f);

/* Serve @next, which is taken over, from now on.  Requests under way get what
 * they began with. */
void http_server_show(struct http_server *s, struct routes *next);

/* Believe @proxies, as those of the options, from now on.  Returns 0, or -1
 * with
 * @f set, and believes those before. */
int http_server_trust(
    struct http_server *s, const char *const *proxies, struct fault *f);

/* A file descriptor, the server's own, that can be read when a form waits. */
int http_server_posted(const struct http_server *s);

/* The form that has waited longest, or NULL for none.  Each is answered with
 * http_request_answer(), before the server stops. */
struct http_request *http_server_next_post(struct http_server *s);

/* Take no more connections, give the answers under way half a second, and
 * free @s; NULL is ignored. */
void http_server_stop(struct http_server *s);

#endif
