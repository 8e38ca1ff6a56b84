#ifndef MESSAGE_H
#define MESSAGE_H

#include "fault.h"

#include <stddef.h>
#include <stdint.h>

struct buf;

/* A calendar to go with a message, as a file of its own: no METHOD in it, or
 * readers take it for an invitation (RFC 6047). */
struct mail_attachment {
    const char *name; /* of the file */
    const char *bytes;
    size_t len;
};

/*
 * A message to one person.  Texts are UTF-8; those that go into a header have
 * no control characters and no line separators.  Addresses are bare, as
 * mail_address_ok() wants them.
 */
struct mail_message {
    const char *from;
    const char *from_name; /* may be NULL */
    const char *to;
    const char *reply_to; /* may be NULL */
    const char *subject;
    const char *list_id;    /* RFC 2919, without its brackets; may be NULL */
    const char *message_id; /* from mail_message_id() */
    int64_t date;           /* seconds since 1970-01-01T00:00:00Z */
    const char *text;       /* each line ends with LF */
    const char *html;       /* the same as a page; may be NULL */
    const struct mail_attachment *attachment; /* may be NULL */
};

/*
 * Append the message to @out (RFC 5322, MIME): CRLF ends every line, no line
 * has more than 998 octets, all are ASCII.  The same message gives the same
 * bytes.  Returns 0, or -1 with @f set: EX_DATAERR for a text that may not
 * stand where it is, EX_OSERR when memory is out.
 */
int mail_compose(
    const struct mail_message *m, struct buf *out, struct fault *f);

/*
 * Nonzero when @address is local@domain in ASCII, without quotes, comments,
 * blanks or control characters and not beginning with a hyphen: safe in a
 * header, in an SMTP command and among the arguments of a program.
 */
int mail_address_ok(const char *address);

/*
 * Write into @out the Message-ID, without its angle brackets, of what @seed
 * names: the first half of the seed's SHA-256 in hex, "@" and @domain.
 * Returns 0, or -1 when it does not fit.
 */
int mail_message_id(
    const char *seed, const char *domain, char *out, size_t size);

#endif
