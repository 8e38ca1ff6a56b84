#include "mailing.h"

#include "clean.h"
#include "message.h"
#include "outbox.h"

#include <string.h>
#include <sysexits.h>

#define ID_TEXT 288 /* a domain has 253 octets at most */

/* The domain that all messages are from. */
static const char *
domain_of(const struct run_context *p)
{
    const char *at = strchr(run_fleet(p)->site.mail.from, '@');

    return at != NULL ? at + 1 : "";
}

static int
name_message(
    const struct run_context *p, const struct mailing *m, char *id, size_t size)
{
    struct buf *seed = buf_new();

    if (seed == NULL)
        return -1;
    buf_print(seed, "%s\n%s", run_fleet(p)->site.name, buf_str(m->seed));
    int failed = buf_failed(seed) || buf_failed(m->seed) ||
                 mail_message_id(buf_str(seed), domain_of(p), id, size);
    buf_free(seed);
    return failed ? -1 : 0;
}

static int
compose(const struct run_context *p, const struct mailing *m, const char *id,
    struct buf *list, struct buf *name, struct buf *bytes, struct fault *f)
{
    const struct site *site = &run_fleet(p)->site;
    struct mail_attachment dues = {.name = "dues.ics"};

    if (m->calendar != NULL) {
        dues.bytes = buf_str(m->calendar);
        dues.len = buf_len(m->calendar);
    }
    /* What may not stand in a header must not keep anybody from being told. */
    clean_add(name, CLEAN_LINE, site->name, strlen(site->name));
    buf_print(list, "ostler.%s", domain_of(p));
    if (buf_failed(name) || buf_failed(list))
        return fault_set(f, EX_OSERR, "out of memory");
    struct mail_message message = {
        .from = site->mail.from,
        .from_name = buf_str(name),
        .to = m->address,
        .reply_to = site->mail.reply_to,
        .subject = buf_str(m->subject),
        .list_id = buf_str(list),
        .message_id = id,
        .date = run_moment(p).now,
        .text = buf_str(m->text),
        .html = m->html ? buf_str(m->html) : NULL,
        .attachment = dues.len > 0 ? &dues : NULL,
    };
    return mail_compose(&message, bytes, f);
}

int
mailing_put(const struct run_context *p, const struct mailing *m,
    const struct sent_reminder *told, size_t n, struct fault *f)
{
    char id[ID_TEXT];
    struct buf *bytes = buf_new();
    struct buf *list = buf_new();
    struct buf *name = buf_new();
    int rc = -1;

    if (!bytes || !list || !name || name_message(p, m, id, sizeof id))
        fault_fill(f, EX_OSERR, "out of memory");
    else if (compose(p, m, id, list, name, bytes, f) == 0) {
        struct outbox_message message = {
            .person = m->person,
            .message_id = id,
            .recipient = m->address,
            .bytes = buf_str(bytes),
            .len = buf_len(bytes),
            .created = run_moment(p).now,
        };
        rc = outbox_add(run_ledger(p), &message, told, n, f);
    }
    buf_free(name);
    buf_free(list);
    buf_free(bytes);
    return rc;
}
