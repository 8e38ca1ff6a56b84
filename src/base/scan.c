#include "scan.h"

#include "num.h"

#include <string.h>
#include <strings.h>

static int
is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

static int
stands_alone(char c)
{
    return c == ',' || c == ':';
}

struct scan
scan_start(const char *text)
{
    return (struct scan){text};
}

/* A comma or a colon is a word by itself, with or without blanks around it. */
const char *
scan_peek(struct scan *s, size_t *len)
{
    while (is_blank(*s->at))
        s->at++;
    const char *end = s->at;
    if (stands_alone(*end))
        end++;
    else
        while (*end != '\0' && !is_blank(*end) && !stands_alone(*end))
            end++;
    *len = (size_t)(end - s->at);
    return s->at;
}

int
scan_word(struct scan *s, const char *word)
{
    size_t len;
    const char *next = scan_peek(s, &len);

    if (len != strlen(word) || strncasecmp(next, word, len) != 0)
        return 0;
    s->at += len;
    return 1;
}

int
scan_any(struct scan *s, char *word, size_t size)
{
    size_t len;
    const char *next = scan_peek(s, &len);

    if (len == 0 || len >= size)
        return 0;
    memcpy(word, next, len);
    word[len] = '\0';
    s->at += len;
    return 1;
}

int
scan_number(struct scan *s, int64_t min, int64_t max, int64_t *n)
{
    size_t len;
    const char *next = scan_peek(s, &len);

    if (num_parse(next, len, min, max, n))
        return 0;
    s->at += len;
    return 1;
}

int
scan_choice(struct scan *s, const char *const *words)
{
    for (int i = 0; words[i] != NULL; i++)
        if (scan_word(s, words[i]))
            return i;
    return -1;
}

const char *
scan_rest(struct scan *s, size_t *len)
{
    size_t first;
    const char *rest = scan_peek(s, &first);

    *len = strlen(rest);
    while (*len > 0 && is_blank(rest[*len - 1]))
        --*len;
    s->at = rest + *len;
    return rest;
}

int
scan_end(struct scan *s)
{
    size_t len;

    scan_peek(s, &len);
    return len == 0;
}
