#include "check.h"

#include <string.h>

/* Keys that say how to speak to a server. */
static const char *const of_servers[] = {
    "tls", "login", "password-file", "ca-file", "ehlo"};

static void
refuse_of_servers(
    struct load_context *r, const struct section *s, const char *transport)
{
    for (size_t i = 0; i < sizeof of_servers / sizeof *of_servers; i++) {
        struct entry *e = section_entry(s, of_servers[i]);
        if (e != NULL)
            context_refuse(r, e, e->place,
                "'%s' has no server to say this to; take it out, or write "
                "by = smtp HOST:PORT",
                transport);
    }
}

/* A password is never sent in clear to another machine. */
static void
check_login(struct load_context *r, const struct section *s, int in_clear)
{
    struct entry *login = section_entry(s, "login");
    const struct entry *password = section_entry(s, "password-file");

    if (login != NULL && password == NULL)
        context_refuse(r, login, login->place,
            "there is no password for it; add password-file = PATH");
    if (login == NULL && password != NULL)
        context_error(r, password->place,
            "'password-file': there is no login for it; add login = NAME");
    if (login != NULL && in_clear)
        context_refuse(r, login, login->place,
            "without TLS everybody on the way reads the password; write "
            "tls = starttls or tls = implicit");
}

static int
takes_server(const struct load_context *r, const char *name)
{
    for (size_t i = 0; i < r->options->n_transports; i++)
        if (strcmp(r->options->transports[i].name, name) == 0)
            return r->options->transports[i].takes_server;
    return 0;
}

/* The name that we go by unless one is stated: where the mail is from. */
static void
name_ourselves(
    struct load_context *r, const struct section *s, struct mail_settings *mail)
{
    const char *at = mail->from ? strchr(mail->from, '@') : NULL;

    if (mail->ehlo != NULL || at == NULL)
        return;
    if (server_is_name(at + 1))
        mail->ehlo = at + 1;
    else
        context_error(r, s->place,
            "'%s' cannot be said to a server; add ehlo = NAME", at + 1);
}

/* On loopback nobody listens on the way, so there TLS is left out unless it is
 * asked for. */
void
check_mail(
    struct load_context *r, const struct section *s, struct mail_settings *mail)
{
    const struct entry *tls = section_entry(s, "tls");
    struct server server;
    int near = 1;

    if (mail->transport == NULL || mail->argument == NULL)
        return; /* refused already */
    if (!takes_server(r, mail->transport)) {
        refuse_of_servers(r, s, mail->transport);
    } else if (server_parse(mail->argument, &server) == 0) {
        near = server_is_loopback(&server);
        name_ourselves(r, s, mail);
        check_login(r, s, !near && mail->tls == SERVER_TLS_NONE);
    }
    if (tls != NULL && !near && mail->tls == SERVER_TLS_NONE)
        context_warning(r, tls->place,
            "'tls': mail goes to %s for everybody on the way to read; expected "
            "starttls or implicit",
            mail->argument);
    if (mail->tls == SERVER_TLS_USUAL)
        mail->tls = near ? SERVER_TLS_NONE : SERVER_STARTTLS;
}
