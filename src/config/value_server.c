#include "value.h"

#include "items.h"
#include "num.h"

#include <arpa/inet.h>
#include <string.h>

#define SOCKET_PATH_MOST 107 /* bytes; unix(7) */
#define PROXIES_MOST 16

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
static int
is_place(const char *text)
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

void
value_listen(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    const char *text = reading_text(r, e);

    if (text != NULL && !is_place(text))
        reading_refuse(r, e, e->place,
            "'%s' is no place to listen; expected %s, such as 127.0.0.1:8080",
            text, k->form);
    *(const char **)at = text;
}

void
value_proxies(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    size_t n = items_count(e, ITEMS_WORDS);
    const char **list = reading_take(r, (n + 1) * sizeof *list);
    struct items item = items_of(e, ITEMS_WORDS);

    if (list == NULL)
        return;
    if (n > PROXIES_MOST)
        reading_refuse(r, e, e->place, "no more than %d proxies are possible",
            PROXIES_MOST);
    for (size_t i = 0; items_next(&item); i++) {
        if (strcmp(item.text, "unix") != 0 &&
            !is_address(item.text, strlen(item.text)))
            reading_refuse(r, e, item.place,
                "'%s' is no address of a proxy; expected %s", item.text,
                k->form);
        list[i] = reading_copy(r, item.text, strlen(item.text));
    }
    *(const char *const **)at = list;
}

void
value_minute(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    const char *text = reading_text(r, e);
    int64_t hour;
    int64_t minute;

    if (text == NULL)
        return;
    if (strlen(text) != 5 || text[2] != ':' ||
        num_parse(text, 2, 0, 23, &hour) ||
        num_parse(text + 3, 2, 0, 59, &minute))
        reading_refuse(r, e, e->place,
            "'%s' is no time of day; expected %s, such as 07:00", text,
            k->form);
    else
        *(int64_t *)at = hour * 60 + minute;
}
