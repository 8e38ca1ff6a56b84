#include "etag.h"

#include <string.h>

static const char *
skip(const char *at, const char *what)
{
    return at + strspn(at, what);
}

int
etag_listed(const char *list, const char *etag, int weak)
{
    size_t len = strlen(etag);
    const char *at = skip(list, " \t,");

    if (*at == '*')
        return *skip(at + 1, " \t") == '\0';
    while (*at != '\0') {
        int is_weak = strncmp(at, "W/", 2) == 0;
        at += is_weak ? 2 : 0;
        const char *end = *at == '"' ? strchr(at + 1, '"') : NULL;
        if (end == NULL)
            return 0;
        end++;
        if ((weak || !is_weak) && (size_t)(end - at) == len &&
            memcmp(at, etag, len) == 0)
            return 1;
        at = skip(end, " \t");
        if (*at != ',' && *at != '\0')
            return 0;
        at = skip(at, " \t,");
    }
    return 0;
}
