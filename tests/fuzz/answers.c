#include "answers.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

static const char version[] = "HTTP/1.1 ";

/* The head of an answer as it is read. */
struct head {
    int status;
    int lengths; /* how many fields say it */
    size_t length;
    int is_last; /* the connection ends with it */
};

static int
begins(const char *at, const char *end, const char *with)
{
    size_t len = strlen(with);

    return (size_t)(end - at) >= len && memcmp(at, with, len) == 0;
}

/* The end of the line at @at, or NULL when it has none, or a byte in it that
 * no line may have. */
static const char *
line_end(const char *at, const char *end)
{
    for (; at + 1 < end; at++) {
        if (at[0] == '\r')
            return at[1] == '\n' ? at : NULL;
        if ((*at >= 0 && *at < ' ' && *at != '\t') || *at == 0x7f)
            return NULL;
    }
    return NULL;
}

static const char *
read_status(const char *at, const char *end, struct head *h)
{
    const char *line = line_end(at, end);

    if (line == NULL || !begins(at, line, version))
        return NULL;
    at += sizeof version - 1;
    for (int i = 0; i < 3; i++, at++) {
        if (at == line || !isdigit((unsigned char)*at))
            return NULL;
        h->status = h->status * 10 + *at - '0';
    }
    return at < line && *at == ' ' ? line + 2 : NULL;
}

static int
read_length(const char *at, const char *line, struct head *h)
{
    h->lengths++;
    if (at == line || line - at > 9)
        return -1;
    for (; at < line; at++) {
        if (!isdigit((unsigned char)*at))
            return -1;
        h->length = h->length * 10 + (size_t)(*at - '0');
    }
    return 0;
}

/* A field: a name, a colon, a blank and the value. */
static const char *
read_field(const char *at, const char *end, struct head *h)
{
    const char *line = line_end(at, end);
    const char *name = at;

    if (line == NULL)
        return NULL;
    while (at < line && (isalnum((unsigned char)*at) || *at == '-'))
        at++;
    if (at == name || !begins(at, line, ": "))
        return NULL;
    if (begins(name, line, "Transfer-Encoding:"))
        return NULL;
    if (begins(name, line, "Content-Length:") && read_length(at + 2, line, h))
        return NULL;
    if (begins(name, line, "Connection: close"))
        h->is_last = 1;
    return line + 2;
}

static const char *
read_head(const char *at, const char *end, struct head *h)
{
    at = read_status(at, end, h);
    while (at != NULL && !begins(at, end, "\r\n"))
        at = read_field(at, end, h);
    return at ? at + 2 : NULL;
}

static int
fits(const struct answer_kind *k, const struct head *h, const char *body)
{
    if (k->status != h->status)
        return 0;
    if (k->body == NULL)
        return begins(body, body + h->length, "<html>");
    return strlen(k->body) == h->length &&
           memcmp(k->body, body, h->length) == 0;
}

/* Past the body.  That of an answer to HEAD, or of a 304, is not there: then
 * the next answer or the end stands in its place, as no body of ours begins. */
static const char *
read_body(const char *at, const char *end, const struct head *h,
    const struct answer_kind *kinds, size_t n)
{
    int is_absent = at == end || begins(at, end, version);

    if (is_absent || h->status == 304) {
        for (size_t i = 0; i < n; i++)
            if (kinds[i].status == h->status)
                return at;
        return NULL;
    }
    if ((size_t)(end - at) < h->length)
        return NULL;
    for (size_t i = 0; i < n; i++)
        if (fits(&kinds[i], h, at))
            return at + h->length;
    return NULL;
}

/*
 * libmicrohttpd 0.9.75 writes the head of its answer to a Content-Length that
 * is none twice, and nobody is asked before.  It is the last on the connection,
 * so nothing that follows can be taken for another.
 */
static const char *
skip_double(
    const char *head, const char *end, const struct head *h, const char *body)
{
    static const char what[] = "Content-Length</b>";
    size_t len = (size_t)(body - head);

    if (!h->is_last || (size_t)(end - body) < len ||
        memcmp(head, body, len) != 0)
        return body;
    const char *second = body + len;
    size_t left = (size_t)(end - second);
    int is_known =
        left == 0 || memmem(second, left, what, sizeof what - 1) != NULL;
    return is_known ? second : body;
}

const char *
answers_wrong(
    const char *text, size_t len, const struct answer_kind *kinds, size_t n)
{
    const char *end = text + len;

    while (text < end) {
        struct head h = {0};
        const char *head = text;
        text = read_head(text, end, &h);
        if (text == NULL)
            return "a head that is none";
        if (h.status == 100)
            continue;
        text = skip_double(head, end, &h, text);
        if (h.lengths != 1)
            return "no length, or two";
        text = read_body(text, end, &h, kinds, n);
        if (text == NULL)
            return "a status or a body that is not ours";
        if (h.is_last && text < end)
            return "something behind the last answer";
    }
    return NULL;
}
