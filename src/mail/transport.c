#include "transport.h"

#include "message.h"

#include <string.h>
#include <sysexits.h>

static const struct transport transports[] = {
    {"folder", "PATH", 0, send_folder, NULL},
    {"sendmail", "PROGRAM", 0, send_sendmail, NULL},
    {"smtp", "HOST[:PORT]", 1, send_smtp, send_smtp_close},
};

#define N_TRANSPORTS (sizeof transports / sizeof *transports)

const struct transport *
transport_find(const char *name)
{
    for (size_t i = 0; i < N_TRANSPORTS; i++)
        if (strcmp(transports[i].name, name) == 0)
            return &transports[i];
    return NULL;
}

const struct transport *
transport_at(size_t i)
{
    return i < N_TRANSPORTS ? &transports[i] : NULL;
}

struct mail_session
mail_session_start(const struct transport *by, const struct mail_route *route)
{
    return (struct mail_session){.by = by, .route = route};
}

void
mail_session_end(struct mail_session *s)
{
    if (s->by->close != NULL)
        s->by->close(s);
}

/* One that hangs may be that message's own fault; two are the server's, and
 * fifty people would keep the pass for hours. */
#define HANGS_MOST 2

static int
send_timed(struct mail_session *s, const struct mail_envelope *e,
    const char *bytes, size_t len, struct fault *f)
{
    s->slow = 0;
    int rc = s->by->send(s, e, bytes, len, f);
    s->hangs = s->slow ? s->hangs + 1 : 0;
    if (s->hangs >= HANGS_MOST)
        s->down = 1;
    return rc;
}

/*
 * Nonzero when CR and LF come only together, there is no NUL, and the last
 * line ends.  A bare one can be the end of a message to one server and not to
 * the next, and what follows it another message.
 */
static int
has_whole_lines(const char *bytes, size_t len)
{
    const char *end = bytes + len;

    if (len < 2 || memchr(bytes, '\0', len) != NULL || end[-1] != '\n')
        return 0;
    for (const char *at = bytes; at < end; at += 2) {
        size_t left = (size_t)(end - at);
        const char *cr = memchr(at, '\r', left);
        const char *lf = memchr(at, '\n', left);
        if (cr == NULL || lf != cr + 1)
            return 0;
        at = cr;
    }
    return 1;
}

int
mail_send(struct mail_session *s, const struct mail_envelope *e,
    const char *bytes, size_t len, struct fault *f)
{
    const char *addresses[] = {e->from, e->to};

    for (size_t i = 0; i < 2; i++)
        if (!mail_address_ok(addresses[i]))
            return fault_set(
                f, EX_DATAERR, "'%s' is not a mail address", addresses[i]);
    if (!has_whole_lines(bytes, len))
        return fault_set(f, EX_DATAERR,
            "the message %s has a line that does not end in CR and LF",
            e->message_id);
    return send_timed(s, e, bytes, len, f);
}
