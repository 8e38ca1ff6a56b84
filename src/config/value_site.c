#include "value.h"

#include "files.h"
#include "items.h"
#include "scan.h"
#include "server.h"
#include "source.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>
#include <sysexits.h>

#define WAIT_MOST 3600 /* seconds */

/* A name of tzdata: words of letters and so on, joined by slashes. */
static int
is_zone(const char *name)
{
    static const char allowed[] = "abcdefghijklmnopqrstuvwxyz"
                                  "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                  "0123456789-_+/";
    char path[256];
    char magic[4];

    if (name[0] == '/' || name[strspn(name, allowed)] != '\0')
        return 0;
    snprintf(path, sizeof path, "/usr/share/zoneinfo/%s", name);
    FILE *f = fopen(path, "re");
    if (f == NULL)
        return 0;
    size_t n = fread(magic, 1, sizeof magic, f);
    fclose(f);
    return n == sizeof magic && memcmp(magic, "TZif", sizeof magic) == 0;
}

void
value_zone(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    const char *name = reading_text(r, e);

    (void)k;
    if (name != NULL && !is_zone(name))
        reading_refuse(r, e, e->place,
            "'%s' is no time zone that this machine knows; "
            "expected a name of tzdata such as Europe/London",
            name);
    *(const char **)at = name;
}

/* One address as RFC 5321 has it, without the parts nobody uses, quoted local
 * parts and address literals, and without what could not be written to: a
 * program would take a hyphen in front for an option, and a List-Id, which has
 * the domain, is of names alone. */
static int
is_address(const char *text)
{
    static const char names[] = "abcdefghijklmnopqrstuvwxyz"
                                "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                "0123456789-._";
    const char *sign = strchr(text, '@');

    if (sign == NULL || sign == text || *text == '-')
        return 0;
    for (const char *c = text; *c != '\0'; c++)
        if (*c <= ' ' || *c > '~' || strchr("<>()[]\\,;:\"", *c))
            return 0;
    const char *domain = sign + 1;
    size_t len = strlen(text);
    return *domain != '\0' && domain[strspn(domain, names)] == '\0' &&
           *domain != '.' && text[len - 1] != '.' && text[0] != '.' &&
           sign[-1] != '.' && strstr(text, "..") == NULL && sign - text <= 64 &&
           len <= 254;
}

void
value_address(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    const char *text = reading_text(r, e);

    (void)k;
    if (text != NULL && !is_address(text))
        reading_refuse(r, e, e->place,
            "'%s' is not a mail address; expected one such as "
            "manager@skerrow.example and nothing around it",
            text);
    *(const char **)at = text;
}

/*
 * A URL of the web in the characters of RFC 3986 alone: what goes into a
 * calendar as it stands must hold nothing that ends a line or begins another.
 */
static int
is_url(const char *text)
{
    static const char allowed[] = "abcdefghijklmnopqrstuvwxyz"
                                  "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                  "0123456789-._~:/?#[]@!$&'()*+,;=%";
    const char *host = strstr(text, "://");

    if (host == NULL || text[strspn(text, allowed)] != '\0')
        return 0;
    size_t scheme = (size_t)(host - text);
    return ((scheme == 5 && strncasecmp(text, "https", 5) == 0) ||
               (scheme == 4 && strncasecmp(text, "http", 4) == 0)) &&
           strcspn(host + 3, "/?#") > 0;
}

void
value_url(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    const char *text = reading_text(r, e);

    if (text != NULL && !is_url(text))
        reading_refuse(r, e, e->place,
            "'%s' is not the address of a page; expected %s", text, k->form);
    *(const char **)at = text;
}

static const struct config_transport *
find_transport(const struct reading *r, const char *word)
{
    for (size_t i = 0; i < r->options->n_transports; i++)
        if (strcasecmp(r->options->transports[i].name, word) == 0)
            return &r->options->transports[i];
    return NULL;
}

/* The list of known ones, joined into @out. */
static const char *
transports_text(const struct reading *r, char *out, size_t size)
{
    size_t at = 0;

    out[0] = '\0';
    for (size_t i = 0; i < r->options->n_transports; i++) {
        const struct config_transport *t = &r->options->transports[i];
        int n = snprintf(out + at, size - at, "%s%s %s", at > 0 ? " or " : "",
            t->name, t->form);
        if (n < 0 || (size_t)n >= size - at)
            break;
        at += (size_t)n;
    }
    return out;
}

void
value_transport(
    struct reading *r, const struct key *k, struct entry *e, void *at)
{
    struct mail_settings *mail = at;
    const char *text = reading_text(r, e);
    char word[ITEM_SIZE];
    char known[ITEM_SIZE];
    struct server server;
    size_t len;

    (void)k;
    if (text == NULL)
        return;
    struct scan s = scan_start(text);
    const struct config_transport *t =
        scan_any(&s, word, sizeof word) ? find_transport(r, word) : NULL;
    const char *argument = scan_rest(&s, &len);
    if (t == NULL || len == 0) {
        reading_refuse(r, e, e->place,
            "'%s' is no way to send mail; expected %s", text,
            transports_text(r, known, sizeof known));
        return;
    }
    if (t->takes_server && server_parse(argument, &server)) {
        reading_refuse(r, e, e->place,
            "'%s' is no server; expected one such as "
            "mail.skerrow.example:587",
            argument);
        return;
    }
    mail->transport = reading_copy(r, t->name, strlen(t->name));
    mail->argument = t->takes_server
                         ? argument
                         : files_path(r->document, e->place.file, argument);
}

void
value_host(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    const char *name = reading_text(r, e);

    (void)k;
    if (name != NULL && !server_is_name(name))
        reading_refuse(r, e, e->place,
            "'%s' is no name of a host; expected one such as "
            "buses.skerrow.example",
            name);
    *(const char **)at = name;
}

void
value_wait(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    static const char *const units[] = {
        "second", "seconds", "minute", "minutes", NULL};
    const char *text = reading_text(r, e);
    int64_t n;

    (void)k;
    if (text == NULL)
        return;
    struct scan s = scan_start(text);
    int ok = scan_number(&s, 1, WAIT_MOST, &n);
    int unit = ok ? scan_choice(&s, units) : -1;
    if (unit >= 2)
        n *= 60;
    if (unit < 0 || !scan_end(&s) || n > WAIT_MOST)
        reading_refuse(r, e, e->place,
            "'%s' is not a time to wait; expected N seconds|minutes, an hour "
            "at most",
            text);
    else
        *(int64_t *)at = n;
}

/* Neither the secret nor the path is shown: somebody may have written the one
 * where the other belongs. */
void
value_secret(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    char secret[SECRET_MOST + 1];
    struct fault fault;

    value_path(r, k, e, at);
    const char *path = *(const char **)at;
    if (path == NULL)
        return;
    int bad = source_secret(path, secret, &fault);
    explicit_bzero(secret, sizeof secret);
    if (!bad)
        return;
    if (fault.code == EX_NOINPUT || fault.code == EX_NOPERM)
        reading_warning(r, e->place,
            "'%s': the file %s; whoever uses it must be able to", e->key,
            fault.text);
    else
        reading_refuse(r, e, e->place, "the file %s", fault.text);
}
