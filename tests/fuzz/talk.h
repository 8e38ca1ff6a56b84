#ifndef TALK_H
#define TALK_H

#include <stddef.h>
#include <stdint.h>
#include <sys/socket.h>
#include <sys/un.h>

/* The bytes that are not sent. */
enum {
    TALK_WAIT = 255, /* wait until what stands before it was read */
    TALK_GO = 254    /* go away, and leave what was not answered */
};

/* Whom to talk to. */
struct talk_peer {
    struct sockaddr_un where;
    socklen_t len;
    int wakes; /* can be read when there is work to do meanwhile */
    void (*work)(void *context);
    void *context;
};

/*
 * Send the @len bytes at @data on a connection of its own, and gather what
 * comes back until its end in the @most bytes at @out, which must not be all
 * needed. Returns how many came, or 0 when the client went away before the end.
 */
size_t talk(const struct talk_peer *peer, const uint8_t *data, size_t len,
    char *out, size_t most);

#endif
