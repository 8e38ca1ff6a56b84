#include "address.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <stdio.h>
#include <string.h>

static const uint8_t mapped[12] = {0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0xff, 0xff};

static int
is_ipv4(const struct address *a)
{
    return memcmp(a->bytes, mapped, sizeof mapped) == 0;
}

struct address
address_of(const struct sockaddr *sa)
{
    struct address a = {{0}};

    if (sa != NULL && sa->sa_family == AF_INET) {
        const struct sockaddr_in *in = (const void *)sa;
        memcpy(a.bytes, mapped, sizeof mapped);
        memcpy(a.bytes + sizeof mapped, &in->sin_addr, 4);
    } else if (sa != NULL && sa->sa_family == AF_INET6) {
        const struct sockaddr_in6 *in6 = (const void *)sa;
        memcpy(a.bytes, &in6->sin6_addr, sizeof a.bytes);
    }
    return a;
}

int
address_parse(const char *text, size_t len, struct address *out)
{
    char copy[ADDRESS_TEXT];
    struct address a = {{0}};

    if (len >= sizeof copy)
        return -1;
    memcpy(copy, text, len);
    copy[len] = '\0';
    if (inet_pton(AF_INET, copy, a.bytes + sizeof mapped) == 1)
        memcpy(a.bytes, mapped, sizeof mapped);
    else if (strcmp(copy, "unix") != 0 &&
             inet_pton(AF_INET6, copy, a.bytes) != 1)
        return -1;
    *out = a;
    return 0;
}

void
address_print(const struct address *a, char out[ADDRESS_TEXT])
{
    static const struct address none = {{0}};

    if (address_same(a, &none))
        snprintf(out, ADDRESS_TEXT, "unix");
    else if (is_ipv4(a))
        inet_ntop(AF_INET, a->bytes + sizeof mapped, out, ADDRESS_TEXT);
    else
        inet_ntop(AF_INET6, a->bytes, out, ADDRESS_TEXT);
}

int
address_same(const struct address *a, const struct address *b)
{
    return memcmp(a->bytes, b->bytes, sizeof a->bytes) == 0;
}

int
address_near(const struct address *a, const struct address *b)
{
    static const uint8_t zero[8] = {0};

    /* So begin ::1, the IPv4 addresses, and that of a Unix socket: each is a
     * client of its own. */
    int is_whole = memcmp(a->bytes, zero, sizeof zero) == 0;
    return memcmp(a->bytes, b->bytes, is_whole ? 16 : 8) == 0;
}

static int
is_one_of(const struct address *a, const struct address *list, size_t n)
{
    for (size_t i = 0; i < n; i++)
        if (address_same(a, &list[i]))
            return 1;
    return 0;
}

/* Take the last address off a list of *@len bytes. */
static int
take_last(const char *list, size_t *len, struct address *out)
{
    size_t end = *len;

    while (end > 0 && strchr(" \t,", list[end - 1]) != NULL)
        end--;
    size_t start = end;
    while (start > 0 && strchr(" \t,", list[start - 1]) == NULL)
        start--;
    *len = start;
    return address_parse(list + start, end - start, out);
}

struct address
address_forwarded(const struct address *peer, const char *field,
    const struct address *proxies, size_t n)
{
    struct address client = *peer;
    size_t left = field ? strlen(field) : 0;

    while (left > 0 && is_one_of(&client, proxies, n)) {
        struct address before;
        if (take_last(field, &left, &before))
            break;
        client = before;
    }
    return client;
}
