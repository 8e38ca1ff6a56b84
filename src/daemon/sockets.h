#ifndef SOCKETS_H
#define SOCKETS_H

#include "fault.h"
#include "http_server.h"

/* The sockets to serve on. */
struct sockets {
    int fds[HTTP_SOCKETS];
    size_t n;
};

/*
 * Take the sockets that the service manager handed over (sd_listen_fds(3)), or
 * without any, listen at @where.  Returns 0, or -1 with @f set.
 */
int sockets_open(struct sockets *s, const char *where, struct fault *f);

/* Append where they listen to @out, of @size bytes. */
void sockets_print(const struct sockets *s, char *out, size_t size);

#endif
