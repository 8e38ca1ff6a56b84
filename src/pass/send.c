#include "send.h"

#include "arena.h"
#include "lock.h"
#include "mailing.h"
#include "outbox.h"
#include "run_lock.h"
#include "source.h"
#include "transport.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sysexits.h>

/* Sending under way. */
struct sending {
    const struct run_context *run;
    struct mail_session session;
    struct fault last;    /* of the message tried last */
    struct fault given;   /* the first that was given up */
    struct fault delayed; /* the first that waits */
    struct send_tally *tally;
};

static int64_t
wait_after(int attempts)
{
    int64_t wait = SEND_FIRST_WAIT;

    for (; attempts > 1 && wait < SEND_LAST_WAIT; attempts--)
        wait *= 2;
    return wait < SEND_LAST_WAIT ? wait : SEND_LAST_WAIT;
}

static int
is_wanted(
    const struct outbox_message *m, const struct send_request *r, int64_t now)
{
    if (r->only != 0)
        return m->id == r->only;
    if (m->gave_up != 0)
        return 0;
    /* One tried in the future was tried by a clock that has been set since. */
    return !r->timely || m->next_try <= now || m->tried > now;
}

/* Somebody whose address was wrong gets what waits at the right one. */
static const char *
address_of(const struct run_context *p, const struct outbox_message *m)
{
    const struct fleet *f = run_fleet(p);

    if (strcmp(m->person, MAILING_ADMIN) == 0 && f->site.mail.keeper != NULL)
        return f->site.mail.keeper;
    for (size_t i = 0; i < f->n_persons; i++)
        if (strcasecmp(f->persons[i].id, m->person) == 0 &&
            f->persons[i].mail != NULL)
            return f->persons[i].mail;
    return m->recipient;
}

/* What is said of a message by its own transport or the program before it. */
static int
is_final(const struct fault *f)
{
    return f->code == EX_UNAVAILABLE || f->code == EX_DATAERR;
}

/* Note how sending @m failed, which g->last says: 0, or -1 when the ledger
 * fails. */
static int
note_failure(struct sending *g, const struct outbox_message *m, struct fault *f)
{
    struct ledger *l = run_ledger(g->run);
    int64_t now = run_moment(g->run).now;
    const char *to = address_of(g->run, m);
    const char *why = g->last.text;

    if (is_final(&g->last) || now - m->created >= SEND_DAYS * INT64_C(86400)) {
        if (g->tally->gave_up++ == 0)
            fault_fill(&g->given, EX_UNAVAILABLE,
                "mail to %s is given up, see ostler outbox (message %lld): %s",
                to, (long long)m->id, why);
        return outbox_give_up(l, m->id, now, why, f);
    }
    if (g->tally->waiting++ == 0)
        fault_fill(&g->delayed, EX_TEMPFAIL,
            "mail to %s is not sent and stays in the outbox: %s", to, why);
    return outbox_failed(l, m->id, why, f);
}

/* 0 when it was sent or the failure noted, -1 when the ledger fails. */
static int
send_one(struct sending *g, const struct outbox_message *m, struct fault *f)
{
    struct ledger *l = run_ledger(g->run);
    int64_t now = run_moment(g->run).now;
    struct mail_envelope e = {run_fleet(g->run)->site.mail.from,
        address_of(g->run, m), m->message_id};

    if (g->session.down)
        return note_failure(g, m, f);
    if (outbox_try(l, m->id, now, now + wait_after(m->attempts + 1),
            "the attempt was cut off, so it may come twice", f))
        return -1;
    if (mail_send(&g->session, &e, m->bytes, m->len, &g->last))
        return note_failure(g, m, f);
    g->tally->sent++;
    return outbox_sent(l, m->id, now, f);
}

/* One that always fails is to be in nobody's way. */
static int
least_tried_first(const void *left, const void *right)
{
    const struct outbox_message *a = left;
    const struct outbox_message *b = right;

    if (a->attempts != b->attempts)
        return a->attempts < b->attempts ? -1 : 1;
    return (a->id > b->id) - (a->id < b->id);
}

static int
send_all(struct sending *g, const struct send_request *r, struct fault *f)
{
    struct arena *a = arena_new();
    struct outbox_message *open = NULL;
    size_t n = 0;

    if (a == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    int rc = outbox_open(run_ledger(g->run), a, &open, &n, f);
    if (rc == 0 && n > 1)
        qsort(open, n, sizeof *open, least_tried_first);
    for (size_t i = 0; i < n && rc == 0; i++)
        if (is_wanted(&open[i], r, run_moment(g->run).now))
            rc = send_one(g, &open[i], f);
    arena_free(a);
    return rc;
}

static int
result(const struct sending *g, struct fault *f)
{
    const struct send_tally *t = g->tally;
    size_t more = t->gave_up + t->waiting - 1;

    if (t->gave_up + t->waiting == 0)
        return 0;
    *f = t->gave_up > 0 ? g->given : g->delayed;
    if (more > 0) {
        struct fault rest;
        fault_fill(&rest, f->code, "%zu more that %s not sent", more,
            more == 1 ? "is" : "are");
        fault_also(f, &rest);
    }
    return -1;
}

int
send_mail(const struct run_context *p, const struct send_request *request,
    struct send_tally *tally, struct fault *f)
{
    const struct mail_settings *mail = &run_fleet(p)->site.mail;
    char password[SECRET_MOST + 1] = "";
    struct sending g = {.run = p, .tally = tally};
    struct mail_route route = {
        .argument = mail->argument,
        .tls = mail->tls,
        .login = mail->login,
        .password = password,
        .ca_file = mail->ca_file,
        .ehlo = mail->ehlo,
        .timeout = (int)mail->timeout,
    };
    struct fault bad;

    *tally = (struct send_tally){0};
    if (mail->from == NULL)
        return 0;
    if (mail->login && source_secret(mail->password_file, password, &bad))
        return fault_set(f, bad.code, "the file of the mail password, %s, %s",
            mail->password_file, bad.text);
    int lock = run_lock_send(p, f);
    if (lock < 0)
        return -1;
    g.session = mail_session_start(transport_find(mail->transport), &route);
    int rc = send_all(&g, request, f);
    mail_session_end(&g.session);
    lock_drop(lock);
    explicit_bzero(password, sizeof password);
    return rc ? -1 : result(&g, f);
}
