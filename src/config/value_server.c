#include "value.h"

#include "files.h"
#include "items.h"
#include "num.h"
#include "scan.h"
#include "server.h"
#include "source.h"

#include <arpa/inet.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>
#include <sysexits.h>

#define SOCKET_PATH_MOST 107 /* bytes; unix(7) */
#define PROXIES_MOST 16

/* A name of tzdata: words of letters and so on, joined by slashes. */
int
value_is_zone(const char *name)
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

/* One address as RFC 5321 has it, without the parts nobody uses, quoted local
 * parts and address literals, and without what could not be written to: a
 * program would take a hyphen in front for an option, and a List-Id, which has
 * the domain, is of names alone. */
int
value_is_mail_address(const char *text)
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

/*
 * A URL of the web in the characters of RFC 3986 alone: what goes into a
 * calendar as it stands must hold nothing that ends a line or begins another.
 */
int
value_is_url(const char *text)
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

/* An address of IPv4 or IPv6 in @len bytes. */
static int
is_address(const char *text, size_t len)
{
    char host[INET6_ADDRSTRLEN];
    unsigned char bytes[16];

    if (len >= sizeof host)
        return 0;
    memcpy(host, text, len);
    host[len] = '\0';
    return inet_pton(AF_INET, host, bytes) == 1 ||
           inet_pton(AF_INET6, host, bytes) == 1;
}

/* "127.0.0.1:8080", "[::1]:8080" or "unix:/run/ostler/http.sock". */
int
value_is_listener(const char *text)
{
    const char *colon = strrchr(text, ':');
    int64_t port;

    if (strncmp(text, "unix:", 5) == 0)
        return text[5] == '/' && strlen(text + 5) <= SOCKET_PATH_MOST;
    if (colon == NULL ||
        num_parse(colon + 1, strlen(colon + 1), 0, 65535, &port))
        return 0;
    size_t len = (size_t)(colon - text);
    if (len > 2 && text[0] == '[' && text[len - 1] == ']')
        return is_address(text + 1, len - 2);
    return memchr(text, ':', len) == NULL && is_address(text, len);
}

VALUE_PARSER(parse_path)
{
    const char *path = context_text(r, e);

    if (path != NULL)
        *(const char **)at = files_path(r->document, e->place.file, path);
}

VALUE_FORMATTER(format_path)
{
    const char *path = *(const char *const *)at;

    if (path == NULL)
        value_format_unset(k, out);
    else
        buf_text(out, path);
}

const struct value_type value_path = {
    .parse = parse_path, .format = format_path};

/* Neither the secret nor the path is shown: somebody may have written the one
 * where the other belongs. */
VALUE_PARSER(parse_secret)
{
    char secret[SECRET_MOST + 1];
    struct fault fault;

    parse_path(r, k, e, at);
    const char *path = *(const char **)at;
    if (path == NULL)
        return;
    int bad = source_secret(path, secret, &fault);
    explicit_bzero(secret, sizeof secret);
    if (!bad)
        return;
    if (fault.code == EX_NOINPUT || fault.code == EX_NOPERM)
        context_warning(r, e->place,
            "'%s': the file %s; whoever uses it must be able to", e->key,
            fault.text);
    else
        context_refuse(r, e, e->place, "the file %s", fault.text);
}

const struct value_type value_secret = {
    .parse = parse_secret, .format = format_path};

static const struct config_transport *
find_transport(const struct load_context *r, const char *word)
{
    for (size_t i = 0; i < r->options->n_transports; i++)
        if (strcasecmp(r->options->transports[i].name, word) == 0)
            return &r->options->transports[i];
    return NULL;
}

/* The list of known ones, joined into @out. */
static const char *
transports_text(const struct load_context *r, char *out, size_t size)
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

VALUE_PARSER(parse_transport)
{
    struct mail_settings *mail = at;
    const char *text = context_text(r, e);
    char word[ITEM_SIZE];
    char known[ITEM_SIZE];
    struct server server;
    size_t len;

    if (text == NULL)
        return;
    struct scan s = scan_start(text);
    const struct config_transport *t =
        scan_any(&s, word, sizeof word) ? find_transport(r, word) : NULL;
    const char *argument = scan_rest(&s, &len);
    if (t == NULL || len == 0) {
        context_refuse(r, e, e->place,
            "'%s' is no way to send mail; expected %s", text,
            transports_text(r, known, sizeof known));
        return;
    }
    if (t->takes_server && server_parse(argument, &server)) {
        context_refuse(r, e, e->place,
            "'%s' is no server; expected one such as "
            "mail.skerrow.example:587",
            argument);
        return;
    }
    mail->transport = context_copy(r, t->name, strlen(t->name));
    mail->argument = t->takes_server
                         ? argument
                         : files_path(r->document, e->place.file, argument);
}

VALUE_FORMATTER(format_transport)
{
    const struct mail_settings *m = at;

    buf_print(out, "%s %s", m->transport, m->argument);
}

const struct value_type value_transport = {
    .parse = parse_transport, .format = format_transport};

VALUE_PARSER(parse_proxies)
{
    size_t n = items_count(e, ITEMS_WORDS);
    const char **list = context_take(r, (n + 1) * sizeof *list);
    struct items item = items_of(e, ITEMS_WORDS);

    if (list == NULL)
        return;
    if (n > PROXIES_MOST)
        context_refuse(r, e, e->place, "no more than %d proxies are possible",
            PROXIES_MOST);
    for (size_t i = 0; items_next(&item); i++) {
        if (strcmp(item.text, "unix") != 0 &&
            !is_address(item.text, strlen(item.text)))
            context_refuse(r, e, item.place,
                "'%s' is no address of a proxy; expected %s", item.text,
                k->form);
        list[i] = context_copy(r, item.text, strlen(item.text));
    }
    *(const char *const **)at = list;
}

const struct value_type value_proxies = {.parse = parse_proxies};
