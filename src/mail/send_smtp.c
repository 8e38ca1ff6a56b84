#include "smtp_dialog.h"
#include "transport.h"

#include <curl/curl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sysexits.h>

#define PORT_PLAIN 25
#define PORT_SUBMISSION 587
#define PORT_SUBMISSIONS 465 /* RFC 8314, 7.3 */
#define CONNECT_SECONDS 30L
#define URL_SIZE 600

/* A connection, and the message that is on its way over it. */
struct smtp {
    CURL *curl;
    struct smtp_dialog dialog;
    const char *at; /* what is left of the message */
    size_t left;
    char error[CURL_ERROR_SIZE];
};

static size_t
give(char *out, size_t size, size_t n, void *user)
{
    struct smtp *smtp = user;
    size_t len = size * n < smtp->left ? size * n : smtp->left;

    memcpy(out, smtp->at, len);
    smtp->at += len;
    smtp->left -= len;
    return len;
}

static int
overhear(CURL *curl, curl_infotype type, char *text, size_t len, void *user)
{
    struct smtp *smtp = user;

    (void)curl;
    if (type == CURLINFO_HEADER_OUT)
        smtp_dialog_said(&smtp->dialog, text, len);
    else if (type == CURLINFO_HEADER_IN)
        smtp_dialog_heard(&smtp->dialog, text, len);
    else if (type == CURLINFO_DATA_OUT)
        smtp_dialog_sent(&smtp->dialog);
    return 0;
}

static int
usual_port(enum server_tls tls)
{
    if (tls == SERVER_TLS_NONE)
        return PORT_PLAIN;
    return tls == SERVER_TLS_IMPLICIT ? PORT_SUBMISSIONS : PORT_SUBMISSION;
}

static void
set_server(CURL *curl, const struct mail_route *r)
{
    struct server server;
    char url[URL_SIZE];

    /* The fleet file has good ones only; none at all is refused as a URL. */
    if (server_parse(r->argument, &server))
        server = (struct server){"", 0};
    snprintf(url, sizeof url, "smtp%s://%s:%d/%s",
        r->tls == SERVER_TLS_IMPLICIT ? "s" : "", server.host,
        server.port ? server.port : usual_port(r->tls), r->ehlo);
    curl_easy_setopt(curl, CURLOPT_URL, url);
    curl_easy_setopt(curl, CURLOPT_PROTOCOLS_STR, "smtp,smtps");
    curl_easy_setopt(curl, CURLOPT_PROXY, ""); /* whatever the environment */
    curl_easy_setopt(curl, CURLOPT_USE_SSL,
        r->tls == SERVER_TLS_NONE ? CURLUSESSL_NONE : CURLUSESSL_ALL);
    curl_easy_setopt(curl, CURLOPT_SSLVERSION, CURL_SSLVERSION_TLSv1_2);
    if (r->ca_file != NULL) {
        /* This authority, and none of those that the system knows. */
        curl_easy_setopt(curl, CURLOPT_CAINFO, r->ca_file);
        curl_easy_setopt(curl, CURLOPT_CAPATH, NULL);
    }
    if (r->login != NULL) {
        curl_easy_setopt(curl, CURLOPT_USERNAME, r->login);
        curl_easy_setopt(curl, CURLOPT_PASSWORD, r->password);
    }
}

static void
set_times(CURL *curl, long seconds)
{
    curl_easy_setopt(curl, CURLOPT_NOSIGNAL, 1L);
    curl_easy_setopt(curl, CURLOPT_TIMEOUT, seconds);
    curl_easy_setopt(curl, CURLOPT_SERVER_RESPONSE_TIMEOUT, seconds);
    curl_easy_setopt(curl, CURLOPT_CONNECTTIMEOUT,
        seconds < CONNECT_SECONDS ? seconds : CONNECT_SECONDS);
}

static struct smtp *
smtp_open(const struct mail_route *r)
{
    struct smtp *smtp = calloc(1, sizeof *smtp);

    if (smtp == NULL || (smtp->curl = curl_easy_init()) == NULL) {
        free(smtp);
        return NULL;
    }
    set_server(smtp->curl, r);
    set_times(smtp->curl, r->timeout);
    curl_easy_setopt(smtp->curl, CURLOPT_UPLOAD, 1L);
    curl_easy_setopt(smtp->curl, CURLOPT_READFUNCTION, give);
    curl_easy_setopt(smtp->curl, CURLOPT_READDATA, smtp);
    curl_easy_setopt(smtp->curl, CURLOPT_DEBUGFUNCTION, overhear);
    curl_easy_setopt(smtp->curl, CURLOPT_DEBUGDATA, smtp);
    curl_easy_setopt(smtp->curl, CURLOPT_VERBOSE, 1L);
    curl_easy_setopt(smtp->curl, CURLOPT_ERRORBUFFER, smtp->error);
    return smtp;
}

/*
 * All is known of every message by now, and nothing depends on the answer to
 * the QUIT that closing says.  libcurl would wait for it as long as for a
 * message, and takes no other time for it: so it is to find that nothing comes
 * any more.
 */
static void
hear_no_more(CURL *curl)
{
    curl_socket_t s = CURL_SOCKET_BAD;

    if (curl_easy_getinfo(curl, CURLINFO_ACTIVESOCKET, &s) == CURLE_OK &&
        s != CURL_SOCKET_BAD)
        shutdown(s, SHUT_RD);
}

void
send_smtp_close(struct mail_session *s)
{
    struct smtp *smtp = s->kept;

    if (smtp == NULL)
        return;
    hear_no_more(smtp->curl);
    curl_easy_cleanup(smtp->curl);
    free(smtp);
    s->kept = NULL;
}

static CURLcode
transfer(struct smtp *smtp, const struct mail_envelope *e, const char *bytes,
    size_t len)
{
    struct curl_slist *to = curl_slist_append(NULL, e->to);

    if (to == NULL)
        return CURLE_OUT_OF_MEMORY;
    memset(&smtp->dialog, 0, sizeof smtp->dialog);
    smtp->error[0] = '\0';
    smtp->at = bytes;
    smtp->left = len;
    curl_easy_setopt(smtp->curl, CURLOPT_MAIL_FROM, e->from);
    curl_easy_setopt(smtp->curl, CURLOPT_MAIL_RCPT, to);
    curl_easy_setopt(smtp->curl, CURLOPT_INFILESIZE_LARGE, (curl_off_t)len);
    CURLcode code = curl_easy_perform(smtp->curl);
    curl_easy_setopt(smtp->curl, CURLOPT_MAIL_RCPT, NULL);
    curl_slist_free_all(to);
    return code;
}

/* Nonzero when the connection was an old one that the server had closed, or
 * is closing, and no part of the message had gone out. */
static int
was_stale(const struct smtp *smtp, CURLcode code)
{
    const struct smtp_dialog *d = &smtp->dialog;
    long connects = 0;

    curl_easy_getinfo(smtp->curl, CURLINFO_NUM_CONNECTS, &connects);
    return code != CURLE_OK && connects == 0 &&
           code != CURLE_OPERATION_TIMEDOUT && d->step < SMTP_MESSAGE &&
           (d->code == 0 || d->code == 421);
}

/* What to do about it, to end a sentence. */
static const char *
advice(CURLcode code)
{
    static const struct {
        CURLcode code;
        const char *text;
    } known[] = {
        {CURLE_LOGIN_DENIED, "; check login and password-file"},
        {CURLE_USE_SSL_FAILED,
            "; it does not offer STARTTLS: check the port, and tls"},
        {CURLE_SSL_CONNECT_ERROR, "; check the port, and tls"},
        {CURLE_PEER_FAILED_VERIFICATION,
            "; check the name of the server, its certificate, and ca-file"},
        {CURLE_SSL_CACERT_BADFILE, "; check ca-file"},
        {CURLE_COULDNT_RESOLVE_HOST, "; check its name in the fleet file"},
        {CURLE_COULDNT_CONNECT, "; check that it is up, and the port"},
    };

    for (size_t i = 0; i < sizeof known / sizeof *known; i++)
        if (known[i].code == code)
            return known[i].text;
    return "";
}

/*
 * Say what came of it.  Nobody is to lose a message because of what ails the
 * server or our account there: only what it says of this message is final.
 */
static void
say(const struct smtp *smtp, const char *server, CURLcode code, struct fault *f)
{
    const struct smtp_dialog *d = &smtp->dialog;
    const char *why = smtp->error[0] ? smtp->error : curl_easy_strerror(code);

    if (smtp_dialog_refused(d))
        fault_fill(f, EX_UNAVAILABLE, "%s refused %s: %s", server,
            smtp_dialog_about(d), d->reply);
    else if (d->code >= 400)
        fault_fill(f, EX_TEMPFAIL, "%s put off %s: %s%s", server,
            smtp_dialog_about(d), d->reply, advice(code));
    else if (d->step == SMTP_MESSAGE)
        fault_fill(f, EX_TEMPFAIL,
            "%s did not say whether it took the message, so it may come twice: "
            "%s",
            server, why);
    else
        fault_fill(f, EX_TEMPFAIL, "%s failed at %s: %s%s", server,
            smtp_dialog_about(d), why, advice(code));
}

/* Send by the connection at hand, or else a new one: 0 with @code set, or -1
 * when memory is out. */
static int
attempt(struct mail_session *s, const struct mail_envelope *e,
    const char *bytes, size_t len, CURLcode *code)
{
    if (s->kept == NULL)
        s->kept = smtp_open(s->route);
    if (s->kept == NULL)
        return -1;
    *code = transfer(s->kept, e, bytes, len);
    return 0;
}

int
send_smtp(struct mail_session *s, const struct mail_envelope *e,
    const char *bytes, size_t len, struct fault *f)
{
    CURLcode code = CURLE_OK;
    int failed = attempt(s, e, bytes, len, &code);

    if (!failed && was_stale(s->kept, code)) {
        send_smtp_close(s);
        failed = attempt(s, e, bytes, len, &code);
    }
    if (failed)
        return fault_set(f, EX_TEMPFAIL, "out of memory");
    if (code == CURLE_OK)
        return 0;
    const struct smtp *smtp = s->kept;
    s->down = smtp->dialog.step < SMTP_SENDER;
    s->slow = code == CURLE_OPERATION_TIMEDOUT;
    say(smtp, s->route->argument, code, f);
    /* What the server says late would be taken for the answer to another
     * message. */
    send_smtp_close(s);
    return -1;
}
