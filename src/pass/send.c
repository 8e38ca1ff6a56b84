#include "remind.h"

#include "arena.h"
#include "outbox.h"
#include "transport.h"

#include <sysexits.h>

static int
send_one(const struct pass *p, const struct transport *t,
    const struct outbox_message *m, struct fault *f)
{
    const struct mail_settings *mail = &pass_fleet(p)->site.mail;
    struct mail_envelope e = {mail->from, m->recipient, m->message_id};
    struct fault failed;

    if (t->send(mail->argument, &e, m->bytes, m->len, &failed) == 0)
        return outbox_sent(pass_ledger(p), m->id, pass_moment(p).now, f);
    outbox_failed(pass_ledger(p), m->id, pass_moment(p).now, failed.text, NULL);
    return fault_set(f, failed.code,
        "mail to %s is not sent and stays in the "
        "outbox: %s",
        m->recipient, failed.text);
}

int
remind_send(const struct pass *p, struct fault *f)
{
    const struct mail_settings *mail = &pass_fleet(p)->site.mail;
    struct arena *a = arena_new();
    struct outbox_message *waiting;
    size_t n = 0;
    int rc = 0;

    if (a == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    if (mail->from != NULL)
        rc = outbox_waiting(pass_ledger(p), a, &waiting, &n, f);
    for (size_t i = 0; i < n; i++)
        if (send_one(
                p, transport_find(mail->transport), &waiting[i], rc ? NULL : f))
            rc = -1;
    arena_free(a);
    return rc;
}
