#ifndef HTTP_LISTEN_H
#define HTTP_LISTEN_H

#include "fault.h"

enum {
    HTTP_LISTEN_TEXT = 128 /* bytes of an address as a text */
};

/*
 * A listening socket at @where: "127.0.0.1:8080", "[::1]:8080", port 0 for any
 * that is free, or "unix:/run/ostler/http.sock", which takes the place of a
 * socket nobody listens to and is open to its owner and group.  Returns it, or
 * -1 with @f set.
 */
int http_listen(const char *where, struct fault *f);

/* Where @socket listens, as http_listen() reads it, into @out. */
void http_listen_print(int socket, char out[HTTP_LISTEN_TEXT]);

#endif
