#include "buf.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct buf {
    char *bytes;
    size_t len;
    size_t size;
    int failed;
};

struct buf *
buf_new(void)
{
    return calloc(1, sizeof(struct buf));
}

void
buf_free(struct buf *b)
{
    if (b == NULL)
        return;
    free(b->bytes);
    free(b);
}

/* Make room for @n more bytes and a NUL. */
static int
reserve(struct buf *b, size_t n)
{
    if (b->failed)
        return -1;
    if (n < b->size - b->len)
        return 0;
    if (n > SIZE_MAX / 4 - b->len)
        goto fail;
    size_t size = b->size ? b->size : 256;
    while (size - b->len <= n)
        size *= 2;
    char *bytes = realloc(b->bytes, size);
    if (bytes == NULL)
        goto fail;
    b->bytes = bytes;
    b->size = size;
    return 0;
fail:
    b->failed = 1;
    return -1;
}

void
buf_add(struct buf *b, const void *bytes, size_t n)
{
    if (reserve(b, n))
        return;
    if (n > 0)
        memcpy(b->bytes + b->len, bytes, n);
    b->len += n;
    b->bytes[b->len] = '\0';
}

void
buf_text(struct buf *b, const char *text)
{
    buf_add(b, text, strlen(text));
}

/* Most texts fit into the room there is, so they are written at once; one that
 * does not is written again. */
void
buf_print(struct buf *b, const char *format, ...)
{
    va_list args;

    if (reserve(b, 0))
        return;
    size_t room = b->size - b->len;
    va_start(args, format);
    int n = vsnprintf(b->bytes + b->len, room, format, args);
    va_end(args);
    if (n < 0 || reserve(b, (size_t)n)) {
        b->bytes[b->len] = '\0';
        b->failed = 1;
        return;
    }
    /* It may not have fitted. */
    if ((size_t)n >= room) {
        va_start(args, format);
        vsnprintf(b->bytes + b->len, (size_t)n + 1, format, args);
        va_end(args);
    }
    b->len += (size_t)n;
}

void
buf_fill(struct buf *b, char c, size_t n)
{
    if (reserve(b, n))
        return;
    memset(b->bytes + b->len, c, n);
    b->len += n;
    b->bytes[b->len] = '\0';
}

void
buf_clear(struct buf *b)
{
    b->len = 0;
    b->failed = 0;
    if (b->bytes != NULL)
        b->bytes[0] = '\0';
}

const char *
buf_str(const struct buf *b)
{
    return b->bytes ? b->bytes : "";
}

size_t
buf_len(const struct buf *b)
{
    return b->len;
}

int
buf_failed(const struct buf *b)
{
    return b->failed;
}
