#ifndef CONNECTIONS_H
#define CONNECTIONS_H

#include "address.h"

struct limited_log;
struct proxies;

/*
 * Who is connected, and since when each has been at its present request.  The
 * library's own time limit begins again with every byte, so a client that
 * sends or takes a byte a second would stay for ever: here a request has so
 * many seconds from the end of the one before it, and then is cut off.
 */
struct connections;

/* One connection. */
struct connection;

struct connection_limits {
    unsigned total;         /* connections at once */
    unsigned per_address;   /* of them from one address */
    unsigned seconds;       /* for one request, from the end of the last one to
                               the last byte of the answer */
    struct proxies *exempt; /* for which per_address is not, nor for a Unix
                               socket */
};

/*
 * Begin to count, with a thread that looks at the time.  @limits is copied,
 * what it points to must live as long; @log hears of those cut off.  NULL
 * with errno set on failure.
 */
struct connections *connections_new(
    const struct connection_limits *limits, struct limited_log *log);

/* Stop the thread, within half a second, and free @v, whose visits have all
 * ended; NULL is ignored. */
void connections_free(struct connections *v);

/*
 * Nonzero when a connection from @from may come in.  When there are too many,
 * the one that has been at its request for the longest time makes room; when
 * there are too many from its own address, it may not.
 */
int connections_admit(struct connections *v, const struct address *from);

/* A connection begins on the socket @fd; NULL when memory is out.  It ends
 * with connection_end(), before the socket is closed. */
struct connection *connections_begin(
    struct connections *v, int fd, const struct address *from);

/* A request has been answered, or will be at once, and the time begins again.
 */
void connection_again(struct connection *x);

/* The request waits for us: until connection_again() its time stands still, it
 * makes no room, and does not count among those of its address. */
void connection_wait(struct connection *x);

/* The connection ends; NULL is ignored. */
void connection_end(struct connection *x);

/* Where it comes from. */
const struct address *connection_from(const struct connection *x);

#endif
