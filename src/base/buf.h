#ifndef BUF_H
#define BUF_H

#include <stddef.h>

/*
 * A text that grows.  Adding never fails visibly: when memory runs out the
 * buffer remembers it, ignores what follows, and buf_failed() says so.  A
 * writer therefore adds freely and asks once, at the end.
 */
struct buf;

/* An empty buffer, or NULL when memory is out.  Free with buf_free(). */
struct buf *buf_new(void);

/* Free @b; NULL is ignored. */
void buf_free(struct buf *b);

/* Append @n bytes. */
void buf_add(struct buf *b, const void *bytes, size_t n);

/* Append a NUL-terminated text. */
void buf_text(struct buf *b, const char *text);

/* Append a formatted text. */
void buf_print(struct buf *b, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* Append @n copies of the byte @c. */
void buf_fill(struct buf *b, char c, size_t n);

/* Forget the contents, and any failure, and keep the memory. */
void buf_clear(struct buf *b);

/* The contents, NUL-terminated, valid until the next change; never NULL. */
const char *buf_str(const struct buf *b);

/* How many bytes buf_str() holds, without its NUL. */
size_t buf_len(const struct buf *b);

/* Nonzero when memory ran out at some addition since the last clear. */
int buf_failed(const struct buf *b);

#endif
