#ifndef ADDRESS_H
#define ADDRESS_H

#include <stddef.h>
#include <stdint.h>
#include <sys/socket.h>

/* Where a client is: an IPv6 address, an IPv4 one mapped into it, or all zero
 * for a client on a Unix socket. */
struct address {
    uint8_t bytes[16];
};

enum {
    ADDRESS_TEXT = 46 /* bytes of an address as a text, with its NUL */
};

/* The address in @sa, which may be NULL for none. */
struct address address_of(const struct sockaddr *sa);

/* Read an address without a port, or "unix": 0, or -1 for anything else. */
int address_parse(const char *text, size_t len, struct address *out);

/* Write @a as address_parse() reads it. */
void address_print(const struct address *a, char out[ADDRESS_TEXT]);

/* Nonzero when the two are one. */
int address_same(const struct address *a, const struct address *b);

/* Nonzero when they count as one client: the same IPv4 address, or the same
 * /64 of IPv6, which is what one household or host has to itself. */
int address_near(const struct address *a, const struct address *b);

/*
 * Who sent a request that came from @peer with the X-Forwarded-For field
 * @field, or NULL: the last address in it that is none of the @n trusted
 * @proxies.  Nobody but a trusted proxy is believed.
 */
struct address address_forwarded(const struct address *peer, const char *field,
    const struct address *proxies, size_t n);

#endif
