#ifndef TRANSPORT_H
#define TRANSPORT_H

#include "fault.h"

#include <stddef.h>

/* Between whom a message travels, and its name. */
struct mail_envelope {
    const char *from;
    const char *to;
    const char *message_id; /* without angle brackets */
};

/*
 * Hand over the message of @len bytes.  @argument is the transport's own: a
 * folder, a server.  Returns 0 when the message will arrive, or -1 with @f
 * set: EX_TEMPFAIL when trying again may help, another code when not.
 */
typedef int transport_send(const char *argument, const struct mail_envelope *e,
    const char *bytes, size_t len, struct fault *f);

/* One way for mail to leave. */
struct transport {
    const char *name;
    transport_send *send;
};

/* The transport of that name, or NULL. */
const struct transport *transport_find(const char *name);

/* The transport in row @i of the table, from 0, or NULL past the last. */
const struct transport *transport_at(size_t i);

/*
 * "folder": each message becomes the file NAME.eml in the folder @argument,
 * which is made when it is not there; NAME is the Message-ID up to its "@".
 * The same message again leaves the one file.
 */
transport_send send_folder;

#endif
