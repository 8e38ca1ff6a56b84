#include "server.h"

#include "num.h"

#include <arpa/inet.h>
#include <string.h>
#include <strings.h>

int
server_is_name(const char *name)
{
    static const char allowed[] = "abcdefghijklmnopqrstuvwxyz"
                                  "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                  "0123456789-.";
    size_t len = strlen(name);

    return len > 0 && len <= 253 && name[strspn(name, allowed)] == '\0' &&
           name[0] != '.' && name[0] != '-' && name[len - 1] != '.' &&
           strstr(name, "..") == NULL;
}

/* "[::1]" without its brackets is an address. */
static int
is_ipv6(const char *host)
{
    char address[INET6_ADDRSTRLEN];
    struct in6_addr ignored;
    size_t len = strlen(host);

    if (host[0] != '[' || len < 3 || host[len - 1] != ']' ||
        len - 2 >= sizeof address)
        return 0;
    memcpy(address, host + 1, len - 2);
    address[len - 2] = '\0';
    return inet_pton(AF_INET6, address, &ignored) == 1;
}

int
server_parse(const char *text, struct server *out)
{
    const char *end = text[0] == '[' ? strchr(text, ']') : NULL;
    const char *colon = strchr(end ? end : text, ':');
    size_t len = colon ? (size_t)(colon - text) : strlen(text);
    int64_t port = 0;

    if (len >= sizeof out->host)
        return -1;
    memcpy(out->host, text, len);
    out->host[len] = '\0';
    if (!server_is_name(out->host) && !is_ipv6(out->host))
        return -1;
    if (colon && num_parse(colon + 1, strlen(colon + 1), 1, 65535, &port))
        return -1;
    out->port = (int)port;
    return 0;
}

int
server_is_loopback(const struct server *s)
{
    struct in_addr four;

    if (inet_pton(AF_INET, s->host, &four) == 1)
        return ntohl(four.s_addr) >> 24 == 127;
    return strcasecmp(s->host, "localhost") == 0 ||
           strcmp(s->host, "[::1]") == 0;
}
