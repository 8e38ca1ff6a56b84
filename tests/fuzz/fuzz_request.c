/*
 * Sends what a coverage-guided fuzzer makes up to the server, a connection an
 * input: requests from their first line to the form that is answered, in pieces
 * as talk.h has it.
 *
 * What must hold: the server lives and ends each connection; what comes back is
 * answers of ours and nothing else; what stands behind another key is never
 * among them, what stands behind the key only where the key was sent, and no
 * key is in the log.
 */
#include "answers.h"
#include "http_server.h"
#include "must.h"
#include "talk.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/random.h>
#include <sys/socket.h>
#include <unistd.h>

#define KEY "mnbvcxzlkjhgfdsapoiuytrewq765432"
#define FEED "BEGIN:VCALENDAR the feed"
#define PAGE "<!doctype html> the page, with a form"
#define OPEN "User-agent: *"
#define TAKEN "<!doctype html> taken"
#define SECRET "BEGIN:VCALENDAR whose key nobody has"

enum {
    MOST = 1 << 20,   /* bytes of all answers on one connection */
    PROBED_EACH = 256 /* inputs */
};

struct world {
    struct http_server *server;
    struct talk_peer peer;
    unsigned inputs;
    char got[MOST];
};

/* --- The log, of every line; the server's own keeps five a second. -------- */

struct limited_log *
limited_log_new(http_log *log, void *context)
{
    (void)log;
    (void)context;
    return malloc(1);
}

void
limited_log_free(struct limited_log *n)
{
    free(n);
}

void
limited_log_add(struct limited_log *n, const char *format, ...)
{
    char line[256];
    va_list args;

    (void)n;
    va_start(args, format);
    int len = vsnprintf(line, sizeof line, format, args);
    va_end(args);
    must(len > 0 && len < (int)sizeof line, "a line that does not fit");
    must(strstr(line, KEY) == NULL, "a key in the log");
    for (const char *c = line; *c != '\0'; c++)
        must(*c >= ' ' && *c < 0x7f, "a line with odd bytes");
}

void
limited_log_second(struct limited_log *n)
{
    (void)n;
}

/* --- The server ----------------------------------------------------------- */

static void
put(struct routes *s, const uint8_t *hash, const char *path, const char *text)
{
    const struct resource_facts facts = {.modified = 784111777};
    struct resource *r = resource_new(&facts, text, strlen(text));

    must(r != NULL && routes_add(s, path, r) == 0, "no memory");
    resource_drop(r);
    if (hash != NULL)
        must(routes_grant(s, hash, path) == 0, "no memory");
}

static struct routes *
fill(void)
{
    struct routes *s = routes_new();
    uint8_t hash[KEY_HASH];
    uint8_t nobody[KEY_HASH];

    must(s != NULL, "no memory");
    key_hash(KEY, strlen(KEY), hash);
    /* No key is known that hashes to this. */
    must(getrandom(nobody, sizeof nobody, 0) == sizeof nobody, "no chance");
    put(s, NULL, "/robots.txt", OPEN);
    put(s, hash, "/calendar/*/a.ics", FEED);
    put(s, hash, "/page/*/a", PAGE);
    put(s, nobody, "/calendar/*/b.ics", SECRET);
    must(routes_accept(s, "/page/*/a") == 0, "no memory");
    must(routes_accept(s, "/page/*/b") == 0, "no memory");
    must(routes_grant(s, nobody, "/page/*/b") == 0, "no memory");
    return s;
}

/* On a Unix socket whose name the system makes up, in no folder. */
static int
listen_somewhere(struct talk_peer *p)
{
    int fd = socket(AF_UNIX, SOCK_STREAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0);

    p->where.sun_family = AF_UNIX;
    p->len = sizeof p->where;
    must(fd >= 0 &&
             bind(fd, (const struct sockaddr *)&p->where,
                 sizeof p->where.sun_family) == 0 &&
             listen(fd, 64) == 0 &&
             getsockname(fd, (struct sockaddr *)&p->where, &p->len) == 0,
        "no socket");
    return fd;
}

/* Look at all that there is to a form, and answer it. */
static void
answer(struct http_request *r)
{
    const struct resource_facts facts = {.status = 422, .cache = "no-store"};
    uint8_t hash[KEY_HASH];
    char from[ADDRESS_TEXT];
    struct address address = http_request_from(r);
    const char *value = http_form_value(http_request_form(r), "a");

    key_hash(KEY, strlen(KEY), hash);
    must(strcmp(http_request_path(r), "/page/*/a") == 0 &&
             key_same(http_request_key(r), hash),
        "a form where none is taken");
    must(value == NULL || strlen(value) <= HTTP_FORM_MOST, "a long value");
    address_print(&address, from);
    must(address_parse(from, strlen(from), &address) == 0, "no address");
    http_request_answer(r, http_request_is_own(r)
                               ? resource_new(&facts, TAKEN, strlen(TAKEN))
                               : NULL);
}

static void
answer_all(void *world)
{
    const struct world *w = world;
    struct http_request *r;

    while ((r = http_server_next_post(w->server)) != NULL)
        answer(r);
}

static struct world *
begin(void)
{
    static const char *const proxies[] = {"unix", NULL};
    struct world *w = calloc(1, sizeof *w);
    struct fault f;

    must(w != NULL, "no memory");
    int fd = listen_somewhere(&w->peer);
    const struct http_options options = {
        .sockets = &fd, .n_sockets = 1, .proxies = proxies};
    w->server = http_server_start(&options, fill(), &f);
    must(w->server != NULL, "no server");
    w->peer.wakes = http_server_posted(w->server);
    w->peer.work = answer_all;
    w->peer.context = w;
    return w;
}

/* --- What must hold ------------------------------------------------------- */

static int
has(const void *text, size_t len, const char *what)
{
    return memmem(text, len, what, strlen(what)) != NULL;
}

/* Whether the key was sent, in how many pieces so ever. */
static int
has_key(const uint8_t *data, size_t len)
{
    char *sent = malloc(len + 1);
    size_t n = 0;

    must(sent != NULL, "no memory");
    for (size_t i = 0; i < len; i++)
        if (data[i] != TALK_WAIT)
            sent[n++] = (char)data[i];
    int has_it = has(sent, n, KEY);
    free(sent);
    return has_it;
}

static void
check(const struct world *w, size_t got, const uint8_t *data, size_t len)
{
    /* What ours are stands in error_responses.c; the others are the library's.
     */
    static const struct answer_kind kinds[] = {
        {200, OPEN},
        {200, FEED},
        {200, PAGE},
        {304, NULL},
        {400, "Bad request\n"},
        {404, "Not found\n"},
        {405, "Method not allowed\n"},
        {412, "Precondition failed\n"},
        {413, "Too large\n"},
        {414, "Address too long\n"},
        {415, "Not a form\n"},
        {422, TAKEN},
        {503, "Not now\n"},
        {505, "Only HTTP/1.0 and HTTP/1.1\n"},
        {400, NULL},
        {413, NULL},
        {414, NULL},
        {431, NULL},
        {505, NULL},
    };
    const char *wrong =
        answers_wrong(w->got, got, kinds, sizeof kinds / sizeof *kinds);

    if (wrong != NULL)
        fprintf(stderr, "%.*s\n", (int)got, w->got);
    must(wrong == NULL, wrong);
    must(!has(w->got, got, SECRET), "the secret");
    must(!has(w->got, got, KEY), "a key in an answer");
    if (has(w->got, got, FEED) || has(w->got, got, PAGE) ||
        has(w->got, got, TAKEN))
        must(has_key(data, len), "a feed or a page without its key");
}

/* Whoever asks as one should is served. */
static void
probe(struct world *w)
{
    static const char ask[] = "GET /calendar/" KEY "/a.ics HTTP/1.1\r\n"
                              "Host: x\r\n\r\n";
    size_t got =
        talk(&w->peer, (const uint8_t *)ask, sizeof ask - 1, w->got, MOST);

    must(got > 13 && memcmp(w->got, "HTTP/1.1 200 ", 13) == 0 &&
             has(w->got, got, FEED),
        "the feed is served no more");
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static struct world *w;

    if (w == NULL)
        w = begin();
    size_t got = talk(&w->peer, data, size, w->got, MOST);
    check(w, got, data, size);
    if (++w->inputs % PROBED_EACH == 0)
        probe(w);
    return 0;
}
