/*
 * serve KEY [NAME=VALUE...]: a server for the scenarios and the benchmark, of
 * made-up feeds that KEY opens.  It prints where it listens, and reads commands
 * from its standard input: "next" shows the next version of every feed, "stop"
 * or the end of the input stops it.  Its log goes to the standard error.
 *
 * Names: listen (127.0.0.1:0), connections, per_address, seconds, proxy, and
 * slow_forms=1, which leaves forms unanswered until "answer".
 */
#include "http_listen.h"
#include "http_server.h"

#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* 2026-12-02T06:00:00Z */
#define START 1796191200

struct setting {
    const char *listen;
    const char *proxies[2];
    struct http_options options;
    int slow_forms;
};

static void
log_line(void *context, const char *line)
{
    (void)context;
    fprintf(stderr, "%s\n", line);
}

/* A feed of @len bytes, whose first line tells its version. */
static int
add_feed(struct routes *s, const char *path, size_t len, int version)
{
    const struct resource_facts facts = {
        .type = "text/calendar; charset=utf-8",
        .modified = START + version,
    };
    char first[64];
    int n =
        snprintf(first, sizeof first, "BEGIN:VCALENDAR version %d\n", version);
    char *bytes = malloc(len + 1);

    if (bytes == NULL)
        return -1;
    memset(bytes, 'x', len);
    memcpy(bytes, first, len < (size_t)n ? len : (size_t)n);
    struct resource *r = resource_new(&facts, bytes, len);
    free(bytes);
    int rc = r ? routes_add(s, path, r) : -1;
    resource_drop(r);
    return rc;
}

static int
add_text(struct routes *s, const char *path, unsigned status, const char *text)
{
    const struct resource_facts facts = {
        .status = status,
        .cache = "no-cache",
    };
    struct resource *r = resource_new(&facts, text, strlen(text));
    int rc = r ? routes_add(s, path, r) : -1;

    resource_drop(r);
    return rc;
}

static struct routes *
fill(const char *key, int version)
{
    static const char *const open[] = {"/calendar/*/small.ics",
        "/calendar/*/large.ics", "/calendar/*/huge.ics", "/workshop/*/",
        "/workshop/*/record", "/calendar/*/empty.ics"};
    uint8_t hash[KEY_HASH];
    struct routes *s = routes_new();

    key_hash(key, strlen(key), hash);
    int rc = s == NULL || add_feed(s, open[0], 8192, version) ||
             add_feed(s, open[1], 1048576, version) ||
             add_feed(s, open[2], 4194304, version) ||
             add_feed(s, open[5], 0, version) ||
             add_feed(s, "/calendar/*/other.ics", 100, version) ||
             add_text(s, open[3], 200, "a page\n") ||
             routes_accept(s, open[3]) || routes_accept(s, open[4]) ||
             add_text(s, "/health", version < 2 ? 200 : 503, "pass: today\n") ||
             add_text(s, "/robots.txt", 200, "User-agent: *\nDisallow:\n");
    for (size_t i = 0; rc == 0 && i < sizeof open / sizeof *open; i++)
        rc = routes_grant(s, hash, open[i]);
    if (rc == 0)
        return s;
    routes_free(s);
    return NULL;
}

/* Answer a form with what it holds. */
static void
answer(struct http_request *r)
{
    const struct resource_facts facts = {
        .status = 200,
        .cache = "no-store",
    };
    char text[2048];
    char from[ADDRESS_TEXT];
    struct address address = http_request_from(r);
    const char *job = http_form_value(http_request_form(r), "job");

    address_print(&address, from);
    int n = snprintf(text, sizeof text,
        "path=%s key=%02x%02x job=%.1000s own=%d from=%s\n",
        http_request_path(r), http_request_key(r)[0], http_request_key(r)[1],
        job ? job : "(none)", http_request_is_own(r), from);
    http_request_answer(r, resource_new(&facts, text, (size_t)n));
}

static void
read_setting(struct setting *s, const char *name, const char *value)
{
    if (strcmp(name, "listen") == 0)
        s->listen = value;
    else if (strcmp(name, "proxy") == 0)
        s->proxies[0] = value;
    else if (strcmp(name, "connections") == 0)
        s->options.connections = (unsigned)atoi(value);
    else if (strcmp(name, "per_address") == 0)
        s->options.per_address = (unsigned)atoi(value);
    else if (strcmp(name, "seconds") == 0)
        s->options.seconds = (unsigned)atoi(value);
    else if (strcmp(name, "slow_forms") == 0)
        s->slow_forms = atoi(value);
}

/* Nonzero when a command is to stop. */
static int
obey(struct http_server *server, const char *key, int *version)
{
    char line[64];

    if (fgets(line, sizeof line, stdin) == NULL || line[0] == 's')
        return 1;
    if (line[0] == 'n') {
        struct routes *next = fill(key, ++*version);
        if (next == NULL)
            return 1;
        http_server_show(server, next);
        puts("shown");
    } else {
        struct http_request *r = http_server_next_post(server);
        if (r != NULL)
            answer(r);
        puts("answered");
    }
    fflush(stdout);
    return 0;
}

static void
run(struct http_server *server, const struct setting *s, const char *key)
{
    struct pollfd fds[] = {{.fd = STDIN_FILENO, .events = POLLIN},
        {.fd = http_server_posted(server), .events = POLLIN}};
    int version = 0;

    for (;;) {
        struct http_request *r;
        if (poll(fds, s->slow_forms ? 1 : 2, -1) < 0)
            return;
        while (!s->slow_forms && (r = http_server_next_post(server)) != NULL)
            answer(r);
        if (fds[0].revents != 0 && obey(server, key, &version))
            return;
    }
}

int
main(int argc, char **argv)
{
    struct setting s = {.listen = "127.0.0.1:0"};
    struct fault f;
    char where[HTTP_LISTEN_TEXT];

    for (int i = 2; i < argc; i++) {
        char *equals = strchr(argv[i], '=');
        if (equals == NULL)
            return 64;
        *equals = '\0';
        read_setting(&s, argv[i], equals + 1);
    }
    int socket = argc < 2 ? -1 : http_listen(s.listen, &f);
    if (socket < 0) {
        fprintf(stderr, "serve: %s\n", argc < 2 ? "no key" : f.text);
        return 1;
    }
    http_listen_print(socket, where);
    setvbuf(stdin, NULL, _IONBF, 0);
    s.options.sockets = &socket;
    s.options.n_sockets = 1;
    s.options.proxies = s.proxies;
    s.options.log = log_line;
    struct routes *first = fill(argv[1], 0);
    struct http_server *server =
        first ? http_server_start(&s.options, first, &f) : NULL;
    if (server == NULL) {
        fprintf(stderr, "serve: cannot start\n");
        return 1;
    }
    printf("%s\n", where);
    fflush(stdout);
    run(server, &s, argv[1]);
    http_server_stop(server);
    puts("stopped");
    return 0;
}
