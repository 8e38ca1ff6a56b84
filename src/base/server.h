#ifndef SERVER_H
#define SERVER_H

/* How what is said to a server is kept from others. */
enum server_tls {
    SERVER_TLS_USUAL, /* not decided yet */
    SERVER_STARTTLS,
    SERVER_TLS_IMPLICIT,
    SERVER_TLS_NONE
};

/* Where a server listens. */
struct server {
    char host[254]; /* a name, an IPv4 address, or IPv6 in brackets */
    int port;       /* 0 when not stated */
};

/*
 * Read "HOST" or "HOST:PORT", an IPv6 address in brackets: 0, or -1 when it is
 * none.  Nothing else gets through, so that the host can stand in a URL.
 */
int server_parse(const char *text, struct server *out);

/* Nonzero when @s is this machine by its name or address alone. */
int server_is_loopback(const struct server *s);

/* Whether @name can be a host's: dotted words of letters, digits, hyphens. */
int server_is_name(const char *name);

#endif
