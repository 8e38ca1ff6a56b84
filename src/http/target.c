#include "target.h"

#include <string.h>
#include <strings.h>

static const char segment_bytes[] =
    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789._-";

/* Past "http://host" of a target in absolute form, which RFC 9112 section
 * 3.2.2 has servers accept; NULL when what stands before the path is wrong. */
static const char *
skip_authority(const char *raw)
{
    if (*raw == '/')
        return raw;
    if (strncasecmp(raw, "http://", 7) != 0 &&
        strncasecmp(raw, "https://", 8) != 0)
        return NULL;
    const char *host = strchr(raw, ':') + 3;
    size_t len = strcspn(host, "/?");
    return len > 0 ? host + len : NULL;
}

static int
is_query(const char *at)
{
    for (; *at > ' ' && *at < 0x7f; at++)
        if (*at == '#')
            return 0;
    return *at == '\0';
}

/* The length of the path at @at, or 0 when it is none. */
static size_t
path_length(const char *at)
{
    const char *start = at;

    while (*at == '/') {
        at++;
        size_t n = strspn(at, segment_bytes);
        if (*at == '.' || (n == 0 && *at == '/'))
            return 0;
        at += n;
    }
    return *at == '\0' || (*at == '?' && is_query(at)) ? (size_t)(at - start)
                                                       : 0;
}

static void
find_key(struct target *t)
{
    char *area_end = strchr(t->path + 1, '/');
    char *key_end = area_end ? strchr(area_end + 1, '/') : NULL;

    if (key_end == NULL)
        return;
    size_t area = (size_t)(area_end + 1 - t->path);
    t->key = area_end + 1;
    t->key_len = (size_t)(key_end - t->key);
    memcpy(t->pattern, t->path, area);
    t->pattern[area] = '*';
    memcpy(t->pattern + area + 1, key_end, strlen(key_end) + 1);
}

unsigned
target_read(const char *raw, struct target *out)
{
    const char *path = skip_authority(raw);

    out->path[0] = out->pattern[0] = '\0';
    out->key = NULL;
    out->key_len = 0;
    if (path == NULL)
        return 400;
    if (strcspn(path, "?") > TARGET_MOST)
        return 414;
    size_t len = path_length(path);
    if (len == 0)
        return 400;
    memcpy(out->path, path, len);
    out->path[len] = '\0';
    find_key(out);
    return 0;
}
