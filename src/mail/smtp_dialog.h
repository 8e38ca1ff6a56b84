#ifndef SMTP_DIALOG_H
#define SMTP_DIALOG_H

#include <stddef.h>

/* How far the sending of one message has come. */
enum smtp_step {
    SMTP_CONNECT, /* up to the greeting */
    SMTP_HELLO,
    SMTP_STARTTLS,
    SMTP_LOGIN,
    SMTP_SENDER, /* from here on the message itself is under way */
    SMTP_RECIPIENT,
    SMTP_DATA,
    SMTP_MESSAGE /* from its first byte on, what becomes of it is open */
};

/*
 * What was said last: libcurl's own notion of the last reply is that to an
 * earlier command when the server says nothing to the latest.  Starts as all
 * zeros.
 */
struct smtp_dialog {
    enum smtp_step step;
    int code;        /* of the reply to that step, or 0 */
    int over;        /* we take our leave */
    char reply[200]; /* its first line, in printable ASCII */
};

/* We said @len bytes at @line: one command. */
void smtp_dialog_said(struct smtp_dialog *d, const char *line, size_t len);

/* We sent a part of the message. */
void smtp_dialog_sent(struct smtp_dialog *d);

/* The server said @len bytes at @line, one line of a reply. */
void smtp_dialog_heard(struct smtp_dialog *d, const char *line, size_t len);

/* Nonzero when the server has refused this message or its sender or recipient,
 * for good; what it says of us, our login or our lack of TLS, is not that. */
int smtp_dialog_refused(const struct smtp_dialog *d);

/* What the step is about, to follow "refused" and the like. */
const char *smtp_dialog_about(const struct smtp_dialog *d);

#endif
