#include "smtp_dialog.h"

#include <string.h>

static void
go_to(struct smtp_dialog *d, enum smtp_step step)
{
    d->step = step;
    d->code = 0;
    d->reply[0] = '\0';
}

static int
begins(const char *line, size_t len, const char *with)
{
    size_t n = strlen(with);

    return len >= n && memcmp(line, with, n) == 0;
}

void
smtp_dialog_said(struct smtp_dialog *d, const char *line, size_t len)
{
    static const struct {
        const char *begins;
        enum smtp_step from, to; /* the steps that it can follow */
        enum smtp_step step;
    } commands[] = {
        {"EHLO ", SMTP_CONNECT, SMTP_STARTTLS, SMTP_HELLO},
        {"HELO ", SMTP_CONNECT, SMTP_STARTTLS, SMTP_HELLO},
        {"STARTTLS\r\n", SMTP_HELLO, SMTP_HELLO, SMTP_STARTTLS},
        {"AUTH ", SMTP_HELLO, SMTP_LOGIN, SMTP_LOGIN},
        {"MAIL ", SMTP_CONNECT, SMTP_LOGIN, SMTP_SENDER},
        {"RCPT ", SMTP_SENDER, SMTP_SENDER, SMTP_RECIPIENT},
        {"DATA\r\n", SMTP_RECIPIENT, SMTP_RECIPIENT, SMTP_DATA},
    };

    if (begins(line, len, "QUIT\r\n"))
        d->over = 1;
    for (size_t i = 0; i < sizeof commands / sizeof *commands && !d->over; i++)
        if (d->step >= commands[i].from && d->step <= commands[i].to &&
            begins(line, len, commands[i].begins)) {
            go_to(d, commands[i].step);
            return;
        }
    /* What goes on with a login is in no command's form. */
    if (d->step == SMTP_LOGIN)
        go_to(d, SMTP_LOGIN);
}

void
smtp_dialog_sent(struct smtp_dialog *d)
{
    if (d->step != SMTP_MESSAGE)
        go_to(d, SMTP_MESSAGE);
}

static int
code_of(const char *line, size_t len)
{
    int code = 0;

    for (size_t i = 0; i < 3; i++) {
        if (len <= i || line[i] < '0' || line[i] > '9')
            return 0;
        code = 10 * code + line[i] - '0';
    }
    return code;
}

/* It ends up in messages of ours, on a terminal or in a mail. */
static void
keep(struct smtp_dialog *d, const char *line, size_t len)
{
    size_t n = 0;

    for (; n < len && n < sizeof d->reply - 1; n++) {
        if (line[n] == '\r' || line[n] == '\n')
            break;
        char c = line[n];
        d->reply[n] = '?';
        if (c >= ' ' && c <= '~')
            d->reply[n] = c;
    }
    d->reply[n] = '\0';
}

void
smtp_dialog_heard(struct smtp_dialog *d, const char *line, size_t len)
{
    if (d->over)
        return;
    if (d->reply[0] == '\0')
        keep(d, line, len);
    d->code = code_of(line, len);
}

int
smtp_dialog_refused(const struct smtp_dialog *d)
{
    /* RFC 4954, 6, and RFC 3207, 4: log in, or start TLS, first. */
    static const int about_us[] = {530, 534, 535, 538};

    for (size_t i = 0; i < sizeof about_us / sizeof *about_us; i++)
        if (d->code == about_us[i])
            return 0;
    return d->step >= SMTP_SENDER && d->code >= 500;
}

const char *
smtp_dialog_about(const struct smtp_dialog *d)
{
    static const char *const words[] = {
        [SMTP_CONNECT] = "the connection",
        [SMTP_HELLO] = "our greeting",
        [SMTP_STARTTLS] = "STARTTLS",
        [SMTP_LOGIN] = "the login",
        [SMTP_SENDER] = "the sender",
        [SMTP_RECIPIENT] = "the recipient",
        [SMTP_DATA] = "the message",
        [SMTP_MESSAGE] = "the message",
    };

    return words[d->step];
}
