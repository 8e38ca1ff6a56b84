#ifndef TRANSPORT_H
#define TRANSPORT_H

#include "fault.h"
#include "server.h"

#include <stddef.h>

/* Between whom a message travels, and its name. */
struct mail_envelope {
    const char *from;
    const char *to;         /* one: each has an answer of their own */
    const char *message_id; /* without angle brackets */
};

/* Where messages go.  What a transport has no use for is not looked at. */
struct mail_route {
    const char *argument; /* a folder, a program, or a server */
    enum server_tls tls;
    const char *login;    /* or NULL */
    const char *password; /* of that login */
    const char *ca_file;  /* who vouches for the server; NULL: the system's */
    const char *ehlo;     /* what we call ourselves */
    int timeout;          /* seconds that one message may take */
};

/* Messages that leave one after the other, by one route. */
struct mail_session {
    const struct transport *by;
    const struct mail_route *route;
    int down;   /* at present no message at all would be taken */
    int slow;   /* the last message took all the time that one may */
    int hangs;  /* so many in a row did */
    void *kept; /* what the transport keeps from one message to the next */
};

typedef int transport_send(struct mail_session *s,
    const struct mail_envelope *e, const char *bytes, size_t len,
    struct fault *f);

/* One way for mail to leave. */
struct transport {
    const char *name;
    const char *form;     /* what it takes, for a message: "PATH" */
    int takes_server;     /* that is a server, not a path */
    transport_send *send; /* as mail_send(), which looks before it calls */
    void (*close)(struct mail_session *s); /* gives back @kept; may be NULL */
};

/* The transport of that name, or NULL. */
const struct transport *transport_find(const char *name);

/* The transport in row @i of the table, from 0, or NULL past the last. */
const struct transport *transport_at(size_t i);

/* A session; @route must outlive it.  End with mail_session_end(). */
struct mail_session mail_session_start(
    const struct transport *by, const struct mail_route *route);
void mail_session_end(struct mail_session *s);

/*
 * Hand over the message of @len bytes, every line of which ends in CRLF.
 * Returns 0 when the message will arrive, or -1 with @f set: EX_UNAVAILABLE
 * when it was refused for good, EX_DATAERR when it may not be sent at all, and
 * EX_TEMPFAIL when trying again may help.  That includes that nobody knows
 * whether it was taken: the same message sent again is then perhaps a second
 * one, with the same Message-ID.
 */
int mail_send(struct mail_session *s, const struct mail_envelope *e,
    const char *bytes, size_t len, struct fault *f);

/*
 * "folder": each message becomes the file NAME.eml in the folder, which is
 * made when it is not there; NAME is the Message-ID up to its "@".  The same
 * message again leaves the one file.
 */
transport_send send_folder;

/*
 * "smtp": to a server (RFC 5321), by one connection for as long as everything
 * is as it should be: after anything else, the next message has a new one.
 */
transport_send send_smtp;
void send_smtp_close(struct mail_session *s);

/* "sendmail": to a program of this machine that takes what sendmail(1) takes;
 * no shell is in between. */
transport_send send_sendmail;

#endif
